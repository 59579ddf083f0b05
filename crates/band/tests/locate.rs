//! Finding one's place, against looking at every step.

mod support;

use knotwright_band::compare::Colored;
use knotwright_band::locate::*;
use knotwright_band::{Kind, Piece, normal_form};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;
use std::collections::{BTreeSet, HashMap, VecDeque};
use support::*;

/// By step, the colors by position.
fn states(piece: &Piece, colors: &[u16]) -> Vec<Vec<u16>> {
    let mut now = colors.to_vec();
    let mut all = vec![now.clone()];
    for knot in piece.knots() {
        if knot.kind.swaps() {
            now.swap(usize::from(knot.gap), usize::from(knot.gap) + 1);
        }
        all.push(now.clone());
    }
    all
}

/// The least number of exchanges of neighbors to every row of these colors.
fn exchanges(from: &[u16]) -> HashMap<Vec<u16>, u32> {
    let mut known = HashMap::from([(from.to_vec(), 0)]);
    let mut next = VecDeque::from([from.to_vec()]);
    while let Some(now) = next.pop_front() {
        for at in 0..now.len() - 1 {
            let mut other = now.clone();
            other.swap(at, at + 1);
            if !known.contains_key(&other) {
                known.insert(other.clone(), known[&now] + 1);
                next.push_back(other);
            }
        }
    }
    known
}

fn steps_of(located: &[std::ops::Range<u32>]) -> Vec<u32> {
    located.iter().cloned().flatten().collect()
}

fn any_band() -> impl Strategy<Value = (Piece, Vec<u16>, Vec<u16>)> {
    (2_usize..7).prop_flat_map(|n| {
        let colors = prop::collection::vec(0_u16..3, n);
        let colors = colors.prop_flat_map(|c| (Just(c.clone()), Just(c).prop_shuffle()));
        (any_steps(n, 0..40).prop_map(move |s| piece(n, &s)), colors).prop_map(|(p, (c, hang))| (p, c, hang))
    })
}

proptest! {
    #[test]
    fn the_nearest_steps_are_found((piece, colors, hang) in any_band()) {
        let found = locate_hang(Colored { piece: &piece, colors: &colors }, &hang).unwrap();
        let known = exchanges(&hang);
        let all: Vec<u32> = states(&piece, &colors).iter().map(|state| known[state]).collect();
        let least = *all.iter().min().unwrap();
        prop_assert_eq!(found.distance, least);
        let steps: Vec<u32> = (0..).zip(&all).filter(|(_, d)| **d == least).map(|(step, _)| step).collect();
        prop_assert_eq!(steps_of(&found.steps), steps);
    }

    #[test]
    fn steps_with_two_strands_exchanged_are_found((piece, colors, hang) in any_band()) {
        let found = one_slip_away(Colored { piece: &piece, colors: &colors }, &hang).unwrap();
        let off = |state: &Vec<u16>| state.iter().zip(&hang).filter(|(a, b)| a != b).count() == 2;
        let all = states(&piece, &colors);
        let steps: Vec<u32> = (0..).zip(&all).filter(|(_, state)| off(state)).map(|(step, _)| step).collect();
        prop_assert_eq!(steps_of(&found), steps);
    }

    #[test]
    fn the_knot_tied_wrong_is_among_the_suspects(
        steps in any_steps(6, 1..40), at in any::<prop::sample::Index>(),
    ) {
        // A swapping knot tied as one that does not, or the other way round; all strands differ.
        let at = at.index(steps.len());
        let mut slipped = steps.clone();
        slipped[at].1 = match slipped[at].1 {
            Kind::Forward => Kind::ForwardBackward,
            Kind::Backward => Kind::BackwardForward,
            Kind::ForwardBackward => Kind::Forward,
            Kind::BackwardForward => Kind::Backward,
        };
        let colors: Vec<u16> = (0..6).collect();
        let plan = piece(6, &steps);
        let hang: Vec<u16> = piece(6, &slipped).order().iter().map(|&s| u16::from(s)).collect();
        let found = find_suspects(Colored { piece: &plan, colors: &colors }, &hang, steps.len().to_u32()).unwrap();
        let it = found.iter().find(|suspect| suspect.knot.to_usize() == at);
        prop_assert!(it.is_some());
        prop_assert!(found.windows(2).all(|two| two[0].untie <= two[1].untie));
        // To mend it, all that waits for it must be untied: the rest is what both begin with, this knot aside.
        let wrong = list_untied(6, piece(6, &slipped).knots(), plan.knots());
        prop_assert_eq!(it.unwrap().untie.to_usize(), wrong.len());
    }

    #[test]
    fn no_fewer_knots_need_be_untied(tied in any_steps(4, 0..8), plan in any_steps(4, 0..8)) {
        let (tied, plan) = (piece(4, &tied), piece(4, &plan));
        let wrong = list_untied(4, tied.knots(), plan.knots());
        // Untied one after another, each is free when its turn comes.
        let mut left: Vec<u32> = (0..tied.knots().len().to_u32()).collect();
        let gap = |knot: u32| tied.knots()[knot.to_usize()].gap;
        for &knot in &wrong {
            let at = left.iter().position(|&k| k == knot).unwrap();
            prop_assert!(left[at + 1..].iter().all(|&later| gap(later).abs_diff(gap(knot)) > 1));
            left.remove(at);
        }
        let rest = |piece: &Piece, knots: &[u32]| {
            normal_form(&Piece::tie(4, knots.iter().map(|&k| piece.steps().nth(k.to_usize()).unwrap())).unwrap())
        };
        let beginnings = |piece: &Piece| -> BTreeSet<_> {
            let count = piece.knots().len();
            let gap = |knot: usize| piece.knots()[knot].gap;
            let sets = (0..1_u32 << count).map(|set| (0..count.to_u32()).filter(|k| set & 1 << k != 0).collect::<Vec<_>>());
            let begins = |set: &Vec<u32>| set.iter().all(|&k| {
                (0..k).all(|e| gap(e.to_usize()).abs_diff(gap(k.to_usize())) > 1 || set.contains(&e))
            });
            sets.filter(begins).map(|set| rest(piece, &set)).collect()
        };
        let of_plan = beginnings(&plan);
        prop_assert!(of_plan.contains(&rest(&tied, &left)));
        let most = beginnings(&tied).intersection(&of_plan).map(Vec::len).max();
        prop_assert_eq!(Some(left.len()), most);
    }
}

#[test]
fn other_strands_are_refused() {
    let band = piece(3, &[(0, Kind::Forward)]);
    let colored = Colored { piece: &band, colors: &[1, 1, 2] };
    assert_eq!(locate_hang(colored, &[1, 2]), Err(LocateError::OtherWidth));
    let other = Err(LocateError::OtherColors { color: 2, hang: 2, wanted: 1 });
    assert_eq!(locate_hang(colored, &[2, 1, 2]), other);
    assert_eq!(one_slip_away(colored, &[1, 1]), Err(LocateError::OtherWidth));
}

#[test]
fn a_place_that_comes_again_is_given_each_time() {
    let band =
        piece(2, &[(0, Kind::Forward), (0, Kind::ForwardBackward), (0, Kind::Backward), (0, Kind::Forward)]);
    let found = locate_hang(Colored { piece: &band, colors: &[1, 2] }, &[2, 1]).unwrap();
    assert_eq!((found.distance, found.steps), (0, vec![1..3, 4..5]));
}

/// Bricks of 12 strands, half of the knots swapping, and one slip noticed 30 knots later: in how many cases of a
/// hundred the knot that was tied wrong is among the first three suspects.
#[test]
fn the_knot_tied_wrong_is_mostly_among_the_first_three() {
    let bricks = (0..).flat_map(|row: usize| (row % 2..11).step_by(2));
    let steps: Vec<_> =
        bricks.take(230).enumerate().map(|(at, gap)| (gap.to_u8(), KINDS[at * at % 23 % 4])).collect();
    let colors: Vec<u16> = (0..12).collect();
    let plan = piece(12, &steps);
    let first_three = (0..200).filter(|&at| {
        let mut slipped = steps[..at + 30].to_vec();
        slipped[at].1 = KINDS[(KINDS.iter().position(|kind| *kind == slipped[at].1).unwrap() + 2) % 4];
        let hang: Vec<u16> = piece(12, &slipped).order().iter().map(|&s| u16::from(s)).collect();
        let found =
            find_suspects(Colored { piece: &plan, colors: &colors }, &hang, at.to_u32() + 30).unwrap();
        found.iter().take(3).any(|suspect| suspect.knot.to_usize() == at)
    });
    let of_a_hundred = first_three.count() / 2;
    assert!(of_a_hundred >= 95, "{of_a_hundred}");
}
