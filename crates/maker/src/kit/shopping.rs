//! What to buy: everything that the bands of a kit are made of.

use super::{KitBand, KitOptions};
use crate::measured::first_strand;
use knotwright_band::thread::{PieceNeed, SkeinNeed, pack_skeins};
use knotwright_checker::{PatternBead, PatternThread, USUAL_LANGUAGE};
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
    /// What the pieces weigh.
    pub grams: Option<f64>,
    /// What the skeins cost.
    pub cost: Option<f64>,
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
    pieces: Vec<PieceNeed>,
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
    let (measured, count) = (&band.measured, u64::from(options.count));
    for (number, thread) in band.threads.iter().enumerate() {
        let is_its = |strand: u8| {
            let thread = measured.pattern.strands.get(usize::from(strand));
            thread.is_some_and(|thread| usize::from(*thread) == number)
        };
        let cuts = measured.pieces.iter().filter(|cut| is_its(first_strand(**cut)));
        let cuts = cuts.map(|cut| PieceNeed { length: cut.length(), count });
        let own = measured.own.iter().filter(|own| usize::from(own.thread) == number);
        let own = own.map(|own| PieceNeed { length: own.length, count: count * u64::from(own.count) });
        let joined = measured.joined.iter().filter(|piece| usize::from(piece.thread) == number);
        let joined = joined.map(|piece| PieceNeed { length: piece.cut, count });
        let pieces: Vec<PieceNeed> = cuts.chain(joined).chain(own).collect();
        if pieces.is_empty() {
            continue;
        }
        let grams = band.density(options).map(|density| density.grams(length(&pieces)));
        match needs.iter_mut().find(|need| shown(need.thread) == shown(thread)) {
            Some(need) => {
                need.pieces.extend(pieces);
                need.grams = need.grams.zip(grams).map(|(before, new)| before + new);
            }
            None => needs.push(ThreadNeed { thread, pieces, grams }),
        }
    }
}

/// How long all pieces are together, in millimeters.
fn length(pieces: &[PieceNeed]) -> f64 {
    pieces.iter().map(|need| need.length * need.count.to_f64()).sum()
}

/// What the list shows of a thread.
fn shown(thread: &PatternThread) -> (&str, Rgb, Option<&str>) {
    (&thread.name, thread.color, thread.label_in(USUAL_LANGUAGE))
}

impl ThreadNeed<'_> {
    fn bought(&self, bands: &[KitBand], options: &KitOptions) -> Bought {
        let skein = bands.first().map_or(0.0, |band| band.measured.skein.0);
        let skeins = pack_skeins(&self.pieces, skein);
        Bought {
            thread: self.thread.clone(),
            label: self.thread.label_in(USUAL_LANGUAGE).map(str::to_owned),
            pieces: self.pieces.iter().map(|need| need.count).sum(),
            length: length(&self.pieces),
            skeins,
            grams: self.grams,
            cost: options.price.map(|price| price * skeins.skeins.to_f64()),
        }
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
