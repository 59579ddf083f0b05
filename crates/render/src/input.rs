//! What is drawn: plain numbers, borrowed from whoever tied the band.

use std::ops::Range;

use knotwright_band::Piece;
use knotwright_band::beads::BeadAt;
use knotwright_band::ends::BandEnds;
use knotwright_band::thread::Figures;
use knotwright_color::{Eyes, Rgb};

/// A band to be drawn. Nothing in it need fit together: what cannot be tied is left out of the picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Band<'a> {
    /// What the picture is called, for those who hear it; may be empty.
    pub title: String,
    /// The threads.
    pub threads: Vec<BandThread>,
    /// The beads.
    pub beads: Vec<BandBead>,
    /// By starting position, the index of the thread that hangs there; at most 200.
    pub strands: Vec<u16>,
    /// How large a knot is.
    pub gauge: KnotSize,
    /// How the strands hang at the start.
    pub start: StrandStart,
    /// What is made of the strands at both ends.
    pub made: BandEnds,
    /// What knots and ends take of a thread. If it is not known, threads that change color are seen in their first one.
    pub taken: Option<ThreadTaken>,
    /// What is tied, one after another: the opening, every pass of the set, the closing.
    pub parts: Vec<BandPart<'a>>,
}

/// A thread.
#[derive(Debug, Clone, PartialEq)]
pub struct BandThread {
    /// What a legend calls it.
    pub name: String,
    /// Its color; of one that changes color, the first.
    pub color: Rgb,
    /// If it changes color along its length: its colors, which come over and over, the first one first. Otherwise none.
    pub shades: Vec<ThreadShade>,
}

/// One color of a thread that changes color.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThreadShade {
    /// The color.
    pub color: Rgb,
    /// How far it goes, in millimeters.
    pub length: f64,
}

/// What knots and ends take of a thread, in millimeters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThreadTaken {
    /// What knots and rows take.
    pub figures: Figures,
    /// What a strand gives before the first row.
    pub before: f64,
}

/// A bead.
#[derive(Debug, Clone, PartialEq)]
pub struct BandBead {
    /// What a legend calls it.
    pub name: String,
    /// Its color.
    pub color: Rgb,
    /// How large it is, in millimeters.
    pub across: f64,
    /// How wide its hole is, in millimeters.
    pub hole: f64,
}

/// The size of a knot in millimeters, as the band lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KnotSize {
    /// From one position to the next.
    pub width: f64,
    /// From one row to the next.
    pub pitch: f64,
    /// Of a strand in a tight knot.
    pub thickness: f64,
}

impl Default for KnotSize {
    /// A thread of 0.9 mm, softness 0.85: a position is 1.5 and a row is 2 effective thicknesses.
    fn default() -> Self {
        let thickness = 0.9 * 0.85;
        Self { width: 1.5 * thickness, pitch: 2.0 * thickness, thickness }
    }
}

/// How the strands hang; pairs are starting positions that are one thread, from 0.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum StrandStart {
    /// Each by itself.
    #[default]
    Loose,
    /// Each pair folded in its middle.
    Folded(Vec<(u8, u8)>),
    /// All pairs together folded into a loop.
    Loop(Vec<(u8, u8)>),
}

/// Something tied without a break: an opening, one pass of a set, a closing. A piece with another number of strands
/// than the band is left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BandPart<'a> {
    /// Its knots; strands are named by their position as it begins.
    pub piece: &'a Piece,
    /// Ranges of knots that are one step of the script; ascending, none overlaps another. May be empty.
    pub steps: &'a [Range<u32>],
    /// By knot, the thread that is to be seen where nothing ties it yet (`None`: whatever thread); then the knots of the
    /// piece only say where it lies.
    pub wish: Option<&'a [Option<u16>]>,
    /// Beads on its strands, in the order of threading.
    pub beads: Vec<BeadAt>,
    /// Which set it is, from 0; 0 of what is no set. A join may be that of one set alone.
    pub set: u64,
}

impl Band<'_> {
    /// The same band in the colors that other eyes see.
    pub fn seen_by(mut self, eyes: Eyes) -> Self {
        self.threads = self.threads.into_iter().map(|thread| thread.seen_by(eyes)).collect();
        for bead in &mut self.beads {
            bead.color = eyes.see(bead.color);
        }
        self
    }
}

impl BandThread {
    /// The same thread in the colors that other eyes see.
    pub fn seen_by(mut self, eyes: Eyes) -> Self {
        self.color = eyes.see(self.color);
        for shade in &mut self.shades {
            shade.color = eyes.see(shade.color);
        }
        self
    }
}
