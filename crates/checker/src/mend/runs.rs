//! Runs that might be put in, and which strand hangs in whose place after each: at once for one, tied alone or on both sides.

use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;
use std::ops::RangeInclusive;
use std::rc::Rc;

/// The widest range whose runs on both sides are looked up. Of a wider one all are tried.
pub(super) const MOST_WIDTH: u8 = 64;

/// A strand goes across others of a range: they move up by one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Rotation {
    pub(super) low: u8,
    pub(super) high: u8,
    /// The one at `low` goes to `high`.
    pub(super) forward: bool,
}

/// A run, tied alone or on both sides.
pub(super) type SidedRun = (Rotation, bool);

impl Rotation {
    /// From which place the strand comes that hangs at `local` afterwards, counted from 1 in the range.
    #[inline]
    pub(super) fn source(self, local: usize) -> usize {
        let (first, last) = (usize::from(self.low), usize::from(self.high));
        match self.forward {
            _ if local < first || local > last => local,
            true if local == last => first,
            true => local + 1,
            false if local == first => last,
            false => local - 1,
        }
    }

    /// Moves what hangs in its range, which may be seen in a mirror.
    pub(super) fn turn<T: Copy>(self, hanging: &mut [T], is_mirrored: bool) {
        let (low, high) = (usize::from(self.low), usize::from(self.high));
        let range = if is_mirrored { hanging.len() - high..=hanging.len() - low } else { low - 1..=high - 1 };
        let moved = &mut hanging[range];
        let last = moved.len() - 1;
        if self.forward == is_mirrored {
            let one = moved[last];
            moved.copy_within(..last, 1);
            moved[0] = one;
        } else {
            let one = moved[0];
            moved.copy_within(1.., 0);
            moved[last] = one;
        }
    }

    /// The same for what hangs in the places of strands, by strand; in its range, these come in that order.
    pub(super) fn turn_places<T: Copy>(self, order: &[u8], hanging: &mut [T], is_mirrored: bool) {
        let (low, high) = (usize::from(self.low), usize::from(self.high));
        let range = if is_mirrored { order.len() - high..=order.len() - low } else { low - 1..=high - 1 };
        let moved = &order[range];
        let (first, last) = (moved[0], moved[moved.len() - 1]);
        if self.forward == is_mirrored {
            let one = hanging[usize::from(last)];
            moved
                .windows(2)
                .rev()
                .for_each(|two| hanging[usize::from(two[1])] = hanging[usize::from(two[0])]);
            hanging[usize::from(first)] = one;
        } else {
            let one = hanging[usize::from(first)];
            moved.windows(2).for_each(|two| hanging[usize::from(two[0])] = hanging[usize::from(two[1])]);
            hanging[usize::from(last)] = one;
        }
    }

    /// The same where it is tied on both sides, one after the other.
    #[inline]
    fn source_on_both_sides(self, local: usize, width: usize) -> usize {
        self.source(width + 1 - self.source(width + 1 - local))
    }
}

/// Every run of a range.
fn every(width: u8) -> Vec<SidedRun> {
    let alone = rotations(width).map(|rotation| (rotation, false));
    alone.chain(rotations(width).map(|rotation| (rotation, true))).collect()
}

fn rotations(width: u8) -> impl Iterator<Item = Rotation> {
    let ranges = (1..width).flat_map(move |low| (low + 1..=width).map(move |high| (low, high)));
    ranges.flat_map(|(low, high)| [true, false].map(|forward| Rotation { low, high, forward }))
}

/// What is known of the runs of ranges that were asked for, by their width.
#[derive(Debug, Default)]
pub(super) struct Runs {
    /// Those that were asked for last, all of them.
    every: Option<(u8, Rc<[SidedRun]>)>,
    on_both_sides: HashMap<usize, BothSides>,
}

/// The runs of a range, tied on both sides.
#[derive(Debug)]
struct BothSides {
    width: usize,
    runs: Vec<Rotation>,
}

impl BothSides {
    fn of(width: usize) -> Self {
        Self { width, runs: rotations(width.to_u8()).collect() }
    }

    /// From which place the strand comes that hangs at a place afterwards; both are counted from 0.
    #[inline]
    fn source(&self, run: Rotation, place: usize) -> usize {
        run.source_on_both_sides(place + 1, self.width) - 1
    }

    /// The runs after which all fits: they are sought by two places.
    fn fitting(
        &self,
        first: usize,
        last: usize,
        fits: impl Fn(usize, usize) -> bool,
    ) -> impl Iterator<Item = SidedRun> {
        let fitting =
            |place: usize| -> u64 { (0..self.width).map(|from| u64::from(fits(place, from)) << from).sum() };
        let sought = [(first, fitting(first)), (last, fitting(last))];
        let is_likely = move |run: &Rotation| {
            sought.iter().all(|(place, fitting)| fitting >> self.source(*run, *place) & 1 == 1)
        };
        let all_fit =
            move |&run: &Rotation| (0..self.width).all(|place| fits(place, self.source(run, place)));
        self.runs.iter().copied().filter(is_likely).filter(all_fit).map(|run| (run, true))
    }
}

impl Runs {
    /// All runs of a range.
    pub(super) fn every(&mut self, width: u8) -> Rc<[SidedRun]> {
        let known = self.every.take().filter(|known| known.0 == width);
        Rc::clone(&self.every.insert(known.unwrap_or_else(|| (width, every(width).into()))).1)
    }

    /// The runs after which all strands of a range fit where they hang, of which some do not now. `fits`: whether the one
    /// of the second place fits at the first; both are counted from 0.
    pub(super) fn fitting(&mut self, width: usize, fits: impl Fn(usize, usize) -> bool) -> Vec<SidedRun> {
        let wrong = |place: &usize| !fits(*place, *place);
        let (Some(first), Some(last)) = ((0..width).find(wrong), (0..width).rfind(wrong)) else {
            return Vec::new();
        };
        let mut found = Vec::new();
        forward(first..=last, width, &fits, |low, high| found.push((low, high, true)));
        // The same from right to left.
        let turned = |place: usize| width - 1 - place;
        let fits_turned = |to: usize, from: usize| fits(turned(to), turned(from));
        forward(turned(last)..=turned(first), width, fits_turned, |low, high| {
            found.push((turned(high), turned(low), false));
        });
        let rotation = |(low, high, forward): (usize, usize, bool)| Rotation {
            low: (low + 1).to_u8(),
            high: (high + 1).to_u8(),
            forward,
        };
        let mut found: Vec<SidedRun> = found.into_iter().map(|run| (rotation(run), false)).collect();
        let both = self.on_both_sides.entry(width).or_insert_with(|| BothSides::of(width));
        found.extend(both.fitting(first, last, fits));
        found
    }
}

/// The strand at `low` goes to `high`, and all places between get the next one's: for each two with which all fits.
fn forward(
    wrong: RangeInclusive<usize>,
    width: usize,
    fits: impl Fn(usize, usize) -> bool,
    mut found: impl FnMut(usize, usize),
) {
    let gets_next = |place: usize| place + 1 < width && fits(place, place + 1);
    let end = (*wrong.start()..width).find(|&place| !gets_next(place)).unwrap_or(width);
    for low in (0..=*wrong.start()).rev() {
        // The first that is wrong may be the last that moves.
        if low < *wrong.start() && !gets_next(low) {
            break;
        }
        let high = (*wrong.end()).max(low + 1)..=end.min(width - 1);
        high.filter(|&high| fits(high, low)).for_each(|high| found(low, high));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn runs_are_found_as_by_trying_all() {
        // Which strand fits where, in many ways.
        for rule in 0..4000_usize {
            let width = 2 + rule % 6;
            let fits = |to: usize, from: usize| (to * 31 + from * 17 + rule * (to + 3 * from + 1)) % 7 < 4;
            let place = |run: &SidedRun, to: usize| match run.1 {
                true => run.0.source_on_both_sides(to + 1, width) - 1,
                false => run.0.source(to + 1) - 1,
            };
            let all_fit = |run: &SidedRun| (0..width).all(|to| fits(to, place(run, to)));
            let is_wrong = (0..width).any(|place| !fits(place, place));
            let mut by_force = every(width.to_u8());
            by_force.retain(|run| is_wrong && all_fit(run));
            let mut found = Runs::default().fitting(width, fits);
            let key = |run: &SidedRun| (run.1, run.0.low, run.0.high, run.0.forward);
            found.sort_by_key(key);
            by_force.sort_by_key(key);
            assert_eq!(found, by_force, "{rule}");
        }
    }
}
