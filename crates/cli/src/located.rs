//! Where in a band somebody is, by how the strands hang.

mod json;
mod words;

pub(crate) use json::Json;
pub(crate) use words::text;

use crate::bands::Band;
use knotwright_band::compare::Colored;
use knotwright_band::locate::{Suspect, locate, one_slip_away, suspects};
use knotwright_band::orders::one_then;
use knotwright_band::{Layout, Piece};
use knotwright_checker::{Part as Tied, Step};
use knotwright_maker::{Reckoning, colors_after};
use knotwright_rewriter::Part;
use std::ops::Range;

/// A part of the band as it is tied one of many times.
pub(crate) struct Stretch {
    pub(crate) part: Part,
    /// Which set, from 0.
    pub(crate) set: u64,
    piece: Piece,
    /// Its steps, to tell lines.
    tied: Tied,
    /// By position as it begins, the thread.
    colors: Vec<u16>,
}

/// Steps of a stretch: so many of its knots are tied.
pub(crate) struct Spot<'a> {
    pub(crate) stretch: &'a Stretch,
    pub(crate) steps: Range<u32>,
}

/// A knot that may have been tied wrong.
pub(crate) struct Slip<'a> {
    pub(crate) stretch: &'a Stretch,
    /// So many knots were tied in all.
    pub(crate) step: u32,
    pub(crate) suspect: Suspect,
    /// The brick row of the knot, from 0.
    pub(crate) row: u32,
}

/// What was found.
pub(crate) struct Located<'a> {
    /// How many times two neighbors would have to change places.
    pub(crate) distance: u32,
    pub(crate) spots: Vec<Spot<'a>>,
    /// If none fits: knots that may be to blame, the least to untie first.
    pub(crate) slips: Vec<Slip<'a>>,
    /// After so many sets all comes again; none if it is not known.
    pub(crate) again_after: Option<u64>,
}

/// Knots are looked at up to here; a band of more repeats itself, or nobody ties it.
const MOST_KNOTS: usize = 500_000;

/// So many steps are asked for what may have gone wrong there, and so many answers are kept.
const MOST_ASKED: usize = 400;
const MOST_SLIPS: usize = 3;

/// The opening, the sets until the colors come again (or as many as are tied), and the closing.
pub(crate) fn stretches(band: &Band, reckoning: &Reckoning) -> Vec<Stretch> {
    let pattern = &band.pattern;
    let colors = |order: &[u8]| colors_after(pattern, order);
    let start: Vec<u8> = (0..pattern.strands.len() as u8).collect();
    let mut stretches = Vec::new();
    if let Some(tied) = pattern.opening.clone() {
        let (piece, colors) = (reckoning.opening.clone(), colors(&start));
        stretches.push(Stretch { part: Part::Opening, set: 0, piece, tied, colors });
    }
    let different = reckoning.repeats.map_or(1, |repeats| repeats.run_in.saturating_add(repeats.colors));
    let sets = reckoning.times.map_or(different, |times| times.min(different));
    let (mut order, mut knots) = (reckoning.opening.order().to_vec(), 0);
    for set in 0..if pattern.set.is_some() { sets } else { 0 } {
        let piece = reckoning.sets.set(set).clone();
        knots += piece.knots().len();
        if set > 0 && knots > MOST_KNOTS {
            break;
        }
        let tied = if pattern.picks_by_color { pattern.set_from(&order) } else { pattern.set.clone() };
        let colors = colors(&order);
        order = one_then(&order, piece.order());
        stretches.push(Stretch { part: Part::Set, set, piece, tied: tied.unwrap_or_default(), colors });
    }
    if let Some(tied) = pattern.closing.clone() {
        let before =
            one_then(reckoning.opening.order(), &reckoning.sets.order_after(reckoning.times.unwrap_or(1)));
        let (piece, colors) = (reckoning.closing.clone(), colors(&before));
        stretches.push(Stretch { part: Part::Closing, set: 0, piece, tied, colors });
    }
    stretches
}

/// Where the strands hang as in `hang` (threads by position), or come nearest to it.
pub(crate) fn located<'a>(stretches: &'a [Stretch], reckoning: &Reckoning, hang: &[u16]) -> Located<'a> {
    let again_after = reckoning.repeats.filter(|repeats| repeats.run_in == 0).map(|repeats| repeats.colors);
    let mut located = Located { distance: u32::MAX, spots: Vec::new(), slips: Vec::new(), again_after };
    for stretch in stretches {
        let Ok(found) = locate(stretch.band(), hang) else { continue };
        if found.distance < located.distance {
            located.distance = found.distance;
            located.spots.clear();
        }
        if found.distance == located.distance {
            located.spots.extend(found.steps.into_iter().map(|steps| Spot { stretch, steps }));
        }
    }
    located.spots = once(located.spots);
    if located.distance > 0 {
        located.slips = slips(stretches, hang);
    }
    located
}

/// As one part ends, the next begins: that place is told once, as a beginning.
fn once(mut spots: Vec<Spot>) -> Vec<Spot> {
    if spots.iter().any(|spot| spot.steps.start == 0) {
        for spot in spots.iter_mut().filter(|spot| spot.steps.start > 0) {
            spot.steps.end = spot.steps.end.min(spot.stretch.knots());
        }
        spots.retain(|spot| !spot.steps.is_empty());
    }
    spots
}

impl Spot<'_> {
    /// The least and the most knots that are tied there.
    pub(crate) fn tied(&self) -> (u32, u32) {
        (self.steps.start, self.steps.end.saturating_sub(1))
    }
}

impl Stretch {
    fn band(&self) -> Colored<'_> {
        Colored { piece: &self.piece, colors: &self.colors }
    }

    /// How many knots it has.
    pub(crate) fn knots(&self) -> u32 {
        self.piece.knots().len() as u32
    }

    /// The statement that ties a knot.
    pub(crate) fn step(&self, knot: u32) -> Option<&Step> {
        let steps = &self.tied.steps;
        // They come in the order they are tied, some of them without knots.
        let at = steps.partition_point(|step| step.knots.end <= knot);
        steps.get(at).filter(|step| step.knots.contains(&knot))
    }

    /// A knot's gap, from 0.
    pub(crate) fn gap(&self, knot: u32) -> u8 {
        self.piece.knots().get(knot as usize).map_or(0, |knot| knot.gap)
    }
}

/// Knots that, tied wrong, would have led here, if two strands hang exchanged.
fn slips<'a>(stretches: &'a [Stretch], hang: &[u16]) -> Vec<Slip<'a>> {
    let mut slips: Vec<Slip<'a>> = Vec::new();
    for stretch in stretches {
        let steps = one_slip_away(stretch.band(), hang).unwrap_or_default();
        let rows = Layout::of(&stretch.piece.in_bricks()).rows;
        for step in steps.into_iter().flatten().take(MOST_ASKED) {
            let found = suspects(stretch.band(), hang, step).unwrap_or_default();
            let slip = |suspect: Suspect| Slip { stretch, step, suspect, row: rows[suspect.knot as usize] };
            slips.extend(found.into_iter().map(slip));
        }
    }
    slips.sort_by_key(|slip| (slip.suspect.untie, slip.stretch.set, slip.step));
    slips.dedup_by_key(|slip| (slip.stretch.part, slip.stretch.set, slip.suspect.knot));
    slips.truncate(MOST_SLIPS);
    slips
}
