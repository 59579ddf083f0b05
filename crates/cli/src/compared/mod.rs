//! Two bands beside each other: what is found out, before it is put into words.

mod json;
mod markdown;
mod palette;
mod textconv;
mod thread;
mod words;

pub(crate) use json::Json;
pub(crate) use markdown::markdown;
pub(crate) use textconv::textconv;
pub(crate) use words::text;

use crate::bands::Band;
use knotwright_band::compare::{
    Colored, Edits, Follows, Likeness, UpTo, edits, follows, likeness, same_up_to,
};
use knotwright_band::{Layout, Piece, normal_form};
use knotwright_maker::Reckoning;
use knotwright_rewriter::{Part, begins};
use palette::Palette;
use thread::{ThreadChange, thread_changes};

/// How alike two bands are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Verdict {
    /// The same knots in the same places and colors, however they are written.
    Same,
    /// Other knots, but the same color everywhere.
    SameLook,
    /// Neither.
    Different,
}

/// Two bands, compared.
pub(crate) struct Compared<'a> {
    pub(crate) one: &'a Band,
    pub(crate) other: &'a Band,
    pub(crate) verdict: Verdict,
    /// The parts that either has; none if they have different numbers of strands.
    pub(crate) parts: Vec<PartChange>,
    /// If the first sets are alike: the first later set (from 0) that is not, as strands are picked by color.
    pub(crate) later_set: Option<u64>,
    /// What makes the set of the first that of the other; none if they are the same, or not even so.
    pub(crate) up_to: Option<UpTo>,
    /// By color, thread that is needed more or less.
    pub(crate) threads: Vec<ThreadChange>,
    pub(crate) palette: Palette,
}

/// One part in both bands; where one has none, without knots.
pub(crate) struct PartChange {
    pub(crate) part: Part,
    pub(crate) pieces: [Piece; 2],
    pub(crate) likeness: Likeness,
    pub(crate) edits: Edits,
    pub(crate) follows: Follows,
    /// By band and knot, the brick row.
    pub(crate) rows: [Vec<u32>; 2],
}

impl PartChange {
    /// Whether anything is different.
    pub(crate) fn is_change(&self) -> bool {
        self.likeness != Likeness::Same
    }
}

/// So many sets are looked at when strands are picked by color.
const MOST_SETS: u64 = 1_000;

impl<'a> Compared<'a> {
    /// Compares two bands. `None` if one of them cannot be tied, which a checked pattern always can.
    pub(crate) fn new(one: &'a Band, other: &'a Band) -> Option<Self> {
        let palette = Palette::of([&one.pattern, &other.pattern]);
        let threads = thread_changes(one, other, &palette);
        if one.pattern.strands.len() != other.pattern.strands.len() {
            let (verdict, parts) = (Verdict::Different, Vec::new());
            return Some(Self { one, other, verdict, parts, later_set: None, up_to: None, threads, palette });
        }
        let part = |part| part_change(part, [one, other], &palette);
        let has = |part: &Part| part.of(&one.pattern).is_some() || part.of(&other.pattern).is_some();
        let parts = Part::ALL.into_iter().filter(has).map(part).collect::<Option<Vec<_>>>()?;
        let later_set = later_set(one, other);
        let verdict = verdict(&parts, later_set, [one, other], &palette);
        let up_to = (verdict != Verdict::Same).then(|| up_to(&parts, [one, other], &palette)).flatten();
        Some(Self { one, other, verdict, parts, later_set, up_to, threads, palette })
    }
}

fn part_change(part: Part, bands: [&Band; 2], palette: &Palette) -> Option<PartChange> {
    let strands = bands[0].pattern.strands.len();
    let piece = |band: &Band| match part.of(&band.pattern) {
        Some(_) => part.piece(&band.pattern),
        None => Some(Piece::empty(strands)),
    };
    let pieces = [piece(bands[0])?, piece(bands[1])?];
    let colors =
        [0, 1].map(|band: usize| begins(&bands[band].pattern, part).map(|hang| palette.colors(band, &hang)));
    let [Some(colors_of_one), Some(colors_of_other)] = &colors else { return None };
    let one = Colored { piece: &pieces[0], colors: colors_of_one };
    let other = Colored { piece: &pieces[1], colors: colors_of_other };
    let edits = edits(one.piece, other.piece)?;
    let follows = follows(one, other, &edits);
    let likeness = likeness(one, other);
    let rows = [0, 1].map(|band: usize| Layout::of(&pieces[band].in_bricks()).rows);
    Some(PartChange { part, likeness, edits, follows, rows, pieces })
}

/// Sets that pick by color may differ later though the first are alike.
fn later_set(one: &Band, other: &Band) -> Option<u64> {
    if !one.pattern.picks_by_color && !other.pattern.picks_by_color {
        return None;
    }
    let [one, other] = [one, other].map(|band| Reckoning::of(&band.pattern).ok());
    let (one, other) = (one?.sets, other?.sets);
    let length = |sets: &knotwright_band::Sets| (sets.run_in().len() + sets.period().len()) as u64;
    let most = length(&one).saturating_add(length(&other)).min(MOST_SETS);
    (1..most).find(|&set| normal_form(one.set(set)) != normal_form(other.set(set)))
}

fn verdict(parts: &[PartChange], later_set: Option<u64>, bands: [&Band; 2], palette: &Palette) -> Verdict {
    let all = |wanted: fn(Likeness) -> bool| parts.iter().all(|part| wanted(part.likeness));
    // If the sets leave the colors in other places, the next sets look otherwise.
    let after =
        |band: usize| begins(&bands[band].pattern, Part::Closing).map(|hang| palette.colors(band, &hang));
    if later_set.is_some() {
        Verdict::Different
    } else if all(|likeness| likeness == Likeness::Same) {
        Verdict::Same
    } else if all(|likeness| likeness != Likeness::Different) && after(0) == after(1) {
        Verdict::SameLook
    } else {
        Verdict::Different
    }
}

fn up_to(parts: &[PartChange], bands: [&Band; 2], palette: &Palette) -> Option<UpTo> {
    let set = parts.iter().find(|part| part.part == Part::Set)?;
    if bands.iter().any(|band| band.pattern.picks_by_color || band.pattern.set.is_none()) {
        return None;
    }
    let colors =
        |band: usize| begins(&bands[band].pattern, Part::Set).map(|hang| palette.colors(band, &hang));
    let (one, other) = (colors(0)?, colors(1)?);
    let up_to = same_up_to(
        Colored { piece: &set.pieces[0], colors: &one },
        Colored { piece: &set.pieces[1], colors: &other },
    )?;
    (up_to != UpTo::default()).then_some(up_to)
}
