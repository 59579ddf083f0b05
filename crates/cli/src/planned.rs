//! An order of tying as JSON. The form is `shared/schemas/plan-1.schema.json`.

use crate::bands::Band;
use knotwright_band::pick_ups;
use knotwright_checker::Pattern;
use knotwright_maker::{Again, PickUp, Planned};
use serde::Serialize;

#[derive(Serialize)]
pub(crate) struct Json<'a> {
    schema: &'static str,
    path: &'a str,
    title: &'a str,
    within: Option<u32>,
    parts: Vec<Part>,
}

#[derive(Serialize)]
struct Part {
    part: &'static str,
    pick_ups_as_written: usize,
    pick_ups: Vec<Picked>,
}

#[derive(Serialize)]
struct Picked {
    strand: usize,
    color: String,
    take: String,
    knots: Vec<Knot>,
    again: Option<Why>,
}

#[derive(Serialize)]
struct Knot {
    number: usize,
    gap: usize,
    kind: &'static str,
}

#[derive(Serialize)]
struct Why {
    reason: &'static str,
    pick_up: Option<usize>,
}

impl<'a> Json<'a> {
    /// What is written of a planned band; `within`: the rows that a strand may go over at once. `None` if its plan
    /// cannot be tied, which is never so.
    pub(crate) fn new(band: &'a Band, planned: &[Planned], within: Option<u32>) -> Option<Self> {
        Some(Self {
            schema: "knotwright/plan/1",
            path: &band.file.shown,
            title: &band.pattern.title,
            within,
            parts: planned.iter().map(|planned| part(planned, &band.pattern)).collect::<Option<_>>()?,
        })
    }
}

fn part(planned: &Planned, pattern: &Pattern) -> Option<Part> {
    Some(Part {
        part: planned.part.word(),
        pick_ups_as_written: pick_ups(&planned.written),
        pick_ups: planned.pick_ups(pattern)?.into_iter().map(|pick_up| picked(planned, pick_up)).collect(),
    })
}

fn picked(planned: &Planned, pick_up: PickUp) -> Picked {
    let PickUp { strand, color, take, knots, again } = pick_up;
    let knot = |number: u32| {
        let knot = planned.piece.knots()[number as usize];
        let kind = knotwright_rewriter::word(knot.kind);
        Knot { number: number as usize + 1, gap: usize::from(knot.gap) + 1, kind }
    };
    let knots = knots.into_iter().map(knot).collect();
    Picked { strand: usize::from(strand) + 1, color, take, knots, again: again.map(why) }
}

fn why(again: Again) -> Why {
    match again {
        Again::TiedOver(other) => Why { reason: "tied-over", pick_up: Some(other + 1) },
        Again::Waits(other) => Why { reason: "waits", pick_up: Some(other + 1) },
        Again::TooManyRows => Why { reason: "too-many-rows", pick_up: None },
    }
}
