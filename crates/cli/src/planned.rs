//! An order of tying as JSON. The form is `shared/schemas/plan-1.schema.json`.

use crate::bands::BandFile;
use knotwright_band::pick_ups;
use knotwright_checker::Pattern;
use knotwright_maker::{PickUp, Planned, WhyAgain};
use knotwright_numbers::ToNumber;
use serde::Serialize;

#[derive(Serialize)]
pub(crate) struct PlannedJson<'a> {
    schema: &'static str,
    path: &'a str,
    title: &'a str,
    within: Option<u32>,
    parts: Vec<PlannedPart>,
}

#[derive(Serialize)]
struct PlannedPart {
    part: &'static str,
    pick_ups_as_written: usize,
    pick_ups: Vec<Picked>,
}

#[derive(Serialize)]
struct Picked {
    strand: usize,
    color: String,
    take: String,
    knots: Vec<PlannedKnot>,
    again: Option<Why>,
}

#[derive(Serialize)]
struct PlannedKnot {
    number: usize,
    gap: usize,
    kind: &'static str,
}

#[derive(Serialize)]
struct Why {
    reason: &'static str,
    pick_up: Option<usize>,
}

impl<'a> PlannedJson<'a> {
    /// What is written of a planned band; `within`: the rows that a strand may go over at once.
    pub(crate) fn new(band: &'a BandFile, planned: &[Planned], within: Option<u32>) -> Self {
        Self {
            schema: "knotwright/plan/1",
            path: &band.file.shown,
            title: &band.pattern.title.text,
            within,
            parts: planned.iter().map(|planned| part(planned, &band.pattern)).collect(),
        }
    }
}

fn part(planned: &Planned, pattern: &Pattern) -> PlannedPart {
    PlannedPart {
        part: planned.part.word(),
        pick_ups_as_written: pick_ups(&planned.written),
        pick_ups: planned.pick_ups(pattern).into_iter().map(|pick_up| picked(planned, pick_up)).collect(),
    }
}

fn picked(planned: &Planned, pick_up: PickUp) -> Picked {
    let PickUp { strand, color, take, knots, again } = pick_up;
    let knot = |number: u32| {
        let knot = planned.piece.knots()[number.to_usize()];
        let kind = knotwright_rewriter::write_kind(knot.kind);
        PlannedKnot { number: number.to_usize() + 1, gap: usize::from(knot.gap) + 1, kind }
    };
    let knots = knots.into_iter().map(knot).collect();
    Picked { strand: usize::from(strand) + 1, color, take, knots, again: again.map(why) }
}

fn why(again: WhyAgain) -> Why {
    match again {
        WhyAgain::TiedOver(other) => Why { reason: "tied-over", pick_up: Some(other + 1) },
        WhyAgain::Waits(other) => Why { reason: "waits", pick_up: Some(other + 1) },
        WhyAgain::TooManyRows => Why { reason: "too-many-rows", pick_up: None },
    }
}
