//! What to buy: everything that the bands of a kit are made of.

use super::{KitBand, KitOptions};
use crate::repeats::{ColorRepeat, PiecePlace, PlacedNeed, length_of, pieces_of};
use knotwright_band::thread::{PieceNeed, SkeinNeed, pack_skeins};
use knotwright_checker::{PatternBead, PatternThread, Shade, USUAL_LANGUAGE};
use knotwright_color::Rgb;
use knotwright_numbers::ToNumber;

/// One thread to buy.
#[derive(Debug, Clone, PartialEq)]
pub struct Bought {
    /// Its name and its color.
    pub thread: PatternThread,
    /// What it is called in the list.
    pub label: Option<String>,
    /// How many pieces are cut of it for all bands.
    pub pieces: u64,
    /// How long they are together, in millimeters.
    pub length: f64,
    /// From how many skeins they can be cut.
    pub skeins: SkeinNeed,
    /// If the thread changes color, how its pieces must be cut.
    pub repeat: Option<CutAtColor>,
    /// What the pieces weigh.
    pub grams: Option<f64>,
    /// What the skeins cost.
    pub cost: Option<f64>,
}

/// Pieces that begin, or are folded, where the first color of their thread begins. Lengths in millimeters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutAtColor {
    /// How far it is from where the first color begins to where it begins again.
    pub every: f64,
    /// Whether the longest pieces are folded there.
    pub is_folded: bool,
    /// How long those are.
    pub piece: f64,
    /// How many of those come from one skein that begins with the first color.
    pub from_skein: u64,
}

/// Beads of one sort to buy.
#[derive(Debug, Clone, PartialEq)]
pub struct BoughtBead {
    /// What they are like.
    pub bead: PatternBead,
    /// What they are called in the list.
    pub label: Option<String>,
    /// How many for all bands.
    pub count: u64,
}

/// The beads of all bands, in the order in which the patterns name them. Beads of two patterns are one if they are alike.
pub(super) fn list_beads(bands: &[KitBand], options: &KitOptions) -> Vec<BoughtBead> {
    let mut found: Vec<BoughtBead> = Vec::new();
    for (bead, count) in bands.iter().flat_map(|band| band.measured.bead_counts()) {
        let count = count * u64::from(options.count);
        let label = bead.look.label_in(USUAL_LANGUAGE).map(str::to_owned);
        let is_like = |of: &&mut BoughtBead| {
            shown(&of.bead.look) == shown(&bead.look)
                && of.bead.across.total_cmp(&bead.across).is_eq()
                && of.bead.hole.total_cmp(&bead.hole).is_eq()
        };
        match found.iter_mut().find(is_like) {
            Some(known) => known.count += count,
            None => found.push(BoughtBead { bead: bead.clone(), label, count }),
        }
    }
    found
}

/// What to buy in all.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BoughtTotal {
    /// Skeins.
    pub skeins: u64,
    /// No fewer are enough.
    pub at_least: u64,
    /// Pieces that cannot be cut from a skein.
    pub too_long: u64,
    /// How long all pieces are, in millimeters.
    pub length: f64,
    /// What they weigh.
    pub grams: Option<f64>,
    /// What the skeins cost.
    pub cost: Option<f64>,
}

/// The pieces of one thread.
struct ThreadNeed<'a> {
    thread: &'a PatternThread,
    pieces: Vec<PlacedNeed>,
    /// What they weigh, if that is known of all of them.
    grams: Option<f64>,
}

/// What all bands need, thread by thread, in the order in which the patterns name them. Threads of two patterns are one if
/// they have the same name, color and label, as the list shows them.
pub(super) fn list_bought(bands: &[KitBand], options: &KitOptions) -> Vec<Bought> {
    let mut needs: Vec<ThreadNeed> = Vec::new();
    for band in bands {
        add_pieces(&mut needs, band, options);
    }
    needs.iter().map(|need| need.bought(bands, options)).collect()
}

fn add_pieces<'a>(needs: &mut Vec<ThreadNeed<'a>>, band: &'a KitBand, options: &KitOptions) {
    let count = u64::from(options.count);
    for (number, thread) in (0_u16..).zip(&band.threads) {
        let all = |of: PlacedNeed| {
            let need = PieceNeed { count: of.need.count * count, ..of.need };
            PlacedNeed { need, ..of }
        };
        let pieces: Vec<PlacedNeed> = pieces_of(&band.measured, number).into_iter().map(all).collect();
        if pieces.is_empty() {
            continue;
        }
        let grams =
            band.density(options).map(|density| density.grams(length_of(pieces.iter().map(|of| &of.need))));
        match needs.iter_mut().find(|need| shown(need.thread) == shown(thread)) {
            Some(need) => {
                need.pieces.extend(pieces);
                need.grams = need.grams.zip(grams).map(|(before, new)| before + new);
            }
            None => needs.push(ThreadNeed { thread, pieces, grams }),
        }
    }
}

/// What the list shows of a thread.
fn shown(thread: &PatternThread) -> (&str, Rgb, Option<&str>, &[Shade]) {
    (&thread.name, thread.color, thread.label_in(USUAL_LANGUAGE), &thread.shades)
}

impl ThreadNeed<'_> {
    fn bought(&self, bands: &[KitBand], options: &KitOptions) -> Bought {
        let skein = bands.first().map_or(0.0, |band| band.measured.skein.0);
        let needs: Vec<PieceNeed> = self.pieces.iter().map(|of| of.need).collect();
        let repeat = ColorRepeat::of(self.thread);
        let skeins =
            repeat.map_or_else(|| pack_skeins(&needs, skein), |repeat| repeat.pack(&self.pieces, skein));
        Bought {
            thread: self.thread.clone(),
            label: self.thread.label_in(USUAL_LANGUAGE).map(str::to_owned),
            pieces: needs.iter().map(|need| need.count).sum(),
            length: length_of(&needs),
            skeins,
            repeat: repeat.and_then(|repeat| self.cut_at_color(repeat, skein)),
            grams: self.grams,
            cost: options.price.map(|price| price * skeins.skeins.to_f64()),
        }
    }

    /// The longest of the pieces that begin at a color.
    fn cut_at_color(&self, repeat: ColorRepeat, skein: f64) -> Option<CutAtColor> {
        let placed = self.pieces.iter().filter(|of| of.at != PiecePlace::Anywhere);
        let longest = placed.max_by(|one, other| one.need.length.total_cmp(&other.need.length))?;
        Some(CutAtColor {
            every: repeat.length(),
            is_folded: longest.at == PiecePlace::FoldedThere,
            piece: longest.need.length,
            from_skein: repeat.in_skein(*longest, skein),
        })
    }
}

impl BoughtTotal {
    /// Of all that is bought.
    pub(super) fn of(bought: &[Bought]) -> Self {
        let sum = |of: fn(&Bought) -> Option<f64>| bought.iter().map(of).sum::<Option<f64>>();
        Self {
            skeins: bought.iter().map(|of| of.skeins.skeins).sum(),
            at_least: bought.iter().map(|of| of.skeins.at_least).sum(),
            too_long: bought.iter().map(|of| of.skeins.too_long).sum(),
            length: bought.iter().map(|of| of.length).sum(),
            grams: sum(|of| of.grams),
            cost: sum(|of| of.cost),
        }
    }
}
