//! Where in a band somebody is, by how the strands hang.

mod json;
mod words;

pub(crate) use json::LocatedJson;
pub(crate) use words::{FileLine, step_in_words, text};

use knotwright_band::Layout;
use knotwright_band::compare::Colored;
use knotwright_band::locate::{Suspect, find_suspects, locate_hang, one_slip_away};
use knotwright_checker::{Part, PartKind, Pattern, Step};
use knotwright_maker::{WholeBand, closing_after, passage_of};
use knotwright_numbers::ToNumber;
use knotwright_render::StepNumber;
use std::borrow::Cow;
use std::cell::OnceCell;
use std::ops::Range;

/// A part of the band as it is tied one of many times.
pub(crate) struct TiedStretch<'a> {
    pub(crate) part: PartKind,
    /// Which set, from 0.
    pub(crate) set: u64,
    /// Its knots, and its steps, which say on which lines they are.
    tied: Cow<'a, Part>,
    /// By position as it begins, the thread.
    colors: Vec<u16>,
    /// By step, its number in the instructions; made out when somebody asks.
    numbers: OnceCell<Vec<Option<StepNumber>>>,
}

/// Where in a stretch: how many of its knots may be tied.
pub(crate) struct StepSpot<'a> {
    pub(crate) stretch: &'a TiedStretch<'a>,
    pub(crate) steps: Range<u32>,
}

/// A knot that may have been tied wrong.
pub(crate) struct Slip<'a> {
    pub(crate) stretch: &'a TiedStretch<'a>,
    /// How many knots are tied in all.
    pub(crate) step: u32,
    pub(crate) suspect: Suspect,
    /// The brick row of the knot, from 0.
    pub(crate) row: u32,
}

/// What was found.
pub(crate) struct FoundPlaces<'a> {
    /// How many times two neighbors would have to change places.
    pub(crate) distance: u32,
    pub(crate) spots: Vec<StepSpot<'a>>,
    /// If none fits: knots that may be to blame, the least to untie first.
    pub(crate) slips: Vec<Slip<'a>>,
    /// After how many sets everything comes again; `None` if that is not known.
    pub(crate) again_after: Option<u64>,
}

/// Knots are looked at up to here; a band of more repeats itself, or nobody ties it.
const MOST_KNOTS: usize = 500_000;

/// The most steps that are asked what may have gone wrong there, and the most answers that are kept.
const MOST_ASKED: usize = 400;
const MOST_SLIPS: usize = 3;

/// The opening, the sets until the colors come again (or as many as are tied), and the closing.
pub(crate) fn stretches<'a>(pattern: &'a Pattern, whole: &'a WholeBand) -> Vec<TiedStretch<'a>> {
    let mut stretches = Vec::new();
    if let Some(opening) = &pattern.opening {
        let (tied, colors) = (Cow::Borrowed(opening), pattern.strands.clone());
        stretches.push(TiedStretch {
            part: PartKind::Opening,
            set: 0,
            tied,
            colors,
            numbers: OnceCell::new(),
        });
    }
    stretches.extend(sets(pattern, whole));
    let colors = whole.threads_after(pattern, whole.times.unwrap_or(1));
    if let Some(tied) = closing_after(pattern, &colors) {
        stretches.push(TiedStretch {
            part: PartKind::Closing,
            set: 0,
            tied,
            colors,
            numbers: OnceCell::new(),
        });
    }
    stretches
}

fn sets<'a>(pattern: &'a Pattern, whole: &'a WholeBand) -> impl Iterator<Item = TiedStretch<'a>> {
    let different = whole.repeats.map_or(1, |repeats| repeats.run_in.saturating_add(repeats.colors));
    let sets = whole.times.map_or(different, |times| times.min(different));
    let mut hang = whole.opening.threads_after(&pattern.strands);
    let mut knots = 0;
    (0..sets).map_while(move |set| {
        let tied = whole.set_part(pattern, set)?;
        knots += tied.piece.knots().len();
        if set > 0 && knots > MOST_KNOTS {
            return None;
        }
        let after = tied.piece.threads_after(&hang);
        let colors = std::mem::replace(&mut hang, after);
        Some(TiedStretch {
            part: PartKind::Set,
            set,
            tied: Cow::Borrowed(tied),
            colors,
            numbers: OnceCell::new(),
        })
    })
}

/// Where the strands hang as in `hang` (threads by position), or come nearest to it.
pub(crate) fn located<'a>(
    stretches: &'a [TiedStretch<'a>],
    whole: &WholeBand,
    hang: &[u16],
) -> FoundPlaces<'a> {
    let again_after = whole.repeats.filter(|repeats| repeats.run_in == 0).map(|repeats| repeats.colors);
    let mut located = FoundPlaces { distance: u32::MAX, spots: Vec::new(), slips: Vec::new(), again_after };
    for stretch in stretches {
        let Ok(found) = locate_hang(stretch.band(), hang) else { continue };
        if found.distance < located.distance {
            located.distance = found.distance;
            located.spots.clear();
        }
        if found.distance == located.distance {
            located.spots.extend(found.steps.into_iter().map(|steps| StepSpot { stretch, steps }));
        }
    }
    located.spots = once(located.spots);
    if located.distance > 0 {
        located.slips = slips(stretches, hang);
    }
    located
}

/// As one part ends, the next begins: that place is listed once, as a beginning.
fn once(mut spots: Vec<StepSpot>) -> Vec<StepSpot> {
    if spots.iter().any(|spot| spot.steps.start == 0) {
        for spot in spots.iter_mut().filter(|spot| spot.steps.start > 0) {
            spot.steps.end = spot.steps.end.min(spot.stretch.knots());
        }
        spots.retain(|spot| !spot.steps.is_empty());
    }
    spots
}

impl StepSpot<'_> {
    /// The least and the most knots that are tied there.
    pub(crate) fn tied(&self) -> (u32, u32) {
        (self.steps.start, self.steps.end.saturating_sub(1))
    }
}

impl TiedStretch<'_> {
    fn band(&self) -> Colored<'_> {
        Colored { piece: &self.tied.piece, colors: &self.colors }
    }

    /// How many knots it has.
    pub(crate) fn knots(&self) -> u32 {
        u32::try_from(self.tied.piece.knots().len()).unwrap_or(u32::MAX)
    }

    /// The statement that ties a knot.
    pub(crate) fn step(&self, knot: u32) -> Option<&Step> {
        self.tied.steps.get(self.tied.step_of(knot)?)
    }

    /// Where the instructions tie a knot, as they are written for this part alone.
    pub(crate) fn number(&self, knot: u32) -> Option<&StepNumber> {
        let numbers = self.numbers.get_or_init(|| passage_of(&self.tied, None).step_numbers());
        numbers.get(self.tied.step_of(knot)?)?.as_ref()
    }

    /// A knot's gap, from 0.
    pub(crate) fn gap(&self, knot: u32) -> u8 {
        self.tied.piece.knots().get(knot.to_usize()).map_or(0, |knot| knot.gap)
    }
}

/// Knots that, tied wrong, would have led here, if two strands hang exchanged.
fn slips<'a>(stretches: &'a [TiedStretch<'a>], hang: &[u16]) -> Vec<Slip<'a>> {
    let mut slips: Vec<Slip<'a>> = Vec::new();
    for stretch in stretches {
        let steps = one_slip_away(stretch.band(), hang).unwrap_or_default();
        let rows = Layout::of(&stretch.tied.piece.in_bricks()).rows;
        for step in steps.into_iter().flatten().take(MOST_ASKED) {
            let found = find_suspects(stretch.band(), hang, step).unwrap_or_default();
            let slip = |suspect: Suspect| Slip { stretch, step, suspect, row: rows[suspect.knot.to_usize()] };
            slips.extend(found.into_iter().map(slip));
        }
    }
    slips.sort_by_key(|slip| (slip.suspect.untie, slip.stretch.set, slip.step));
    slips.dedup_by_key(|slip| (slip.stretch.part, slip.stretch.set, slip.suspect.knot));
    slips.truncate(MOST_SLIPS);
    slips
}
