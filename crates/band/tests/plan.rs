//! The plan with the fewest pick-ups, against trying every order.

mod support;

use knotwright_band::Kind::{Backward as B, Forward as F};
use knotwright_band::{Begins, Layout, Piece, fewest_pick_ups, normal_form, pick_ups, plan_pick_ups};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;
use std::collections::{BTreeSet, HashMap};
use support::*;

/// The fewest pick-ups over all orders in which the knots can be tied: over what is tied and who tied last.
fn least_by_trying(piece: &Piece) -> usize {
    let knots = piece.knots();
    let mut last = vec![None; piece.strands()];
    let mut before = vec![0_u64; knots.len()];
    for (at, knot) in knots.iter().enumerate() {
        for strand in [knot.working, knot.base] {
            let earlier = last[usize::from(strand)].replace(at);
            before[at] |= earlier.map_or(0, |earlier: usize| 1 << earlier);
        }
    }
    let mut states = HashMap::from([((0_u64, u8::MAX), 0)]);
    for _ in knots {
        let mut next = HashMap::new();
        for ((tied, hand), count) in states {
            for at in (0..knots.len()).filter(|at| tied & 1 << at == 0 && before[*at] & !tied == 0) {
                let working = knots[at].working;
                let count = count + usize::from(working != hand);
                let least = next.entry((tied | 1 << at, working)).or_insert(count);
                *least = count.min(*least);
            }
        }
        states = next;
    }
    states.into_values().min().unwrap_or(0)
}

fn tied_by_plan(piece: &Piece, within: Option<u32>) -> Piece {
    let plan = plan_pick_ups(piece, within);
    let steps: Vec<_> = piece.steps().collect();
    Piece::tie(piece.strands(), plan.knots.iter().map(|&k| steps[k.to_usize()])).unwrap()
}

fn check(piece: &Piece) {
    let planned = tied_by_plan(piece, None);
    assert_eq!(normal_form(&planned), normal_form(piece), "the same band");
    let least = least_by_trying(piece);
    let steps: Vec<_> = piece.steps().collect();
    assert_eq!(pick_ups(&planned), least, "{} strands: {steps:?}", piece.strands());
    assert_eq!(fewest_pick_ups(piece), least);
}

#[test]
fn no_order_of_a_small_band_has_fewer_pick_ups() {
    for (strands, longest) in [(2, 5), (3, 5), (4, 4), (5, 3)] {
        let gaps = 0..strands.to_u8() - 1;
        let letters: Vec<_> = gaps.flat_map(|gap| KINDS.map(|kind| (gap, kind))).collect();
        for length in 0..=longest {
            let bands: BTreeSet<_> =
                words(&letters, length).iter().map(|word| normal_form(&piece(strands, word))).collect();
            for form in bands {
                let steps: Vec<_> = form.iter().map(|cell| (cell.gap, cell.kind)).collect();
                check(&piece(strands, &steps));
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]
    #[test]
    fn no_order_of_a_random_band_has_fewer_pick_ups(piece in any_piece(6, 4..15)) {
        check(&piece);
    }

    #[test]
    fn series_are_what_they_say(piece in any_piece(8, 0..80), within in prop::option::of(0_u32..8)) {
        let found = plan_pick_ups(&piece, within);
        prop_assert_eq!(normal_form(&tied_by_plan(&piece, within)), normal_form(&piece));
        let rows = Layout::of(&piece).rows;
        let mut from = 0;
        for series in &found.series {
            prop_assert_eq!(series.knots.start, from);
            from = series.knots.end;
            let knots = &found.knots[series.knots.start.to_usize()..from.to_usize()];
            prop_assert!(knots.iter().all(|&k| piece.knots()[k.to_usize()].working == series.strand));
            if let Some(within) = within {
                let of = |k: &u32| rows[k.to_usize()];
                prop_assert!(of(knots.last().unwrap()) - of(&knots[0]) < within.max(1));
            }
        }
        prop_assert_eq!(from.to_usize(), piece.knots().len());
    }

    #[test]
    fn reasons_hold(piece in any_piece(6, 0..60)) {
        let found = plan_pick_ups(&piece, None);
        for (at, series) in found.series.iter().enumerate() {
            let earlier = found.series[..at].iter().any(|other| other.strand == series.strand);
            match series.begins {
                Begins::First => prop_assert!(!earlier),
                Begins::TiedOver { knot } => {
                    prop_assert!(earlier);
                    prop_assert_eq!(piece.knots()[knot.to_usize()].base, series.strand);
                }
                Begins::Waits { knot, other } => {
                    prop_assert!(earlier);
                    let (knot, other) = (piece.knots()[knot.to_usize()], piece.knots()[other.to_usize()]);
                    prop_assert_eq!(knot.working, series.strand);
                    prop_assert!([other.working, other.base].contains(&knot.base));
                }
                Begins::TooManyRows => prop_assert!(false, "no limit was given"),
            }
        }
    }
}

#[test]
fn diagonals_are_one_pick_up_each() {
    let row_by_row = piece(6, &[(0, F), (2, F), (4, F), (1, F), (3, F), (2, F), (4, F), (3, F), (4, F)]);
    assert_eq!(pick_ups(&row_by_row), 8);
    assert_eq!(fewest_pick_ups(&row_by_row), 3);
}

#[test]
fn a_break_that_can_lie_elsewhere_lies_at_the_turn() {
    // Strand 1 goes to the right edge and back. Its last knot waits for strand 0, which waits for its first; of the
    // two places for the break, before or after the knot at the edge, the turn is where a person lets go anyway.
    let to_and_fro = piece(4, &[(1, F), (0, F), (2, F), (2, B), (1, B)]);
    let found = plan_pick_ups(&to_and_fro, None);
    let series: Vec<_> = found.series.iter().map(|s| (s.strand, s.knots.clone(), s.begins)).collect();
    let waits = Begins::Waits { knot: 4, other: 1 };
    assert_eq!(series, [(1, 0..2, Begins::First), (0, 2..3, Begins::First), (1, 3..5, waits)]);
    assert_eq!(found.knots, [0, 2, 1, 3, 4]);
}

#[test]
fn a_limit_of_rows_cuts_a_diagonal() {
    let diagonal = forward(9, &[0, 1, 2, 3, 4, 5, 6, 7]);
    let found = plan_pick_ups(&diagonal, Some(3));
    let lengths: Vec<u32> = found.series.iter().map(|s| s.knots.end - s.knots.start).collect();
    assert_eq!(lengths, [3, 3, 2]);
    assert_eq!(found.series[1].begins, Begins::TooManyRows);
}
