//! How many rows a number of sets make.
//!
//! Sets interlock: the next begins in the rows where the one before ends. From one set to the next each gap's last
//! row is the greatest of some earlier ones plus a number, so that within a strip (gaps that the sets join) the
//! profile of the lower end comes again after some sets, lower down. From what has been laid until then follows the rest.
//! (Max-plus linear recursions with an irreducible matrix are periodic in the end: F. Baccelli et al.,
//! *Synchronization and Linearity*, 1992, theorem 3.109; checked here against laying every set.)

use crate::{Layout, Piece, Rows, Sets};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;

/// The rows of a band by its number of sets.
#[derive(Debug, Clone)]
pub struct Growth {
    sets: Sets,
    /// By number of sets, the free row of each gap.
    profiles: Vec<Vec<u64>>,
    /// If the profile came again: after how many sets it was there first.
    again_from: Option<usize>,
}

/// How many profiles are kept, and how many knots laid, while one is looked for that comes again. Of 20,000 random sets
/// on random openings two of three needed 4 profiles at most, all but a hundred or so 20, and one 67.
const MOST_PROFILES: usize = 10_000;
const MOST_LAID: usize = 100_000_000;

impl Growth {
    /// The growth of sets on top of an opening.
    pub fn new(opening: &Piece, sets: &Sets) -> Self {
        let mut rows = Rows::new(opening.strands());
        rows.pass(opening);
        let strips = strips(sets);
        let mut growth = Self { sets: sets.clone(), profiles: vec![rows.free().to_vec()], again_from: None };
        let mut seen = HashMap::default();
        let mut laid = 0;
        while growth.again_from.is_none() && growth.profiles.len() < MOST_PROFILES && laid < MOST_LAID {
            let number = growth.profiles.len().to_u64();
            let set = sets.set(number - 1);
            rows.pass(set);
            laid += set.knots().len();
            growth.profiles.push(rows.free().to_vec());
            // Only after the first period has every knotted gap left behind what the opening did beside it.
            let (whole, rest) = sets.periods(number);
            if whole > 0 && rest == 0 {
                growth.again_from = seen.insert(shape(rows.free(), &strips), number.to_usize());
            }
        }
        growth
    }

    /// How many rows the opening and `sets` sets take. Takes time in proportion to the gaps (to all knots, should
    /// no profile have come again).
    pub fn height(&self, sets: u64) -> u64 {
        self.profile(sets).into_iter().max().unwrap_or(0)
    }

    /// How many rows the opening, `sets` sets and the closing take.
    pub fn height_with(&self, sets: u64, closing: &Piece) -> u64 {
        let mut rows = Rows::from_free(self.profile(sets));
        rows.pass(closing);
        rows.height()
    }

    /// Which part of the rows lies straight: of those that come again and again, or, if the sets add none, of all with one
    /// set. The opening and the sets are those that grow here.
    pub fn straight_part(&self, opening: &Piece, closing: &Piece) -> f64 {
        let straight = |piece: &Piece| match piece.straight() {
            [] => 0,
            _ => Layout::of(piece).straight_rows(piece),
        };
        let (run_in, period) = (self.sets.run_in().len().to_u64(), self.sets.period());
        let (before, after) = (run_in + period.len().to_u64(), run_in + 2 * period.len().to_u64());
        let (rows, straight) = match self.height(after) - self.height(before) {
            0 => (self.height_with(1, closing), straight(opening) + straight(closing)),
            rows => (rows, period.iter().map(straight).sum()),
        };
        (straight.to_f64() / rows.max(1).to_f64()).min(1.0)
    }

    /// By gap, the first free row after `sets` sets.
    fn profile(&self, sets: u64) -> Vec<u64> {
        let known = usize::try_from(sets).ok().and_then(|sets| self.profiles.get(sets));
        match (known, self.again_from) {
            (Some(profile), _) => profile.clone(),
            (None, Some(first)) => self.repeated(sets, first),
            (None, None) => self.laid_on(sets),
        }
    }

    /// A profile further on than what was laid.
    fn repeated(&self, sets: u64, first: usize) -> Vec<u64> {
        let last = self.profiles.len() - 1;
        let period = (last - first).to_u64();
        let over = sets - first.to_u64();
        let within = &self.profiles[first + (over % period).to_usize()];
        let grown = self.profiles[last].iter().zip(&self.profiles[first]).map(|(last, first)| last - first);
        let times = over / period;
        within.iter().zip(grown).map(|(row, grown)| row + times * grown).collect()
    }

    /// A profile when none came again: the sets that are wanted are laid.
    fn laid_on(&self, sets: u64) -> Vec<u64> {
        let laid = self.profiles.len() - 1;
        let mut rows = Rows::from_free(self.profiles[laid].iter().copied());
        (laid.to_u64()..sets).for_each(|number| rows.pass(self.sets.set(number)));
        rows.free().to_vec()
    }
}

/// The strips of neighboring gaps that the sets knot again and again: first gap and one past the last.
fn strips(sets: &Sets) -> Vec<(usize, usize)> {
    let mut knotted = vec![false; sets.period()[0].gaps() + 1];
    for knot in sets.period().iter().flat_map(Piece::knots) {
        knotted[usize::from(knot.gap)] = true;
    }
    let mut strips = Vec::new();
    let mut start = 0;
    for (gap, &is) in knotted.iter().enumerate() {
        if !is {
            if start < gap {
                strips.push((start, gap));
            }
            start = gap + 1;
        }
    }
    strips
}

/// A profile without how far down its strips lie; moved by even numbers of rows, to keep the brick pattern.
fn shape(free: &[u64], strips: &[(usize, usize)]) -> Vec<u64> {
    let mut shape = Vec::with_capacity(free.len());
    for &(start, end) in strips {
        let strip = free.get(start..end).unwrap_or(&[]);
        let top = strip.iter().min().map_or(0, |least| least & !1);
        shape.extend(strip.iter().map(|row| row - top));
    }
    shape
}
