//! Two bands compared: what is found out, before it is put into words.

mod details;
mod json;
mod markdown;
mod palette;
mod thread;
mod words;

pub(crate) use details::Detail;
pub(crate) use json::ComparedJson;
pub(crate) use markdown::{changes as markdown_of_changes, markdown, plain};
pub(crate) use words::{changes, detail, headline, text};

use crate::bands::BandFile;
use knotwright_band::compare::{
    Colored, Follows, KnotEdits, Likeness, UpTo, compare_bands, find_edits, find_follows, same_up_to,
};
use knotwright_band::{JoinMark, Layout, Piece, normal_form};
use knotwright_checker::PartKind;
use knotwright_maker::WholeBand;
use knotwright_numbers::ToNumber;

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
pub(crate) struct Compared {
    pub(crate) one: BandFile,
    pub(crate) other: BandFile,
    pub(crate) verdict: Verdict,
    /// The parts that either has; none if they have different numbers of strands.
    pub(crate) parts: Vec<PartChange>,
    /// If all is alike up to the first set: the first later set (from 0) that is not, as strands are picked by color.
    pub(crate) later_set: Option<u64>,
    /// What makes the set of the first that of the other; none if they are the same, or not even so.
    pub(crate) up_to: Option<UpTo>,
    /// By color, thread that is needed more or less.
    pub(crate) threads: Vec<ThreadChange>,
    /// What differs besides the knots.
    pub(crate) details: Vec<Detail>,
    pub(crate) palette: Palette,
}

/// One part in both bands; where one has none, without knots.
pub(crate) struct PartChange {
    pub(crate) part: PartKind,
    pub(crate) pieces: [Piece; 2],
    pub(crate) likeness: Likeness,
    pub(crate) edits: KnotEdits,
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

/// The most sets that are looked at when strands are picked by color.
const MOST_SETS: u64 = 1_000;

impl Compared {
    /// Compares two bands.
    pub(crate) fn new(one: BandFile, other: BandFile) -> Self {
        let palette = Palette::of([&one.pattern, &other.pattern]);
        let threads = thread_changes(&one, &other, &palette);
        let mut details = details::of_heads([&one.pattern, &other.pattern]);
        if one.pattern.strands.len() != other.pattern.strands.len() {
            let (verdict, parts) = (Verdict::Different, Vec::new());
            return Self {
                one,
                other,
                verdict,
                parts,
                later_set: None,
                up_to: None,
                threads,
                details,
                palette,
            };
        }
        let bands = [&one, &other];
        let part = |part| part_change(part, bands, &palette);
        let has = |part: &PartKind| bands.iter().any(|band| band.pattern.part(*part).is_some());
        let parts: Vec<_> = PartKind::ALL.into_iter().filter(has).filter_map(part).collect();
        details.extend(details::of_parts(&parts, bands.map(|band| &band.pattern)));
        let begins_alike = parts.iter().all(|part| part.part == PartKind::Closing || !part.is_change());
        let later_set = begins_alike.then(|| later_set(bands)).flatten();
        let verdict = verdict(&parts, later_set, bands, &palette);
        let up_to = (verdict != Verdict::Same).then(|| up_to(&parts, bands, &palette)).flatten();
        Self { verdict, parts, later_set, up_to, threads, details, palette, one, other }
    }
}

fn part_change(part: PartKind, bands: [&BandFile; 2], palette: &Palette) -> Option<PartChange> {
    let strands = bands[0].pattern.strands.len();
    let piece = |band: &BandFile| {
        band.pattern.part(part).map_or_else(|| Piece::empty(strands), |part| part.piece.clone())
    };
    let pieces = bands.map(piece);
    let colors = colors_before(part, bands, palette);
    let one = Colored { piece: &pieces[0], colors: &colors[0] };
    let other = Colored { piece: &pieces[1], colors: &colors[1] };
    let edits = find_edits(one.piece, other.piece)?;
    let follows = find_follows(one, other, &edits);
    let likeness = match recolored(part, bands, palette) {
        [before, after] if before != after => Likeness::Different,
        _ => compare_bands(one, other),
    };
    let rows = [0, 1].map(|band: usize| Layout::of(&pieces[band].in_bricks()).rows);
    Some(PartChange { part, likeness, edits, follows, rows, pieces })
}

/// By band, and by position as a part begins: the color there.
fn colors_before(part: PartKind, bands: [&BandFile; 2], palette: &Palette) -> [Vec<u16>; 2] {
    [0, 1].map(|band: usize| palette.colors(band, &bands[band].pattern.threads_before(part)))
}

/// By band, the strands of a part that go on with another thread: each with how many knots it has before, and the color.
fn recolored(part: PartKind, bands: [&BandFile; 2], palette: &Palette) -> [Vec<(u8, u32, u16)>; 2] {
    [0, 1].map(|band: usize| {
        let piece = bands[band].pattern.part(part).map(|part| part.piece.join_marks()).unwrap_or_default();
        let color = |(strand, knots, thread, _): JoinMark| {
            Some((strand, knots, palette.colors(band, &[thread?]).first().copied()?))
        };
        piece.into_iter().filter_map(color).collect()
    })
}

/// Sets that pick by color may differ later though the first are alike.
fn later_set(bands: [&BandFile; 2]) -> Option<u64> {
    if bands.iter().all(|band| !band.pattern.picks_by_color) {
        return None;
    }
    let [one, other] = bands.map(|band| WholeBand::of(&band.pattern).sets);
    let length = |sets: &knotwright_band::Sets| (sets.run_in().len() + sets.period().len()).to_u64();
    let most = length(&one).saturating_add(length(&other)).min(MOST_SETS);
    (1..most).find(|&set| normal_form(one.set(set)) != normal_form(other.set(set)))
}

fn verdict(
    parts: &[PartChange],
    later_set: Option<u64>,
    bands: [&BandFile; 2],
    palette: &Palette,
) -> Verdict {
    let all = |wanted: fn(Likeness) -> bool| parts.iter().all(|part| wanted(part.likeness));
    // If the sets leave the colors in other places, the next sets look otherwise.
    let [after_one, after_other] = colors_before(PartKind::Closing, bands, palette);
    if later_set.is_some() {
        Verdict::Different
    } else if all(|likeness| likeness == Likeness::Same) {
        Verdict::Same
    } else if all(|likeness| likeness != Likeness::Different) && after_one == after_other {
        Verdict::SameLook
    } else {
        Verdict::Different
    }
}

fn up_to(parts: &[PartChange], bands: [&BandFile; 2], palette: &Palette) -> Option<UpTo> {
    let set = parts.iter().find(|part| part.part == PartKind::Set)?;
    if bands.iter().any(|band| band.pattern.picks_by_color || band.pattern.set.is_none()) {
        return None;
    }
    let [one, other] = colors_before(PartKind::Set, bands, palette);
    let up_to = same_up_to(
        Colored { piece: &set.pieces[0], colors: &one },
        Colored { piece: &set.pieces[1], colors: &other },
    )?;
    (up_to != UpTo::default()).then_some(up_to)
}
