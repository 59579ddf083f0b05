//! A comparison as JSON. The form is `shared/schemas/comparison-1.schema.json`.

use super::{Compared, PartChange, Verdict};
use knotwright_band::compare::UpTo;
use knotwright_maker::rounded;
use serde::Serialize;

#[derive(Serialize)]
pub(crate) struct Json<'a> {
    schema: &'static str,
    one: &'a str,
    other: &'a str,
    verdict: &'static str,
    strands: [usize; 2],
    parts: Vec<Part>,
    first_other_set: Option<u64>,
    same_up_to: Option<SameUpTo<'a>>,
    thread: Vec<Thread<'a>>,
}

#[derive(Serialize)]
struct Part {
    part: &'static str,
    knots: [usize; 2],
    fewest: bool,
    removed: Vec<Knot>,
    added: Vec<Knot>,
    changed: Vec<[Knot; 2]>,
    moved: Vec<[Knot; 2]>,
    follows: Follows,
}

#[derive(Serialize)]
struct Knot {
    row: u32,
    gap: usize,
    kind: &'static str,
}

#[derive(Serialize)]
struct Follows {
    from_row: Option<u32>,
    start: Vec<usize>,
    moved: Vec<Moved>,
    recolored: usize,
}

#[derive(Serialize)]
struct Moved {
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
struct Thread<'a> {
    color: &'a str,
    before_mm: f64,
    after_mm: f64,
}

impl<'a> Json<'a> {
    /// What is written of a comparison.
    pub(crate) fn new(compared: &'a Compared) -> Self {
        let thread = |change: &super::ThreadChange| Thread {
            color: compared.palette.name(change.color),
            before_mm: rounded(change.before),
            after_mm: rounded(change.after),
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
            strands: [compared.one, compared.other].map(|band| band.pattern.strands.len()),
            parts: compared.parts.iter().map(part).collect(),
            first_other_set: compared.later_set.map(|set| set + 1),
            same_up_to: compared.up_to.as_ref().map(|up_to| same_up_to(compared, up_to)),
            thread: compared.threads.iter().map(thread).collect(),
        }
    }
}

fn part(change: &PartChange) -> Part {
    let knot = |band: usize, number: u32| {
        let knot = change.pieces[band].knots()[number as usize];
        let row = change.rows[band][number as usize] + 1;
        Knot { row, gap: usize::from(knot.gap) + 1, kind: knotwright_rewriter::word(knot.kind) }
    };
    let pairs = |pairs: &[(u32, u32)]| pairs.iter().map(|&(a, b)| [knot(0, a), knot(1, b)]).collect();
    Part {
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

fn follows(change: &PartChange) -> Follows {
    let one = |position: u8| usize::from(position) + 1;
    let moved = |moved: &knotwright_band::compare::Moved| Moved {
        position: one(moved.position),
        before: one(moved.before),
        after: one(moved.after),
    };
    Follows {
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
