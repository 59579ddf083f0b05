//! Sets that differ, in what is done or in the colors that it is done with.

use super::{Passage, TyingScript};
use knotwright_numbers::ToNumber;

/// More different sets are not described one by one; see [`TyingScript::can_be_told`].
const MOST_SETS: usize = 120;

/// The different sets, in order, and how the strands hang as each begins and after the last.
pub(crate) struct Different<'a> {
    pub(crate) sets: Vec<&'a Passage>,
    /// By position, which strand of the band; one more than there are sets.
    pub(crate) orders: Vec<Vec<u8>>,
    /// Of the sets, the first that comes again after the last.
    pub(crate) comes_again: usize,
}

impl TyingScript {
    /// Whether the sets that are described one by one are all that differ: after them the same colors come again,
    /// or the band ends. Otherwise neither words nor a sheet can say how it goes on.
    pub fn can_be_told(&self) -> bool {
        let different = self.different();
        let known = different.sets.len().to_u64();
        let hang = |order: Option<&Vec<u8>>| order.map(|order| self.colors(order));
        let comes_again = hang(different.orders.last()) == hang(different.orders.get(different.comes_again));
        known == self.times || comes_again
    }

    pub(crate) fn different(&self) -> Different<'_> {
        let mut different = Different { sets: Vec::new(), orders: Vec::new(), comes_again: 0 };
        let mut order = self.order_after_opening();
        let mut seen: Vec<Vec<u16>> = Vec::new();
        for number in 0..self.times.min(MOST_SETS.to_u64()) {
            let colors = self.colors(&order);
            if let Some(at) = seen.iter().position(|before| *before == colors) {
                different.comes_again = at;
                break;
            }
            let Some(set) = self.set(number) else { break };
            let after = set.order_after(&order);
            different.sets.push(set);
            different.orders.push(std::mem::replace(&mut order, after));
            seen.push(colors);
        }
        different.orders.push(order);
        different
    }

    /// By position, which strand hangs there as the closing begins; strands of one color may stand for each other.
    pub(crate) fn order_before_closing(&self) -> Vec<u8> {
        let different = self.different();
        let count = different.sets.len().to_u64();
        let (again, times) = (different.comes_again.to_u64(), self.times);
        let at = if times <= count { times } else { again + (times - again) % (count - again).max(1) };
        different.orders.get(at.to_usize()).cloned().unwrap_or_else(|| self.order_after_opening())
    }
}
