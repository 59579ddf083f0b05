//! Balancing, against trying every choice.

mod support;

use knotwright_band::balance::{BalancedPiece, Lengths, balance_set};
use knotwright_band::{Layout, Piece, Sets, count_uses, fewest_pick_ups, find_repeats, total_uses};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;
use support::*;

const WORKING: f64 = 15.0;
const BASE: f64 = 3.0;

fn used(piece: &Piece, fixed: &[u16]) -> Vec<f64> {
    let of_knots =
        count_uses(piece).into_iter().map(|u| u.working.to_f64() * WORKING + u.base.to_f64() * BASE);
    of_knots.zip(fixed).map(|(used, fixed)| used + f64::from(*fixed)).collect()
}

fn largest(used: &[f64]) -> f64 {
    used.iter().copied().fold(0.0, f64::max)
}

/// The piece with every choice of who ties the free knots.
fn every_choice(piece: &Piece, free: impl Fn(u8, u8) -> bool) -> Vec<Piece> {
    let mut all = vec![Vec::new()];
    for knot in piece.knots() {
        let kinds = [knot.kind, knot.kind.mirrored()];
        let count = if free(knot.working, knot.base) { 2 } else { 1 };
        all = all
            .iter()
            .flat_map(|steps: &Vec<_>| {
                kinds[..count].iter().map(move |&kind| [&steps[..], &[(knot.gap, kind)]].concat())
            })
            .collect();
    }
    all.iter().map(|steps| support::piece(piece.strands(), steps)).collect()
}

fn looks_the_same(piece: &Piece, found: &BalancedPiece, colors: &[u16]) -> Result<(), TestCaseError> {
    prop_assert_eq!(piece.order(), found.piece.order());
    prop_assert_eq!(Layout::of(piece), Layout::of(&found.piece));
    for (at, (knot, other)) in piece.knots().iter().zip(found.piece.knots()).enumerate() {
        let seen = |k: &knotwright_band::Knot| (k.gap, colors[usize::from(k.working)], k.kind.swaps());
        prop_assert_eq!(seen(knot), seen(other));
        prop_assert_eq!(found.turned.contains(&at.to_u32()), knot.working != other.working);
    }
    Ok(())
}

fn any_case() -> impl Strategy<Value = (Piece, Vec<u16>, Vec<u16>)> {
    (2_usize..6).prop_flat_map(|n| {
        let steps = any_steps(n, 0..9).prop_map(move |steps| piece(n, &steps));
        (steps, prop::collection::vec(0_u16..2, n), prop::collection::vec(0_u16..40, n))
    })
}

/// Whether two positions have strands of one color as every set begins.
fn always_alike(set: &Piece, colors: &[u16]) -> impl Fn(u8, u8) -> bool {
    let sets = Sets::alike(set.clone());
    let period = find_repeats(&sets, colors).strands;
    let orders: Vec<Vec<u16>> = (0..period)
        .map(|before| sets.order_after(before).iter().map(|&strand| colors[usize::from(strand)]).collect())
        .collect();
    move |a, b| orders.iter().all(|order| order[usize::from(a)] == order[usize::from(b)])
}

/// For each position, what the strands of its round use in the mean.
fn means(set: &Piece, fixed: &[u16]) -> Vec<f64> {
    let used = used(set, fixed);
    let mean = |first: usize| {
        let next = |at: &usize| Some(usize::from(set.order()[*at])).filter(|at| *at != first);
        let round: Vec<usize> = std::iter::successors(Some(first), next).collect();
        round.iter().map(|&at| used[at]).sum::<f64>() / round.len().to_f64()
    };
    (0..set.strands()).map(mean).collect()
}

/// The least that the largest use can be, whatever is turned.
fn least(set: &Piece, colors: &[u16], fixed: &[u16]) -> f64 {
    let all = every_choice(set, always_alike(set, colors));
    all.iter().map(|choice| largest(&means(choice, fixed))).fold(f64::INFINITY, f64::min)
}

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-9
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]
    #[test]
    fn no_choice_uses_less((set, colors, fixed) in any_case()) {
        let lengths = used(&set, &fixed);
        let found = balance_set(&set, &colors, Lengths { used: &lengths, extra: WORKING - BASE }, false);
        looks_the_same(&set, &found, &colors)?;
        prop_assert!(near(found.after, least(&set, &colors, &fixed)), "{}", found.after);
        prop_assert!(near(largest(&means(&found.piece, &fixed)), found.after));
        prop_assert!(near(found.before, largest(&means(&set, &fixed))));
    }

    #[test]
    fn pick_ups_stay_the_fewest_where_asked((set, colors, fixed) in any_case()) {
        let lengths = used(&set, &fixed);
        let found = balance_set(&set, &colors, Lengths { used: &lengths, extra: WORKING - BASE }, true);
        looks_the_same(&set, &found, &colors)?;
        prop_assert!(fewest_pick_ups(&found.piece) <= fewest_pick_ups(&set));
        prop_assert!(found.after <= found.before);
        prop_assert!(near(largest(&means(&found.piece, &fixed)), found.after));
        if found.least {
            prop_assert!(near(found.after, least(&set, &colors, &fixed)));
        }
    }

    #[test]
    fn no_choice_in_a_set_uses_less_in_the_long_run((set, colors, _) in any_case()) {
        let none = vec![0; set.strands()];
        let lengths = used(&set, &none);
        let found = balance_set(&set, &colors, Lengths { used: &lengths, extra: WORKING - BASE }, false);
        prop_assert_eq!(set.order(), found.piece.order());
        // After as many sets as bring every strand back, what strands use is what they use in the long run.
        let sets = Sets::alike(set.clone());
        let period = find_repeats(&sets, &colors).strands;
        let long_run = |set: &Piece| {
            let nothing = Piece::empty(set.strands());
            let total = total_uses(&nothing, &Sets::alike(set.clone()), period, &nothing);
            let used = total.into_iter().map(|u| u.working.to_f64() * WORKING + u.base.to_f64() * BASE);
            largest(&used.collect::<Vec<_>>()) / period.to_f64()
        };
        let least = every_choice(&set, always_alike(&set, &colors)).iter().map(long_run).fold(f64::INFINITY, f64::min);
        prop_assert!(near(found.after, least), "{} {}", found.after, least);
        prop_assert!(near(long_run(&found.piece), least));
    }
}

#[test]
fn a_strand_that_ties_all_gives_half_away() {
    let piece = piece(2, &[(0, KINDS[2]); 10]);
    let lengths = used(&piece, &[0, 0]);
    let found = balance_set(&piece, &[7, 7], Lengths { used: &lengths, extra: WORKING - BASE }, false);
    assert_eq!((found.before, found.after), (150.0, 90.0));
    assert_eq!(found.turned.len(), 5);
    let kept = balance_set(&piece, &[7, 7], Lengths { used: &lengths, extra: WORKING - BASE }, true);
    assert_eq!(
        (kept.after, kept.turned.len(), kept.least),
        (150.0, 0, false),
        "one pick-up does all as it is"
    );
    let others = balance_set(&piece, &[7, 8], Lengths { used: &lengths, extra: WORKING - BASE }, false);
    assert_eq!(others.turned, [0_u32; 0], "two colors");
}

#[test]
fn lengths_that_make_no_sense_change_nothing_and_do_no_harm() {
    let piece = piece(3, &[(0, KINDS[1]), (1, KINDS[0]), (0, KINDS[1])]);
    for extra in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let found = balance_set(&piece, &[], Lengths { used: &[f64::NAN, 5.0], extra }, false);
        assert!(found.turned.is_empty());
    }
}
