//! Comparing, against trying every way.

mod support;

use knotwright_band::Kind::{self, Backward as B, Forward as F, ForwardBackward as T};
use knotwright_band::compare::*;
use knotwright_band::{Cell, Piece, Tying, never_joined, normal_form};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use support::*;

/// All bands that come from leaving out at most `most` knots, by normal form.
fn without(piece: &Piece, most: usize) -> BTreeMap<Vec<Cell>, usize> {
    let steps: Vec<_> = piece.steps().collect();
    let mut least = BTreeMap::new();
    for out in 0..1_u32 << steps.len() {
        let gone = out.count_ones().to_usize();
        if gone <= most {
            let left: Vec<_> = (0..steps.len()).filter(|at| out & 1 << at == 0).map(|at| steps[at]).collect();
            let entry = least.entry(normal_form(&support::piece(piece.strands(), &left))).or_insert(gone);
            *entry = gone.min(*entry);
        }
    }
    least
}

fn fewest_by_trying(one: &Piece, other: &Piece) -> usize {
    let (one, other) = (without(one, usize::MAX), without(other, usize::MAX));
    one.iter().filter_map(|(form, gone)| other.get(form).map(|added| gone + added)).min().unwrap()
}

/// The piece without these knots.
fn left(piece: &Piece, gone: &BTreeSet<u32>) -> Piece {
    let steps =
        piece.steps().enumerate().filter(|(at, _)| !gone.contains(&at.to_u32())).map(|(_, step)| step);
    Piece::tie(piece.strands(), steps).unwrap()
}

/// What edits must be, few or many.
fn sound(one: &Piece, other: &Piece, edits: &KnotEdits) {
    let pairs = || edits.changed.iter().chain(&edits.moved);
    let gone: BTreeSet<u32> = edits.removed.iter().copied().chain(pairs().map(|p| p.0)).collect();
    let new: BTreeSet<u32> = edits.added.iter().copied().chain(pairs().map(|p| p.1)).collect();
    assert_eq!(gone.len() + new.len(), edits.count());
    assert_eq!(normal_form(&left(one, &gone)), normal_form(&left(other, &new)), "the rest is one band");
    assert_eq!(edits.kept.len() + gone.len(), one.knots().len());
    let step = |piece: &Piece, at: u32| (piece.knots()[at.to_usize()].gap, piece.knots()[at.to_usize()].kind);
    for &(a, b) in &edits.kept {
        assert!(!gone.contains(&a) && !new.contains(&b));
        assert_eq!(step(one, a), step(other, b));
    }
    for &(a, b) in &edits.changed {
        assert_eq!(step(one, a).0, step(other, b).0);
        assert_ne!(step(one, a).1, step(other, b).1);
    }
    for &(a, b) in &edits.moved {
        assert_eq!(step(one, a).0.abs_diff(step(other, b).0), 1);
    }
}

/// At a place, a knot that comes, and whether the one there goes.
type Change = (prop::sample::Index, Option<(u8, Kind)>, bool);

fn any_edit(strands: usize) -> impl Strategy<Value = Change> {
    (any::<prop::sample::Index>(), prop::option::of(any_step(strands)), any::<bool>())
}

/// Steps after edits: at a place, a knot goes or comes or both.
fn edited(steps: &[(u8, Kind)], changes: &[Change]) -> Vec<(u8, Kind)> {
    let mut steps = steps.to_vec();
    for (at, new, goes) in changes {
        if *goes && !steps.is_empty() {
            steps.remove(at.index(steps.len()));
        }
        if let Some(new) = new {
            steps.insert(at.index(steps.len() + 1), *new);
        }
    }
    steps
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]
    #[test]
    fn no_way_has_fewer_edits_between_random_bands(
        (one, other) in (2_usize..6).prop_flat_map(|n| (any_steps(n, 0..8), any_steps(n, 0..8)).prop_map(move |(a, b)| (piece(n, &a), piece(n, &b)))),
    ) {
        let found = find_edits(&one, &other).unwrap();
        sound(&one, &other, &found);
        prop_assert!(found.fewest);
        prop_assert_eq!(found.count(), fewest_by_trying(&one, &other));
    }

    #[test]
    fn no_way_has_fewer_edits_between_bands_that_are_alike(
        steps in any_steps(5, 0..11),
        changes in prop::collection::vec(any_edit(5), 0..4),
    ) {
        let (one, other) = (piece(5, &steps), piece(5, &edited(&steps, &changes)));
        let found = find_edits(&one, &other).unwrap();
        sound(&one, &other, &found);
        prop_assert_eq!(found.count(), fewest_by_trying(&one, &other));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn edits_of_large_bands_are_sound_and_no_more_than_were_made(
        steps in any_steps(12, 200..600),
        changes in prop::collection::vec(any_edit(12), 0..8),
    ) {
        let (one, other) = (piece(12, &steps), piece(12, &edited(&steps, &changes)));
        let found = find_edits(&one, &other).unwrap();
        sound(&one, &other, &found);
        let made: usize = changes.iter().map(|(_, new, goes)| usize::from(new.is_some()) + usize::from(*goes)).sum();
        prop_assert!(!found.fewest || found.count() <= made, "{} of {}", found.count(), made);
    }
}

fn bricks(strands: usize, rows: usize, kind: Kind) -> Vec<(u8, Kind)> {
    (0..rows).flat_map(|row| (row % 2..strands - 1).step_by(2).map(move |gap| (gap.to_u8(), kind))).collect()
}

#[test]
fn bands_with_little_in_common_are_compared_all_the_same() {
    let scattered = |by: usize| -> Vec<(u8, Kind)> {
        (0..400).map(|at| ((at * by % 397 % 19).to_u8(), KINDS[at * at * by % 11 % 4])).collect()
    };
    let (one, other) = (piece(20, &scattered(101)), piece(20, &scattered(223)));
    let found = find_edits(&one, &other).unwrap();
    assert!(!found.fewest, "given up; few, but maybe not the fewest");
    assert!(found.kept.len() > 50);
    sound(&one, &other, &found);
}

#[test]
fn a_knot_can_be_left_out_though_others_come_before_it() {
    let (down, up) = (piece(4, &[(0, F), (1, F), (2, T)]), piece(4, &[(2, T), (1, F), (0, F)]));
    let found = find_edits(&down, &up).unwrap();
    assert_eq!((found.removed, found.added, found.kept), (vec![1], vec![1], vec![(0, 2), (2, 0)]));
}

#[test]
fn a_changed_knot_is_one_line_however_much_follows() {
    let steps = bricks(8, 40, F);
    let mut other = steps.clone();
    other[70].1 = T;
    let (one, other) = (piece(8, &steps), piece(8, &other));
    let found = find_edits(&one, &other).unwrap();
    assert_eq!((found.changed.len(), found.count()), (1, 2));
    assert_eq!(found.changed, [(70, 70)]);
    let colors: Vec<u16> = (0..8).collect();
    let band = |piece| Colored { piece, colors: &colors };
    let after = find_follows(band(&one), band(&other), &found);
    assert_eq!(after.from_row, Some(20));
    assert_eq!(after.moved.len(), 2, "two strands change places");
    assert!(after.recolored > 5, "{after:?}");
    assert!(after.start.is_empty());
}

#[test]
fn a_knot_one_gap_off_is_moved() {
    let one = piece(6, &[(0, F), (4, F), (1, B), (3, T), (2, F)]);
    let other = piece(6, &[(0, F), (4, F), (1, B), (2, T), (2, F)]);
    let found = find_edits(&one, &other).unwrap();
    assert_eq!((found.moved, found.removed.len(), found.added.len()), (vec![(3, 3)], 0, 0));
}

#[test]
fn a_knot_more_or_less_is_added_or_removed() {
    let steps = bricks(6, 10, B);
    let mut longer = steps.clone();
    longer.insert(13, (2, T));
    let (one, other) = (piece(6, &steps), piece(6, &longer));
    let found = find_edits(&one, &other).unwrap();
    assert_eq!((found.added, found.removed.len()), (vec![13], 0));
    assert_eq!(find_edits(&other, &one).unwrap().removed, [13]);
    assert_eq!(find_edits(&one, &Piece::empty(5)), None);
}

#[test]
fn likeness_tells_band_from_look() {
    let colors = [1, 1, 2];
    let like = |a: &Piece, b: &Piece| {
        compare_bands(Colored { piece: a, colors: &colors }, Colored { piece: b, colors: &colors })
    };
    let one = piece(3, &[(0, F), (1, F)]);
    assert_eq!(like(&one, &one), Likeness::Same);
    let tied_by_the_other = piece(3, &[(0, B), (1, F)]);
    assert_eq!(like(&one, &tied_by_the_other), Likeness::SameLook, "both are of color 1");
    assert_eq!(like(&one, &piece(3, &[(0, F), (1, B)])), Likeness::Different);
    assert_eq!(like(&one, &Piece::empty(4)), Likeness::Different);
}

/// All sets that come from this one by beginning it one knot later, again and again; with the colors then.
fn begun_later(set: &Piece, colors: &[u16]) -> BTreeSet<(Vec<Cell>, Vec<u16>)> {
    let mut all = BTreeSet::new();
    let mut next = VecDeque::from([(set.steps().collect::<Vec<_>>(), colors.to_vec())]);
    while let Some((steps, colors)) = next.pop_front() {
        if !all.insert((normal_form(&piece(set.strands(), &steps)), colors.clone())) {
            continue;
        }
        for (at, step) in steps.iter().enumerate() {
            if steps[..at].iter().all(|earlier| earlier.0.abs_diff(step.0) > 1) {
                let mut later = steps.clone();
                later.remove(at);
                later.push(*step);
                let mut tying = Tying::new(set.strands());
                tying.tie(step.0, step.1);
                let colors = tying.order().iter().map(|&s| colors[usize::from(s)]).collect();
                next.push_back((later, colors));
            }
        }
    }
    all
}

fn any_two_sets() -> impl Strategy<Value = (Piece, Vec<u16>, Vec<prop::sample::Index>, bool)> {
    (2_usize..6).prop_flat_map(|n| {
        let kinds = prop::sample::select(vec![F, F, B, T]);
        let steps = prop::collection::vec((0..n.to_u8() - 1, kinds), 0..7);
        let later = prop::collection::vec(any::<prop::sample::Index>(), 0..12);
        (steps.prop_map(move |s| piece(n, &s)), prop::collection::vec(0_u16..3, n), later, any::<bool>())
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(800))]
    #[test]
    fn a_set_begun_elsewhere_is_known_again((set, colors, later, spoil) in any_two_sets()) {
        let all = begun_later(&set, &colors);
        let (mut steps, mut begun): (Vec<_>, _) = (set.steps().collect(), colors.clone());
        for index in later.iter().filter(|_| !steps.is_empty()).collect::<Vec<_>>() {
            let free: Vec<usize> = (0..steps.len())
                .filter(|&at| steps[..at].iter().all(|e: &(u8, Kind)| e.0.abs_diff(steps[at].0) > 1)).collect();
            let step = steps.remove(free[index.index(free.len())]);
            let mut tying = Tying::new(set.strands());
            tying.tie(step.0, step.1);
            begun = tying.order().iter().map(|&s| begun[usize::from(s)]).collect();
            steps.push(step);
        }
        if spoil && let Some(last) = steps.last_mut() {
            last.1 = last.1.mirrored();
        }
        let other = piece(set.strands(), &steps);
        let found = same_up_to(Colored { piece: &set, colors: &colors }, Colored { piece: &other, colors: &begun });
        let only_turned = found.is_some_and(|found| !found.mirrored && found.recolored.is_empty());
        let is = all.contains(&(normal_form(&other), begun.clone()));
        prop_assert!(spoil || is);
        // Strips that nothing joins could be begun after different numbers of whole sets; that is not looked for.
        let joined = never_joined(&[&set]).is_empty();
        if is && joined {
            prop_assert!(only_turned);
        }
        if only_turned {
            prop_assert!(is);
        }
    }
}

#[test]
fn mirror_and_colors_are_known_again() {
    let set = piece(5, &[(0, F), (1, F), (2, T), (3, B), (1, B)]);
    let (colors, others) = ([1, 1, 2, 3, 3], [4, 4, 1, 3, 3]);
    let one = Colored { piece: &set, colors: &colors };
    assert_eq!(same_up_to(one, one), Some(UpTo::default()));
    let recolored = same_up_to(one, Colored { piece: &set, colors: &others }).unwrap();
    assert_eq!(recolored, UpTo { recolored: vec![(1, 4), (2, 1), (3, 3)], ..UpTo::default() });
    let mirror = set.mirrored();
    let mirrored = same_up_to(one, Colored { piece: &mirror, colors: &[3, 3, 2, 1, 1] }).unwrap();
    assert_eq!(mirrored, UpTo { mirrored: true, ..UpTo::default() });
    assert_eq!(same_up_to(one, Colored { piece: &mirror, colors: &[3, 3, 2, 1, 2] }), None);
}

#[test]
fn the_row_where_it_begins_is_said() {
    // Diagonals of four; the other set begins two rows further down.
    let set = piece(3, &[(0, F), (1, T), (0, B), (1, B)]);
    let other = piece(3, &[(0, B), (1, B), (0, F), (1, T)]);
    let found = same_up_to(
        Colored { piece: &set, colors: &[1, 1, 1] },
        Colored { piece: &other, colors: &[1, 1, 1] },
    );
    let turned = found.unwrap().turned.unwrap();
    assert_eq!((turned.sets, &turned.knots[..], turned.row), (0, &[1, 1][..], 2));
}
