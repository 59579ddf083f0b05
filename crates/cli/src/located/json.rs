//! Where one is, as JSON. The form is `shared/schemas/place-1.schema.json`.

use super::{FoundPlaces, Slip, StepSpot, TiedStretch};
use crate::bands::BandFile;
use crate::outcome::Spots;
use knotwright_checker::PartKind;
use serde::Serialize;

#[derive(Serialize)]
pub(crate) struct LocatedJson<'a> {
    schema: &'static str,
    path: &'a str,
    title: &'a str,
    exchanges: u32,
    places: Vec<LocatedPlace<'a>>,
    slips: Vec<Blamed<'a>>,
    again_after: Option<u64>,
}

#[derive(Serialize)]
struct LocatedPlace<'a> {
    part: &'static str,
    set: Option<u64>,
    knots: u32,
    tied: [u32; 2],
    next: Option<LocatedStatement<'a>>,
}

#[derive(Serialize)]
struct Blamed<'a> {
    part: &'static str,
    set: Option<u64>,
    row: u32,
    gap: usize,
    tied: u32,
    untie: u32,
    statement: Option<LocatedStatement<'a>>,
}

#[derive(Serialize)]
struct LocatedStatement<'a> {
    line: u32,
    column: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    path: Option<&'a str>,
    knots: u32,
    tied: u32,
    #[serde(flatten)]
    number: Option<LocatedStep>,
}

/// A step as instructions and sheets count it.
#[derive(Serialize)]
struct LocatedStep {
    step: String,
    times: Vec<[u64; 2]>,
    sheet_step: usize,
}

impl<'a> LocatedJson<'a> {
    /// What is written of the places that were found in a band.
    pub(crate) fn new(located: &FoundPlaces, band: &'a BandFile, spots: &Spots<'a>) -> Self {
        let reported = LocatedReport { path: &band.file.shown, spots };
        Self {
            schema: "knotwright/place/1",
            path: &band.file.shown,
            title: &band.pattern.title.text,
            exchanges: located.distance,
            places: located.spots.iter().map(|spot| reported.place(spot)).collect(),
            slips: located.slips.iter().map(|slip| reported.blamed(slip)).collect(),
            again_after: located.again_after,
        }
    }
}

struct LocatedReport<'a, 'b> {
    path: &'a str,
    spots: &'b Spots<'a>,
}

impl<'a> LocatedReport<'a, '_> {
    fn place(&self, spot: &StepSpot) -> LocatedPlace<'a> {
        let stretch = spot.stretch;
        let (least, most) = spot.tied();
        LocatedPlace {
            part: stretch.part.word(),
            set: set(stretch),
            knots: stretch.knots(),
            tied: [least, most],
            next: self.statement(stretch, most),
        }
    }

    fn blamed(&self, slip: &Slip) -> Blamed<'a> {
        let (stretch, knot) = (slip.stretch, slip.suspect.knot);
        Blamed {
            part: stretch.part.word(),
            set: set(stretch),
            row: slip.row + 1,
            gap: usize::from(stretch.gap(knot)) + 1,
            tied: slip.step,
            untie: slip.suspect.untie,
            statement: self.statement(stretch, knot),
        }
    }

    /// The statement that ties a knot, and how many of its knots come before.
    fn statement(&self, stretch: &TiedStretch, knot: u32) -> Option<LocatedStatement<'a>> {
        let step = stretch.step(knot)?;
        let spot = self.spots.of(step.place);
        let path = Some(spot.path).filter(|path| *path != self.path);
        let (knots, tied) = (step.knots.end - step.knots.start, knot - step.knots.start);
        let number = stretch.number(knot).map(|number| LocatedStep {
            step: number.number.clone(),
            times: number.times.iter().map(|(time, times)| [*time, *times]).collect(),
            sheet_step: number.single,
        });
        Some(LocatedStatement { line: spot.line, column: spot.column, path, knots, tied, number })
    }
}

fn set(stretch: &TiedStretch) -> Option<u64> {
    (stretch.part == PartKind::Set).then_some(stretch.set + 1)
}
