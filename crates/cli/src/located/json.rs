//! Where one is, as JSON. The form is `shared/schemas/place-1.schema.json`.

use super::{Located, Slip, Spot, Stretch};
use crate::bands::Band;
use crate::outcome::Spots;
use knotwright_rewriter::Part;
use serde::Serialize;

#[derive(Serialize)]
pub(crate) struct Json<'a> {
    schema: &'static str,
    path: &'a str,
    title: &'a str,
    exchanges: u32,
    places: Vec<Place<'a>>,
    slips: Vec<Blamed<'a>>,
    again_after: Option<u64>,
}

#[derive(Serialize)]
struct Place<'a> {
    part: &'static str,
    set: Option<u64>,
    knots: u32,
    tied: [u32; 2],
    next: Option<Statement<'a>>,
}

#[derive(Serialize)]
struct Blamed<'a> {
    part: &'static str,
    set: Option<u64>,
    row: u32,
    gap: usize,
    tied: u32,
    untie: u32,
    statement: Option<Statement<'a>>,
}

#[derive(Serialize)]
struct Statement<'a> {
    line: u32,
    column: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    path: Option<&'a str>,
    knots: u32,
    tied: u32,
}

impl<'a> Json<'a> {
    /// What is written of the places that were found in a band.
    pub(crate) fn new(located: &Located, band: &'a Band, spots: &Spots<'a>) -> Self {
        let told = Told { path: &band.file.shown, spots };
        Self {
            schema: "knotwright/place/1",
            path: &band.file.shown,
            title: &band.pattern.title,
            exchanges: located.distance,
            places: located.spots.iter().map(|spot| told.place(spot)).collect(),
            slips: located.slips.iter().map(|slip| told.blamed(slip)).collect(),
            again_after: located.again_after,
        }
    }
}

struct Told<'a, 'b> {
    path: &'a str,
    spots: &'b Spots<'a>,
}

impl<'a> Told<'a, '_> {
    fn place(&self, spot: &Spot) -> Place<'a> {
        let stretch = spot.stretch;
        let (least, most) = spot.tied();
        Place {
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
    fn statement(&self, stretch: &Stretch, knot: u32) -> Option<Statement<'a>> {
        let step = stretch.step(knot)?;
        let spot = self.spots.of(step.place);
        let path = Some(spot.path).filter(|path| *path != self.path);
        let (knots, tied) = (step.knots.end - step.knots.start, knot - step.knots.start);
        Some(Statement { line: spot.line, column: spot.column, path, knots, tied })
    }
}

fn set(stretch: &Stretch) -> Option<u64> {
    (stretch.part == Part::Set).then_some(stretch.set + 1)
}
