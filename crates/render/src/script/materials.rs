//! What is needed before the first knot.

/// The cut list, and what it rests on. Lengths are written out with their unit and a decimal point (`15.2 cm`).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Materials {
    /// Of the knotted part.
    pub length: String,
    /// Whether nobody said how long it is to be.
    pub length_assumed: bool,
    /// Of the band.
    pub width: String,
    /// Rows of knots in all.
    pub rows: u64,
    /// Of a set by itself, where each begins in the last rows of the one before it.
    pub rows_of_set: Option<u64>,
    /// Left free at each end.
    pub ends: String,
    /// Of every strand, in each knot of all strands that holds the ends.
    pub knot: String,
    /// Of the loop at the start, if there is one.
    pub loop_length: Option<String>,
    /// What the lengths rest on.
    pub basis: StatedBasis,
    /// How far they may be off, in percent.
    pub percent: u32,
    /// The threads to cut.
    pub pieces: Vec<CutPiece>,
    /// The threads with which joined strands go on.
    pub joined: Vec<JoinedPiece>,
    /// The threads to cut that go around an end.
    pub own: Vec<OwnPiece>,
    /// By thread: its number, and how much of it in all.
    pub totals: Vec<(u16, String)>,
    /// Of threads that change color, where their pieces are cut.
    pub repeats: Vec<CutAtRepeat>,
}

/// What is needed of a thread whose pieces all begin, or are folded, where its first color begins.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutAtRepeat {
    /// Which thread.
    pub thread: u16,
    /// How far it is to where the first color begins again.
    pub every: String,
    /// Whether pieces are folded there.
    pub is_folded: bool,
    /// How much of it is enough, with what lies between the pieces.
    pub needed: String,
}

/// What the lengths rest on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StatedBasis {
    /// A swatch that was measured.
    Swatch,
    /// Thread of this thickness.
    Thickness(String),
    /// Thread of this thickness, as nothing is known.
    Assumed(String),
}

/// A thread to cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutPiece {
    /// The strands it makes, one or two, by starting position.
    pub strands: Vec<u8>,
    /// How long it is cut.
    pub length: String,
}

/// A thread with which a joined strand goes on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JoinedPiece {
    /// The strand, by starting position.
    pub strand: u8,
    /// Which thread.
    pub thread: u16,
    /// How long it is cut.
    pub length: String,
}

/// Threads to cut that go around an end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OwnPiece {
    /// Which thread.
    pub thread: u16,
    /// How many.
    pub count: u32,
    /// How long each is cut.
    pub length: String,
}

/// In which unit lengths are said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum StatedUnit {
    /// Millimeters.
    Millimeter,
    /// Centimeters.
    #[default]
    Centimeter,
    /// Inches.
    Inch,
}

impl StatedUnit {
    /// A length as closely as a band is measured: to a millimeter, to a tenth of an inch.
    pub fn finished(self, millimeters: f64) -> String {
        match self {
            Self::Millimeter => format!("{millimeters:.0} mm"),
            Self::Centimeter => format!("{:.1} cm", millimeters / 10.0),
            Self::Inch => format!("{:.1} in", millimeters / 25.4),
        }
    }
}

impl Materials {
    /// The same after the strands were hung in other places.
    pub(super) fn moved(&mut self, place: impl Fn(u8) -> u8) {
        for piece in &mut self.pieces {
            piece.strands.iter_mut().for_each(|strand| *strand = place(*strand));
            piece.strands.sort_unstable();
        }
        self.pieces.sort_by_key(|piece| piece.strands.first().copied());
        self.joined.iter_mut().for_each(|piece| piece.strand = place(piece.strand));
        self.joined.sort_by_key(|piece| piece.strand);
    }
}
