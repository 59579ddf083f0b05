//! Random numbers that come again from the same seed.

use std::ops::{Bound, RangeBounds};

/// SplitMix64. Source: G. L. Steele, D. Lea, C. H. Flood, Fast splittable pseudorandom number generators, OOPSLA 2014.
pub(crate) struct Rng(u64);

macro_rules! numbers {
    ($($name:ident)+) => {$(
        /// A number in a range.
        pub(crate) fn $name(&mut self, range: impl RangeBounds<$name>) -> $name {
            let wide = |number: &$name| u64::try_from(*number).unwrap_or(u64::MAX);
            let least = match range.start_bound() {
                Bound::Included(first) => wide(first),
                Bound::Excluded(before) => wide(before) + 1,
                Bound::Unbounded => 0,
            };
            let most = match range.end_bound() {
                Bound::Included(last) => wide(last),
                Bound::Excluded(behind) => wide(behind).saturating_sub(1),
                Bound::Unbounded => wide(&$name::MAX),
            };
            let count = most.saturating_sub(least).saturating_add(1);
            $name::try_from(least + self.next() % count).unwrap_or($name::MAX)
        }
    )+};
}

#[allow(
    clippy::useless_conversion,
    clippy::unnecessary_fallible_conversions,
    reason = "one text for all sizes"
)]
impl Rng {
    pub(crate) fn with_seed(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    numbers! { u8 u32 u64 usize }

    pub(crate) fn bool(&mut self) -> bool {
        self.next() & 1 == 1
    }

    /// One of some; none of none.
    pub(crate) fn choice<T>(&mut self, of: impl IntoIterator<Item = T>) -> Option<T> {
        let mut all: Vec<T> = of.into_iter().collect();
        if all.is_empty() { None } else { Some(all.swap_remove(self.usize(..all.len()))) }
    }
}
