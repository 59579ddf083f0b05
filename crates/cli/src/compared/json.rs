//! A comparison as JSON. The form is `shared/schemas/comparison-1.schema.json`.

use super::{Compared, Detail, PartChange, Verdict};
use knotwright_band::compare::UpTo;
use knotwright_maker::round_length;
use knotwright_numbers::ToNumber;
use serde::Serialize;

#[derive(Serialize)]
pub(crate) struct ComparedJson<'a> {
    schema: &'static str,
    one: &'a str,
    other: &'a str,
    verdict: &'static str,
    strands: [usize; 2],
    parts: Vec<ComparedPart>,
    first_other_set: Option<u64>,
    same_up_to: Option<SameUpTo<'a>>,
    thread: Vec<ComparedThread<'a>>,
    details: &'a [Detail],
}

#[derive(Serialize)]
struct ComparedPart {
    part: &'static str,
    knots: [usize; 2],
    fewest: bool,
    removed: Vec<ComparedKnot>,
    added: Vec<ComparedKnot>,
    changed: Vec<[ComparedKnot; 2]>,
    moved: Vec<[ComparedKnot; 2]>,
    follows: ComparedFollows,
}

#[derive(Serialize)]
struct ComparedKnot {
    row: u32,
    gap: usize,
    kind: &'static str,
}

#[derive(Serialize)]
struct ComparedFollows {
    from_row: Option<u32>,
    start: Vec<usize>,
    moved: Vec<ComparedMoved>,
    recolored: usize,
}

#[derive(Serialize)]
struct ComparedMoved {
    position: usize,
    before: usize,
    after: usize,
}

#[derive(Serialize)]
struct SameUpTo<'a> {
    mirrored: bool,
    colors: Vec<[&'a str; 2]>,
    begins_in_row: Option<u32>,
    begins_after_sets: Option<u64>,
}

#[derive(Serialize)]
struct ComparedThread<'a> {
    color: &'a str,
    before_mm: f64,
    after_mm: f64,
}

impl<'a> ComparedJson<'a> {
    /// What is written of a comparison.
    pub(crate) fn new(compared: &'a Compared) -> Self {
        let thread = |change: &super::ThreadChange| ComparedThread {
            color: compared.palette.name(change.color),
            before_mm: round_length(change.before),
            after_mm: round_length(change.after),
        };
        Self {
            schema: "knotwright/comparison/1",
            one: &compared.one.file.shown,
            other: &compared.other.file.shown,
            verdict: match compared.verdict {
                Verdict::Same => "same",
                Verdict::SameLook => "same-look",
                Verdict::Different => "different",
            },
            strands: [&compared.one, &compared.other].map(|band| band.pattern.strands.len()),
            parts: compared.parts.iter().map(part).collect(),
            first_other_set: compared.later_set.map(|set| set + 1),
            same_up_to: compared.up_to.as_ref().map(|up_to| same_up_to(compared, up_to)),
            thread: compared.threads.iter().map(thread).collect(),
            details: &compared.details,
        }
    }
}

fn part(change: &PartChange) -> ComparedPart {
    let knot = |band: usize, number: u32| {
        let knot = change.pieces[band].knots()[number.to_usize()];
        let row = change.rows[band][number.to_usize()] + 1;
        ComparedKnot { row, gap: usize::from(knot.gap) + 1, kind: knotwright_rewriter::write_kind(knot.kind) }
    };
    let pairs = |pairs: &[(u32, u32)]| pairs.iter().map(|&(a, b)| [knot(0, a), knot(1, b)]).collect();
    ComparedPart {
        part: change.part.word(),
        knots: [0, 1].map(|band: usize| change.pieces[band].knots().len()),
        fewest: change.edits.fewest,
        removed: change.edits.removed.iter().map(|&number| knot(0, number)).collect(),
        added: change.edits.added.iter().map(|&number| knot(1, number)).collect(),
        changed: pairs(&change.edits.changed),
        moved: pairs(&change.edits.moved),
        follows: follows(change),
    }
}

fn follows(change: &PartChange) -> ComparedFollows {
    let one = |position: u8| usize::from(position) + 1;
    let moved = |moved: &knotwright_band::compare::MovedStrand| ComparedMoved {
        position: one(moved.position),
        before: one(moved.before),
        after: one(moved.after),
    };
    ComparedFollows {
        from_row: change.follows.from_row.map(|row| row + 1),
        start: change.follows.start.iter().copied().map(one).collect(),
        moved: change.follows.moved.iter().map(moved).collect(),
        recolored: change.follows.recolored,
    }
}

fn same_up_to<'a>(compared: &'a Compared, up_to: &UpTo) -> SameUpTo<'a> {
    let pair = |(from, to): &(u16, u16)| [compared.palette.name(*from), compared.palette.name(*to)];
    SameUpTo {
        mirrored: up_to.mirrored,
        colors: up_to.recolored.iter().map(pair).collect(),
        begins_in_row: up_to.turned.as_ref().map(|turned| turned.row + 1),
        begins_after_sets: up_to.turned.as_ref().map(|turned| turned.sets),
    }
}
