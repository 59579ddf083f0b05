//! Plaits and cords: bundles that go from side to side, over one another and under.
//!
//! They go like bricks: in every other row, the bundles at places 1 and 2 cross, 3 and 4, and so on; in the rows between,
//! those at 2 and 3, 4 and 5. Who goes to the right lies over the other in the first kind of row and under it in the second.
//! With three bundles, that is the plait in which the outer bundles come to the middle by turns; with more, each goes over
//! one and under the next.

use super::EndLaying;
use crate::path::{Path, Point};
use crate::scene::EndCord;
use knotwright_band::ends::share_out;
use knotwright_band::thread::PlaitShape;
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// By how much a bundle's ends lie under what comes before and after, so that no light falls between.
const SEAM: f64 = 0.8;

/// A picture has no more lines of one plait.
const MOST_LINES: usize = 4000;

/// How bundles cross.
struct Braid {
    bundles: usize,
    /// From one place to the next.
    apart: f64,
    /// From one row to the next.
    row: f64,
    /// In how many rows.
    rows: usize,
    /// Whether who goes to the right is always above.
    is_cord: bool,
}

/// One bundle in one row.
struct Stretch {
    bundle: usize,
    row: usize,
    is_over: bool,
}

impl EndLaying<'_> {
    pub(super) fn plait(&mut self, of: Range<usize>, bundles: usize, length: f64) {
        let bundles = bundles.clamp(3, 8);
        let wide = self.width(of.len().div_ceil(bundles));
        let row = wide * PlaitShape::of(bundles.to_u8()).period / (2.0 * bundles.to_f64());
        let rows = drawn_rows(length / row, of.len()).max(bundles);
        let braid = Braid { bundles, apart: wide * 0.96, row: length / rows.to_f64(), rows, is_cord: false };
        self.braid(of, &braid);
    }

    pub(super) fn twist(&mut self, of: Range<usize>, length: f64) {
        let wide = self.width(of.len().div_ceil(2));
        let rows = drawn_rows(length / (wide * 1.9), of.len()).max(2);
        let braid =
            Braid { bundles: 2, apart: wide * 0.97, row: length / rows.to_f64(), rows, is_cord: true };
        self.braid(of, &braid);
    }

    fn braid(&mut self, of: Range<usize>, braid: &Braid) {
        let shares: Vec<usize> = share_out(of.len(), braid.bundles).collect();
        let (axis, _) = self.middle(&of);
        let place = |at: usize| axis + (at.to_f64() - (braid.bundles.to_f64() - 1.0) / 2.0) * braid.apart;
        let offsets: Vec<(usize, f64)> = shares
            .iter()
            .enumerate()
            .flat_map(|(bundle, share)| self.offsets(*share).into_iter().map(move |offset| (bundle, offset)))
            .collect();
        let starts: Vec<f64> = offsets.iter().map(|(bundle, offset)| place(*bundle) + offset).collect();
        self.lead(of.clone(), &starts);
        self.flush(of.clone());
        let (_, top) = self.middle(&of);

        let (places, stretches) = braid.laid();
        let node = |bundle: usize, row: usize| {
            Point::new(place(places[row][bundle]), top + row.to_f64() * braid.row)
        };
        let (under, over): (Vec<&Stretch>, Vec<&Stretch>) =
            stretches.iter().partition(|stretch| !stretch.is_over);
        for stretch in under.into_iter().chain(over) {
            let strands = offsets.iter().enumerate().filter(|(_, (bundle, _))| *bundle == stretch.bundle);
            for (number, (bundle, offset)) in strands {
                let at = |row: usize| node(*bundle, row);
                let path = stretch_path(stretch.row, braid.rows, *offset, &at);
                let share = (stretch.row.to_f64() + 0.5) / braid.rows.to_f64();
                let thread = self.lanes[of.start + number].color_ahead(self.outward * self.taking * share);
                self.shapes.push(EndCord { thread, path, is_turn: false });
            }
        }
        for (number, (bundle, offset)) in offsets.iter().enumerate() {
            let end = node(*bundle, braid.rows);
            self.lanes[of.start + number].path = Path::at(Point::new(end.x + offset, end.y - SEAM));
        }
        self.sort(of);
    }

    /// Puts strands in the order in which they hang now.
    fn sort(&mut self, of: Range<usize>) {
        self.lanes[of].sort_by(|one, other| one.at().x.total_cmp(&other.at().x));
    }
}

impl Braid {
    /// By row, the place of every bundle, one row more than there are; and every stretch.
    fn laid(&self) -> (Vec<Vec<usize>>, Vec<Stretch>) {
        let mut places = vec![(0..self.bundles).collect::<Vec<usize>>()];
        let mut stretches = Vec::with_capacity(self.rows * self.bundles);
        for row in 0..self.rows {
            let mut next = places[row].clone();
            let first = if self.is_cord { 0 } else { row % 2 };
            for (bundle, place) in places[row].iter().enumerate() {
                // The pair of places that cross here, if this one is in a pair.
                let left = (*place >= first).then(|| first + (place - first) / 2 * 2);
                let pair = left.filter(|left| left + 1 < self.bundles);
                let goes_right = pair == Some(*place);
                let is_over = pair.is_some() && goes_right == (self.is_cord || row % 2 == 0);
                if let Some(left) = pair {
                    next[bundle] = if goes_right { left + 1 } else { left };
                }
                stretches.push(Stretch { bundle, row, is_over });
            }
            places.push(next);
        }
        (places, stretches)
    }
}

/// How many rows are drawn; fewer and longer ones where there would be too many lines.
fn drawn_rows(rows: f64, strands: usize) -> usize {
    rows.round().to_usize().min(MOST_LINES / strands.max(1))
}

/// One strand of a bundle in one row, `offset` beside its middle.
fn stretch_path(row: usize, rows: usize, offset: f64, at: &impl Fn(usize) -> Point) -> Path {
    // At a row's edge, a bundle goes as from the row before to the row after; it begins and ends upright.
    let way = |row: usize| {
        if row == 0 || row == rows {
            return Point::new(0.0, at(1).y - at(0).y);
        }
        at(row + 1).plus(at(row - 1), -1.0).scaled(0.5)
    };
    let beside = |row: usize| {
        let way = way(row);
        let length = way.x.hypot(way.y).max(1e-6);
        at(row).plus(Point::new(way.y / length, -way.x / length), offset)
    };
    // It begins a little before its row, under what is there.
    let length = way(row).x.hypot(way(row).y).max(1e-6);
    let mut path = Path::at(beside(row).plus(way(row), -SEAM / length));
    path.curve(way(row).scaled(1.0 / 3.0), way(row + 1).scaled(1.0 / 3.0), beside(row + 1));
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    fn braid(bundles: usize, rows: usize, is_cord: bool) -> Braid {
        Braid { bundles, apart: 1.0, row: 1.0, rows, is_cord }
    }

    /// The outer bundles come to the middle by turns, each over the one that was there.
    #[test]
    fn three_bundles_are_plaited_as_makers_do() {
        let (places, stretches) = braid(3, 6, false).laid();
        for row in 0..6 {
            let over: Vec<usize> = stretches
                .iter()
                .filter(|stretch| stretch.row == row && stretch.is_over)
                .map(|stretch| stretch.bundle)
                .collect();
            let [over] = over[..] else { panic!("one goes over: {over:?}") };
            assert_eq!(places[row][over], if row % 2 == 0 { 0 } else { 2 });
            assert_eq!(places[row + 1][over], 1);
        }
        // After six rows, each is where it was.
        assert_eq!(places[6], places[0]);
    }

    /// Over one, under the next.
    #[test]
    fn on_its_way_across_a_bundle_goes_over_and_under_by_turns() {
        for bundles in 4..=8 {
            let (places, stretches) = braid(bundles, bundles - 1, false).laid();
            let way: Vec<bool> = stretches
                .iter()
                .filter(|stretch| stretch.bundle == 0)
                .map(|stretch| stretch.is_over)
                .collect();
            assert!(way.iter().enumerate().all(|(row, is_over)| *is_over == (row % 2 == 0)), "{way:?}");
            assert_eq!(places[bundles - 1][0], bundles - 1, "it goes from edge to edge");
        }
    }

    #[test]
    fn the_bundles_of_a_cord_change_places_in_every_row() {
        let (places, _) = braid(2, 4, true).laid();
        assert_eq!(places, [[0, 1], [1, 0], [0, 1], [1, 0], [0, 1]]);
    }
}
