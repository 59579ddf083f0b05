//! Orders of strands as permutations.
//!
//! Whatever is asked about many sets is answered by the rounds (cycles) of one set's permutation, in time that grows with
//! the strands and not with the sets: a band may be asked for a million sets. Tying set after set is what the tests compare
//! it with.
//!
//! An order says, by position, which strand hangs there; strands are named by the position where they began. A set
//! takes the strand that begins at `order[p]` to position `p`.

use crate::Knot;
use knotwright_numbers::ToNumber;

/// The order after a set is tied `times` times over that leaves the strands in `order`. Takes time in proportion to
/// the strands, however often it is tied. What is no permutation is returned as it is.
pub fn tied_over(order: &[u8], times: u64) -> Vec<u8> {
    let mut after = order.to_vec();
    if !is_order(order) {
        return after;
    }
    let back = |position: usize| usize::from(order[position]);
    let mut seen = [false; 256];
    for start in 0..order.len() {
        let (mut at, mut length) = (start, 0);
        while !std::mem::replace(&mut seen[at], true) {
            (at, length) = (back(at), length + 1);
        }
        // The strand at `at` came from `times` places back along the round.
        let mut from = (0..times.checked_rem(length).unwrap_or(0)).fold(start, |from, _| back(from));
        for _ in 0..length {
            after[at] = from.to_u8();
            (at, from) = (back(at), back(from));
        }
    }
    after
}

/// First one order, then another on top of it.
pub fn one_then(first: &[u8], second: &[u8]) -> Vec<u8> {
    second.iter().filter_map(|&strand| first.get(usize::from(strand)).copied()).collect()
}

/// By strand, the position where it hangs: the inverse permutation.
pub fn invert_order(order: &[u8]) -> Vec<u8> {
    let mut positions = vec![0; order.len()];
    for (position, &strand) in order.iter().enumerate() {
        if let Some(place) = positions.get_mut(usize::from(strand)) {
            *place = position.to_u8();
        }
    }
    positions
}

/// Who hangs where another strand hung, at one place of a piece: from there on they tie the same knots.
#[derive(Debug, Clone)]
pub struct OtherStrands([u8; 256]);

impl OtherStrands {
    /// By position, who hung and who hangs there.
    pub fn hang(hung: &[u8], hangs: &[u8]) -> Self {
        let mut others = [0; 256];
        hung.iter().zip(hangs).for_each(|(&before, &now)| others[usize::from(before)] = now);
        Self(others)
    }

    /// What they tie where that knot was tied.
    pub fn tie(&self, knot: Knot) -> Knot {
        let other = |strand: u8| self.0[usize::from(strand)];
        Knot { working: other(knot.working), base: other(knot.base), ..knot }
    }

    /// They hang where those of an order hung.
    pub fn take_over(&self, order: &mut [u8]) {
        order.iter_mut().for_each(|strand| *strand = self.0[usize::from(*strand)]);
    }
}

/// The rounds that strands make when a set is tied over and over: each lists positions in the order in which one
/// strand visits them, from the leftmost; the rounds are sorted by it. Empty if `order` is no permutation.
pub fn find_cycles(order: &[u8]) -> Vec<Vec<u8>> {
    if !is_order(order) {
        return Vec::new();
    }
    let to = invert_order(order);
    let mut seen = vec![false; order.len()];
    let mut cycles = Vec::new();
    for start in 0..order.len() {
        if seen[start] {
            continue;
        }
        let mut cycle = Vec::with_capacity(order.len());
        let mut at = start;
        while !std::mem::replace(&mut seen[at], true) {
            cycle.push(at.to_u8());
            at = usize::from(to[at]);
        }
        cycles.push(cycle);
    }
    cycles
}

/// Whether every strand hangs somewhere, once.
pub fn is_order(order: &[u8]) -> bool {
    let mut seen = [false; 256];
    order.iter().all(|&strand| {
        usize::from(strand) < order.len() && !std::mem::replace(&mut seen[usize::from(strand)], true)
    })
}

/// How the strands must begin so that they hang in `wanted` order after a piece that leaves them in `order`:
/// the strand wanted at a position must begin where that position's strand comes from. `None` if the two differ in
/// length or `order` is no permutation.
///
/// Only for a piece that picks its strands by position; one that picks by color may take other ways then.
pub fn start_for<T: Clone>(order: &[u8], wanted: &[T]) -> Option<Vec<T>> {
    if order.len() != wanted.len() || !is_order(order) {
        return None;
    }
    Some(invert_order(order).iter().map(|&position| wanted[usize::from(position)].clone()).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn any_order() -> impl Strategy<Value = Vec<u8>> {
        (0_u8..12).prop_flat_map(|n| Just((0..n).collect::<Vec<u8>>()).prop_shuffle())
    }

    proptest! {
        #[test]
        fn tied_over_is_what_tying_it_so_often_gives(order in any_order(), times in 0_u64..40) {
            let mut slowly: Vec<u8> = (0..order.len().to_u8()).collect();
            for _ in 0..times {
                slowly = one_then(&slowly, &order);
            }
            prop_assert_eq!(tied_over(&order, times), slowly);
        }

        #[test]
        fn the_start_found_leads_to_the_order_wanted(order in any_order()) {
            let wanted: Vec<char> = ('a'..).take(order.len()).collect();
            let start = start_for(&order, &wanted).unwrap();
            let after: Vec<char> = order.iter().map(|&strand| start[usize::from(strand)]).collect();
            prop_assert_eq!(after, wanted);
        }
    }

    #[test]
    fn a_round_is_read_in_the_direction_the_strand_travels() {
        // Strand 0 goes to position 2, 2 to 1, 1 to 0; 3 stays.
        assert_eq!(find_cycles(&[1, 2, 0, 3]), [vec![0, 2, 1], vec![3]]);
    }

    #[test]
    fn what_is_no_order_has_no_start_and_no_rounds() {
        assert_eq!(start_for(&[0, 0], &['a', 'b']), None);
        assert_eq!(start_for(&[0, 1], &['a']), None);
        assert!(find_cycles(&[3, 0]).is_empty());
        assert!(!is_order(&[0, 2]));
    }
}
