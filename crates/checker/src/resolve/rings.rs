//! Which files use one another in a circle.

/// By number of a point, the number of its ring: points have the same one if each can be reached from the other. Point
/// `p` leads to those of `next[p]`. Takes time in proportion to points and ways.
///
/// Source: R. E. Tarjan, Depth-first search and linear graph algorithms, SIAM Journal on Computing 1 (1972); here without
/// recursion, as a chain of files may be long.
pub(super) fn find_rings(next: &[Vec<usize>]) -> Vec<usize> {
    let count = next.len();
    let mut search = RingSearch {
        next,
        found: vec![None; count],
        lowest: vec![0; count],
        ring: vec![usize::MAX; count],
        open: Vec::new(),
        time: 0,
    };
    (0..count).for_each(|point| search.from(point));
    search.ring
}

struct RingSearch<'n> {
    next: &'n [Vec<usize>],
    /// When a point was found.
    found: Vec<Option<usize>>,
    /// The earliest found point of its ring that is known to be reached from it.
    lowest: Vec<usize>,
    ring: Vec<usize>,
    /// Points whose ring is not known yet, in the order in which they were found.
    open: Vec<usize>,
    time: usize,
}

impl RingSearch<'_> {
    fn from(&mut self, start: usize) {
        if self.found[start].is_some() {
            return;
        }
        // Points on the way, each with how many of its ways were gone.
        let mut path = vec![(start, 0)];
        self.find(start);
        while let Some((point, gone)) = path.last_mut() {
            let point = *point;
            if let Some(&to) = self.next[point].get(*gone) {
                *gone += 1;
                match self.found[to] {
                    None => {
                        self.find(to);
                        path.push((to, 0));
                    }
                    Some(time) if self.ring[to] == usize::MAX => {
                        self.lowest[point] = self.lowest[point].min(time);
                    }
                    Some(_) => {}
                }
                continue;
            }
            path.pop();
            if let Some(&(before, _)) = path.last() {
                self.lowest[before] = self.lowest[before].min(self.lowest[point]);
            }
            self.close(point);
        }
    }

    fn find(&mut self, point: usize) {
        self.found[point] = Some(self.time);
        self.lowest[point] = self.time;
        self.time += 1;
        self.open.push(point);
    }

    /// All ways from `point` were gone: if none leads further back, its ring is whole.
    fn close(&mut self, point: usize) {
        if self.found[point] != Some(self.lowest[point]) {
            return;
        }
        while let Some(of) = self.open.pop() {
            self.ring[of] = point;
            if of == point {
                break;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::find_rings;
    use proptest::prelude::*;

    fn reaches(next: &[Vec<usize>], from: usize, to: usize) -> bool {
        let (mut seen, mut open) = (vec![false; next.len()], vec![from]);
        while let Some(at) = open.pop() {
            if !std::mem::replace(&mut seen[at], true) {
                open.extend(&next[at]);
            }
        }
        seen[to]
    }

    proptest! {
        #[test]
        fn two_are_in_one_ring_if_each_leads_to_the_other(
            ways in prop::collection::vec((0..9_usize, 0..9_usize), 0..20),
        ) {
            let mut next = vec![Vec::new(); 9];
            ways.iter().for_each(|&(from, to)| next[from].push(to));
            let found = find_rings(&next);
            for one in 0..9 {
                for other in 0..9 {
                    let both = reaches(&next, one, other) && reaches(&next, other, one);
                    prop_assert_eq!(found[one] == found[other], both, "{} {} {:?}", one, other, next);
                }
            }
        }
    }

    #[test]
    fn a_long_chain_is_no_ring_until_it_leads_back() {
        let mut next: Vec<Vec<usize>> = (1..=200_000).map(|to| vec![to]).collect();
        next.push(Vec::new());
        assert!(find_rings(&next).windows(2).all(|pair| pair[0] != pair[1]));
        next[200_000].push(0);
        assert!(find_rings(&next).windows(2).all(|pair| pair[0] == pair[1]));
    }
}
