//! Sets that differ, in what is done or in the colors that it is done with.

use super::{Passage, TyingScript};
use knotwright_numbers::ToNumber;

/// More different sets are not described one by one; see [`TyingScript::can_be_told`].
const MOST_SETS: usize = 120;

/// The different sets, in order, and what hangs as each begins and after the last.
pub(crate) struct Different<'a> {
    pub(crate) sets: Vec<&'a Passage>,
    /// By position, the thread that hangs there; one more than there are sets.
    pub(crate) hangs: Vec<Vec<u16>>,
    /// Of the sets, the first that comes again after the last.
    pub(crate) comes_again: usize,
}

impl TyingScript {
    /// Whether the sets that are described one by one are all that differ: after them the same colors come again,
    /// or the band ends. Otherwise neither words nor a sheet can say how it goes on.
    pub fn can_be_told(&self) -> bool {
        let different = self.different();
        let known = different.sets.len().to_u64();
        let comes_again = different.hangs.last() == different.hangs.get(different.comes_again);
        known == self.times || comes_again
    }

    pub(crate) fn different(&self) -> Different<'_> {
        let mut different = Different { sets: Vec::new(), hangs: Vec::new(), comes_again: 0 };
        let mut hang = self.threads_after_opening();
        let mut seen: Vec<Vec<u16>> = Vec::new();
        for number in 0..self.times.min(MOST_SETS.to_u64()) {
            if let Some(at) = seen.iter().position(|before| *before == hang) {
                different.comes_again = at;
                break;
            }
            let Some(set) = self.set(number) else { break };
            let after = set.threads_after(&hang);
            different.sets.push(set);
            seen.push(hang.clone());
            different.hangs.push(std::mem::replace(&mut hang, after));
        }
        different.hangs.push(hang);
        different
    }

    /// By position, the thread that hangs there as the closing begins.
    pub(crate) fn threads_before_closing(&self) -> Vec<u16> {
        let different = self.different();
        let count = different.sets.len().to_u64();
        let (again, times) = (different.comes_again.to_u64(), self.times);
        let at = if times <= count { times } else { again + (times - again) % (count - again).max(1) };
        different.hangs.get(at.to_usize()).cloned().unwrap_or_else(|| self.threads_after_opening())
    }
}
