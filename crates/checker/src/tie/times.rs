//! When the statements of a part are begun, and when colors decide.

use super::PartStudy;
use std::ops::Range;

impl PartStudy {
    /// When the statement of that number was begun, counted from the first one after that time; `None` if there are not as many.
    pub(crate) fn begun_after(&self, time: u32, number: usize) -> Option<u32> {
        let first = self.times.partition_point(|&begun| begun <= time);
        self.times.get(first + number).copied()
    }

    /// When statements were begun in a stretch of time.
    pub(super) fn begun_in(&self, time: Range<u32>) -> &[u32] {
        let before = |end: u32| self.times.partition_point(|&time| time < end);
        &self.times[before(time.start)..before(time.end)]
    }

    /// How many statements were begun in a stretch of time.
    pub(super) fn statements_in(&self, time: &Range<u32>) -> usize {
        self.begun_in(time.clone()).len()
    }

    /// Whether a color decides what is tied in a stretch of time.
    pub(crate) fn decides_in(&self, time: &Range<u32>) -> bool {
        let next = self.read_at.partition_point(|&read| read < time.start);
        self.read_at.get(next).is_some_and(|&read| read < time.end)
    }
}
