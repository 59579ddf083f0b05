//! The layout against counts from outside, and against what it promises.

mod support;

use knotwright_band::{Growth, Kind, Layout, Piece, Rows, Sets, normal_form, orders};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use support::*;

/// How many bands the words of `knots` knots make, distinguished by their layout.
fn bands(strands: usize, knots: usize, kinds: &[Kind]) -> usize {
    let gaps = 0..strands.to_u8() - 1;
    let letters: Vec<(u8, Kind)> = gaps.flat_map(|gap| kinds.iter().map(move |&kind| (gap, kind))).collect();
    words(&letters, knots)
        .iter()
        .map(|word| normal_form(&piece(strands, word)))
        .collect::<BTreeSet<_>>()
        .len()
}

/// Coefficients of `1 / D_m(x)`, `D_m = sum_k (-1)^k C(m-k+1, k) x^k`.
///
/// Source: P. Cartier & D. Foata, Lecture Notes in Mathematics 85, 1969; X. Viennot, LNM 1234, 1986.
#[test]
fn bands_of_one_kind_are_as_many_as_cartier_and_foata_count() {
    let table: [(usize, &[usize]); 4] = [
        (2, &[1, 2, 4, 8, 16, 32]),
        (3, &[1, 3, 8, 21, 55, 144, 377]),
        (4, &[1, 4, 13, 40, 121, 364]),
        (5, &[1, 5, 19, 66, 221, 728]),
    ];
    for (gaps, counts) in table {
        for (knots, &count) in counts.iter().enumerate() {
            assert_eq!(bands(gaps + 1, knots, &[Kind::Forward]), count, "{gaps} gaps, {knots} knots");
        }
    }
}

/// Source: as above; each knot is one of q kinds, so the count is q^N times as great.
#[test]
fn bands_of_more_kinds_are_so_many_times_more() {
    for (kinds, knots, one_kind) in [(2, 4, 121), (3, 3, 40), (4, 3, 40), (4, 2, 13)] {
        let count = bands(5, knots, &KINDS[..kinds]);
        assert_eq!(count, one_kind * kinds.pow(knots.to_u32()), "{kinds} kinds, {knots} knots");
    }
}

/// By final order, the bands of swapping knots that reach it with the fewest knots, after `knots` knots.
fn fewest_knots(strands: usize, knots: usize) -> Vec<(Vec<u8>, BTreeSet<Vec<u8>>)> {
    let start: Vec<u8> = (0..strands.to_u8()).collect();
    let mut level = BTreeMap::from([(start, BTreeMap::from([(Vec::new(), Vec::new())]))]);
    for _ in 0..knots {
        let mut next: BTreeMap<Vec<u8>, BTreeMap<_, Vec<u8>>> = BTreeMap::new();
        for (order, scripts) in &level {
            for gap in (0..strands.to_u8() - 1).filter(|&g| order[usize::from(g)] < order[usize::from(g) + 1])
            {
                let mut order = order.clone();
                order.swap(usize::from(gap), usize::from(gap) + 1);
                for script in scripts.values() {
                    let script = [&script[..], &[gap]].concat();
                    next.entry(order.clone())
                        .or_default()
                        .insert(normal_form(&forward(strands, &script)), script);
                }
            }
        }
        level = next;
    }
    level.into_iter().map(|(order, scripts)| (order, scripts.into_values().collect())).collect()
}

/// Source: OEIS A006245 (also the number of rhombic tilings of a 2n-gon).
#[test]
fn layouts_of_the_full_reversal() {
    for (n, count) in [(1, 1), (2, 1), (3, 2), (4, 8), (5, 62), (6, 908)] {
        let all = fewest_knots(n, n * (n - 1) / 2);
        assert_eq!(all.len(), 1, "only the reversal takes that many knots");
        assert_eq!(all[0].1.len(), count, "{n} strands");
    }
}

/// How many scripts reach each order with the fewest swapping knots.
fn scripts(strands: usize) -> Vec<BTreeMap<Vec<u8>, u64>> {
    let mut levels = vec![BTreeMap::from([((0..strands.to_u8()).collect::<Vec<u8>>(), 1)])];
    loop {
        let mut next = BTreeMap::new();
        for (order, count) in levels.last().unwrap() {
            for gap in (0..strands - 1).filter(|&g| order[g] < order[g + 1]) {
                let tied = piece_for(order).then(&forward(strands, &[gap.to_u8()])).unwrap();
                *next.entry(tied.order().to_vec()).or_insert(0) += count;
            }
        }
        if next.is_empty() {
            return levels;
        }
        levels.push(next);
    }
}

/// Source: R. P. Stanley, On the number of reduced decompositions of elements of Coxeter groups, European Journal of
/// Combinatorics 5, 1984.
#[test]
fn scripts_of_the_full_reversal() {
    for (n, count) in [(1, 1), (2, 1), (3, 2), (4, 16), (5, 768), (6, 292_864)] {
        let levels = scripts(n);
        assert_eq!(levels.last().unwrap().values().copied().collect::<Vec<u64>>(), [count], "{n} strands");
    }
}

/// Source: the Mahonian numbers, OEIS A008302.
#[test]
fn fewest_swapping_knots_are_inversions() {
    let table: [&[usize]; 4] =
        [&[1, 1], &[1, 2, 2, 1], &[1, 3, 5, 6, 5, 3, 1], &[1, 4, 9, 15, 20, 22, 20, 15, 9, 4, 1]];
    for (at, counts) in table.iter().enumerate() {
        assert_eq!(scripts(at + 2).iter().map(BTreeMap::len).collect::<Vec<_>>(), *counts);
    }
}

proptest! {
    #[test]
    fn the_same_band_tied_otherwise_has_the_same_form(
        steps in any_steps(7, 0..40),
        choices in prop::collection::vec(any::<prop::sample::Index>(), 0..200),
    ) {
        let (one, other) = (piece(7, &steps), piece(7, &shuffled(&steps, &choices)));
        prop_assert_eq!(normal_form(&one), normal_form(&other));
        prop_assert_eq!(one.order(), other.order());
    }

    #[test]
    fn a_row_holds_no_strand_twice_and_a_strand_goes_down(piece in any_piece(8, 0..60)) {
        let layout = Layout::of(&piece);
        let mut last = vec![None; piece.strands()];
        for (knot, &row) in piece.knots().iter().zip(&layout.rows) {
            prop_assert_eq!((row + u32::from(knot.gap)) % 2, 0);
            for strand in [knot.working, knot.base] {
                prop_assert!(last[usize::from(strand)] < Some(row));
                last[usize::from(strand)] = Some(row);
            }
        }
    }

    #[test]
    fn tying_the_normal_form_gives_the_normal_form(piece in any_piece(8, 0..60)) {
        let form = normal_form(&piece);
        let again = Piece::tie(piece.strands(), form.iter().map(|cell| (cell.gap, cell.kind))).unwrap();
        prop_assert_eq!(normal_form(&again), form);
        prop_assert_eq!(again.order(), piece.order());
    }

    #[test]
    fn rows_of_many_sets_are_as_laying_them_gives(
        opening in any_steps(6, 0..20),
        set in any_steps(6, 0..14),
        closing in any_steps(6, 0..6),
    ) {
        let (opening, set, closing) = (piece(6, &opening), piece(6, &set), piece(6, &closing));
        let growth = Growth::new(&opening, &Sets::alike(set.clone()));
        let mut rows = Rows::new(6);
        rows.lay(&opening);
        for sets in 0..60 {
            prop_assert_eq!(growth.height(sets), rows.height(), "{} sets", sets);
            let mut closed = rows.clone();
            closed.lay(&closing);
            prop_assert_eq!(growth.height_with(sets, &closing), closed.height());
            rows.lay(&set);
        }
    }

    #[test]
    fn rows_of_sets_that_pick_by_color(
        colors in prop::collection::vec(0_u16..2, 5),
        pieces in prop::collection::vec(any_steps(5, 1..8), 4),
    ) {
        // The colors of the two strands on the left say which of four pieces is tied.
        let pick = |colors: &[u16]| {
            Ok::<_, std::convert::Infallible>(piece(5, &pieces[usize::from(2 * colors[0] + colors[1])]))
        };
        let sets = Sets::by_color(&colors, pick).unwrap();
        let growth = Growth::new(&Piece::empty(5), &sets);
        let mut rows = Rows::new(5);
        for number in 0..60 {
            prop_assert_eq!(growth.height(number), rows.height(), "{} sets", number);
            rows.lay(sets.set(number));
        }
    }

    #[test]
    fn rows_of_many_sets_with_straight_ones(
        set in any_steps(5, 0..10),
        straight in prop::collection::vec((0_u8..3, 1_u8..3), 0..3),
    ) {
        let mut steps = set;
        let mut ranges = Vec::new();
        for (first, more) in straight {
            let start = steps.len().to_u32();
            steps.extend((first..=(first + more).min(3)).map(|gap| (gap, Kind::Forward)));
            ranges.push(start..steps.len().to_u32());
        }
        let set = piece(5, &steps).with_straight(ranges).unwrap();
        let growth = Growth::new(&Piece::empty(5), &Sets::alike(set.clone()));
        let mut rows = Rows::new(5);
        for sets in 0..40 {
            prop_assert_eq!(growth.height(sets), rows.height(), "{} sets", sets);
            rows.lay(&set);
        }
    }

    #[test]
    fn a_piece_that_leads_to_an_order_can_be_made(order in Just((0..9).collect::<Vec<u8>>()).prop_shuffle()) {
        let tied = piece_for(&order);
        prop_assert_eq!(tied.order(), &order[..]);
        prop_assert!(orders::is_order(tied.order()));
    }
}

#[test]
fn a_billion_sets_take_no_time() {
    let diagonal = forward(8, &[0, 1, 2, 3, 4, 5, 6]);
    let growth = Growth::new(&Piece::empty(8), &Sets::alike(diagonal));
    assert_eq!(growth.height(1_000_000_000), 7 + 2 * 999_999_999);
}
