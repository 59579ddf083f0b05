//! What a page has already, and what of a new band is new to it.

use serde::Serialize;
use std::collections::HashMap;
use std::sync::Arc;

/// A knot: row within its piece, gap, form, thread, step.
pub(crate) type SentKnot = [u32; 5];

/// The knots of an opening, a set or a closing, in the order of tying.
pub(crate) type SentKnots = Arc<Vec<SentKnot>>;

/// A piece that the page does not have: another piece with some knots in the place of others.
#[derive(Debug, PartialEq, Serialize)]
pub(crate) struct PieceChange {
    /// Its name.
    pub(crate) name: u32,
    /// The piece it is made from, if any.
    pub(crate) from: Option<u32>,
    /// How many knots, from the first, are the same as there.
    pub(crate) keep: usize,
    /// How many knots after those are left out.
    pub(crate) cut: usize,
    /// What comes in their place.
    pub(crate) knots: Vec<SentKnot>,
}

/// The pieces that a page has.
#[derive(Debug, Default)]
pub(crate) struct Sent {
    /// By part.
    parts: Vec<(u32, SentKnots)>,
    last: u32,
}

impl Sent {
    /// By part, the name of its piece; and the pieces that are new.
    pub(crate) fn send(&mut self, parts: Vec<SentKnots>) -> (Vec<u32>, Vec<PieceChange>) {
        let mut names: HashMap<SentKnots, u32> =
            self.parts.iter().map(|(name, knots)| (Arc::clone(knots), *name)).collect();
        let (mut changes, mut now) = (Vec::new(), Vec::with_capacity(parts.len()));
        for (at, knots) in parts.into_iter().enumerate() {
            let name = *names.entry(Arc::clone(&knots)).or_insert_with(|| {
                self.last += 1;
                changes.push(change(self.last, self.parts.get(at), &knots));
                self.last
            });
            now.push((name, knots));
        }
        self.parts = now;
        (self.parts.iter().map(|(name, _)| *name).collect(), changes)
    }
}

fn change(name: u32, before: Option<&(u32, SentKnots)>, knots: &[SentKnot]) -> PieceChange {
    let Some((from, old)) = before else {
        return PieceChange { name, from: None, keep: 0, cut: 0, knots: knots.to_vec() };
    };
    let keep = old.iter().zip(knots).take_while(|(old, new)| old == new).count();
    let (old, new) = (&old[keep..], &knots[keep..]);
    let tail = old.iter().rev().zip(new.iter().rev()).take_while(|(old, new)| old == new).count();
    let knots = new[..new.len() - tail].to_vec();
    PieceChange { name, from: Some(*from), keep, cut: old.len() - tail, knots }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// What the page does with what it receives.
    fn apply_changes(pieces: &mut HashMap<u32, Vec<SentKnot>>, names: &[u32], changes: &[PieceChange]) {
        for change in changes {
            let mut knots = change.from.map(|from| pieces[&from].clone()).unwrap_or_default();
            knots.splice(change.keep..change.keep + change.cut, change.knots.iter().copied());
            pieces.insert(change.name, knots);
        }
        pieces.retain(|name, _| names.contains(name));
    }

    proptest! {
        #[test]
        fn the_page_ends_up_with_the_band(
            bands in prop::collection::vec(prop::collection::vec(prop::collection::vec(0..3u32, 0..6), 0..5), 1..6),
        ) {
            let (mut sent, mut page) = (Sent::default(), HashMap::new());
            for band in bands {
                let parts: Vec<SentKnots> =
                    band.iter().map(|part| Arc::new(part.iter().map(|&gap| [0, gap, 0, 0, 0]).collect())).collect();
                let (names, changes) = sent.send(parts.clone());
                apply_changes(&mut page, &names, &changes);
                let has: Vec<&Vec<SentKnot>> = names.iter().map(|name| &page[name]).collect();
                prop_assert_eq!(has, parts.iter().map(Arc::as_ref).collect::<Vec<_>>());
            }
        }
    }

    #[test]
    fn one_knot_changed_in_a_set_tied_eight_times_is_reported_once() {
        let set: Vec<SentKnot> = (0..480).map(|at| [at / 12, at % 12, 0, 1, at / 8]).collect();
        let mut sent = Sent::default();
        let knots = Arc::new(set.clone());
        let (names, first) = sent.send(vec![knots; 8]);
        assert_eq!((names, first.len()), (vec![1; 8], 1));
        let mut other = set;
        other[200][2] = 3;
        let knots = Arc::new(other);
        let (names, second) = sent.send(vec![knots; 8]);
        assert_eq!(names, [2; 8]);
        assert_eq!((second.len(), second[0].knots.len(), second[0].keep, second[0].cut), (1, 1, 200, 1));
    }
}
