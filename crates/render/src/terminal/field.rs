//! What is seen at a point of the band.

use knotwright_color::Rgb;
use knotwright_numbers::ToNumber;

use crate::dye::Dyeing;
use crate::frame::PictureFrame;
use crate::placed::Placed;
use crate::scene::shown_color;
use crate::threaded::place_threaded;
use crate::{Band, list_colors};
use std::collections::BTreeMap;

/// How much white is in the color of what nothing ties yet.
const PALE: f64 = 0.4;

/// A band to be looked at point by point. Across, the unit is a position; down, a row; a knot lies at the right end
/// of its gap's left position, in the middle of its row.
pub(super) struct Field<'a> {
    /// The knots by row and gap.
    knots: Vec<&'a Placed>,
    /// By row, the first of its knots; one more at the end.
    first: Vec<usize>,
    /// The colors of the picture.
    colors: Vec<(u16, Rgb)>,
    /// By position, from which row on which color hangs there.
    hanging: Vec<Vec<(u32, u16)>>,
    /// By row, the beads that reach into it; the row above the first comes first.
    beads: BTreeMap<i64, Vec<SeenBead>>,
}

/// A bead: its middle and half its size, in positions and rows.
#[derive(Clone, Copy)]
struct SeenBead {
    middle: [f64; 2],
    half: [f64; 2],
    color: Rgb,
}

impl<'a> Field<'a> {
    pub(super) fn new(band: &Band<'_>, placed: &'a [Placed]) -> Self {
        let mut knots: Vec<&Placed> = placed.iter().collect();
        knots.sort_by_key(|knot| (knot.row, knot.gap));
        let rows = knots.last().map_or(0, |knot| knot.row + 1);
        let first = (0..=rows).map(|row| knots.partition_point(|knot| knot.row < row)).collect();
        let colors = list_colors(&band.threads);
        Self { colors, knots, first, hanging: hanging(band, placed), beads: beads(band, placed) }
    }

    pub(super) fn rows(&self) -> u32 {
        self.first.len().saturating_sub(1).to_u32()
    }

    /// The color at a point, if there is thread.
    pub(super) fn at(&self, x: f64, y: f64) -> Option<Rgb> {
        let row = y.floor();
        if let Some(bead) = self.bead(x, y) {
            return Some(bead);
        }
        let near = [row - 1.0, row, row + 1.0].into_iter().flat_map(|row| self.row(row));
        let reach = near.map(|knot| (far(knot, x, y), knot)).min_by(|a, b| a.0.total_cmp(&b.0));
        match reach {
            // Pale, and apart from its neighbors.
            Some((far, knot)) if knot.wished.is_some() && far <= 0.8 => {
                Some(self.color(shown_color(knot)).toward(Rgb::WHITE, PALE))
            }
            Some((_, knot)) if knot.wished.is_some() => None,
            // Lit in the middle, dark where it bends away.
            Some((far, knot)) if far <= 1.0 => {
                let color = self.color(shown_color(knot));
                Some(color.toward(Rgb::BLACK, 0.55 * far * far))
            }
            _ => self.strand(x, row),
        }
    }

    /// The color of the bead at a point: lit in the middle, dark at its rim.
    fn bead(&self, x: f64, y: f64) -> Option<Rgb> {
        let near = self.beads.get(&y.floor().to_i64())?;
        let far = |bead: &SeenBead| {
            let [across, down] = bead.middle;
            ((x - across) / bead.half[0]).hypot((y - down) / bead.half[1])
        };
        let bead = near.iter().rev().find(|bead| far(bead) <= 1.0)?;
        Some(bead.color.toward(Rgb::BLACK, 0.5 * far(bead).powi(4)))
    }

    fn row(&self, row: f64) -> &[&'a Placed] {
        if row < 0.0 || row >= f64::from(self.rows()) {
            return &[];
        }
        let row = row.to_usize();
        &self.knots[self.first[row]..self.first[row + 1]]
    }

    /// A strand that hangs by itself, narrower than its position.
    fn strand(&self, x: f64, row: f64) -> Option<Rgb> {
        let position = x.floor();
        if (x - position - 0.5).abs() > 0.3 || position < 0.0 {
            return None;
        }
        let changes = self.hanging.get(position.to_usize())?;
        // The first entry says who hangs there at the start.
        let since = changes.partition_point(|change| f64::from(change.0) <= row).saturating_sub(1);
        Some(self.color(changes.get(since)?.1).toward(Rgb::BLACK, 0.3))
    }

    fn color(&self, number: u16) -> Rgb {
        self.colors.get(usize::from(number)).map_or(Rgb::new(128, 128, 128), |(_, color)| *color)
    }
}

/// How far out a point lies in a knot: 0 in its middle, 1 where the next ones begin. Knots of a straight row are
/// narrower and fill it from top to bottom.
fn far(knot: &Placed, x: f64, y: f64) -> f64 {
    let across = (x - f64::from(knot.gap) - 1.0).abs();
    let down = (y - f64::from(knot.row) - 0.5).abs();
    match knot.leader {
        Some(_) => across.max(down) * 2.0,
        None => across + down,
    }
}

fn beads(band: &Band<'_>, placed: &[Placed]) -> BTreeMap<i64, Vec<SeenBead>> {
    let frame = PictureFrame::of(band, placed);
    let mut beads: BTreeMap<i64, Vec<SeenBead>> = BTreeMap::new();
    for bead in place_threaded(band, placed, &frame) {
        let middle = [
            (bead.middle.x - frame.corner.x) / frame.cell.x,
            (bead.middle.y - frame.corner.y) / frame.cell.y - 0.5,
        ];
        let half = [bead.radius / frame.cell.x, bead.radius / frame.cell.y];
        let color = band.beads.get(usize::from(bead.bead)).map_or(Rgb::new(128, 128, 128), |bead| bead.color);
        let (first, last) = ((middle[1] - half[1]).floor().to_i64(), (middle[1] + half[1]).floor().to_i64());
        for row in first..=last {
            beads.entry(row).or_default().push(SeenBead { middle, half, color });
        }
    }
    beads
}

fn hanging(band: &Band<'_>, placed: &[Placed]) -> Vec<Vec<(u32, u16)>> {
    let begun = Dyeing::of(band);
    let start = |position: usize| vec![(0, begun.hanging(position.to_u8(), 0))];
    let mut hanging: Vec<Vec<(u32, u16)>> = (0..band.strands.len()).map(start).collect();
    // What nothing ties yet leaves every strand where it hangs.
    for knot in placed.iter().filter(|knot| knot.wished.is_none()) {
        let [working, base] = knot.colors;
        let (left, right) =
            if knot.kind.left_works() == knot.kind.swaps() { (base, working) } else { (working, base) };
        let gap = usize::from(knot.gap);
        hanging[gap].push((knot.row, left));
        hanging[gap + 1].push((knot.row, right));
    }
    hanging
}
