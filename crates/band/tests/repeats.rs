//! Repeats and counts, against tables from outside and against tying it all.

mod support;

use knotwright_band::Kind::{Backward as B, Forward as F};
use knotwright_band::{Layout, Piece, Sets, Use, count_uses, find_repeats, orders, total_uses};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;
use std::convert::Infallible;
use support::*;

fn numbers<T: std::str::FromStr<Err: std::fmt::Debug>>(text: &str) -> Vec<T> {
    text.split_whitespace().map(|number| number.parse().unwrap()).collect()
}

/// Source: sympy 1.14.0, `Permutation.order()` and powers; the table and the script that made it are in `tables/`.
#[test]
fn strands_come_back_and_hang_after_many_sets_as_sympy_says() {
    for line in include_str!("tables/permutations.csv").lines() {
        let field: Vec<&str> = line.split(';').collect();
        // sympy says where each start goes; an order says who hangs where.
        let order = orders::invert_order(&numbers(field[0]));
        let sets = Sets::alike(piece_for(&order));
        let all_differ: Vec<u16> = (0..order.len().to_u16()).collect();
        let found = find_repeats(&sets, &all_differ);
        let period: u64 = field[1].parse().unwrap();
        assert_eq!((found.strands, found.colors), (period, period), "{line}");
        let after = sets.order_after(field[2].parse().unwrap());
        assert_eq!(after, orders::invert_order(&numbers(field[3])), "{line}");
    }
}

/// All ways to write `n` as a sum of numbers up to `most`.
fn sums(n: usize, most: usize) -> Vec<Vec<usize>> {
    if n == 0 {
        return vec![Vec::new()];
    }
    (1..=most.min(n))
        .flat_map(|first| sums(n - first, first).into_iter().map(move |rest| [vec![first], rest].concat()))
        .collect()
}

/// Source: Landau's function, OEIS A000793.
#[test]
fn strands_are_back_after_landaus_function_at_most() {
    let landau =
        [1, 2, 3, 4, 6, 6, 12, 15, 20, 30, 30, 60, 60, 84, 105, 140, 210, 210, 420, 420, 420, 420, 840, 840];
    for (n, most) in (1..).zip(landau) {
        let longest = sums(n, n).into_iter().map(|rounds| {
            let mut order = Vec::new();
            for length in rounds {
                let start = order.len().to_u8();
                order.extend((0..length.to_u8()).map(|at| start + (at + 1) % length.to_u8()));
            }
            find_repeats(&Sets::alike(piece_for(&order)), &vec![0; n]).strands
        });
        assert_eq!(longest.max(), Some(most), "{n} strands");
    }
}

/// Sets by tying them one after another: by set, the colors as it begins, and what is seen of it.
fn tied_out(set: &Piece, colors: &[u16], times: usize) -> Vec<(Vec<u16>, Vec<u16>)> {
    let mut order: Vec<u8> = (0..colors.len().to_u8()).collect();
    let mut all = Vec::new();
    for _ in 0..times {
        let hang: Vec<u16> = order.iter().map(|&s| colors[usize::from(s)]).collect();
        let seen = set.knots().iter().map(|k| hang[usize::from(k.working)]).collect();
        all.push((hang, seen));
        order = orders::one_then(&order, set.order());
    }
    all
}

/// After how many it comes again, for good as far as one sees.
fn least_period<T: PartialEq>(all: &[T]) -> u64 {
    (1..all.len()).find(|&by| all[by..] == all[..all.len() - by]).unwrap_or(all.len()).to_u64()
}

fn any_set() -> impl Strategy<Value = (Piece, Vec<u16>)> {
    (2_usize..7).prop_flat_map(|n| {
        let colors = prop::collection::vec(0_u16..3, n);
        (any_steps(n, 0..12).prop_map(move |steps| piece(n, &steps)), colors)
    })
}

proptest! {
    #[test]
    fn colors_and_look_come_back_when_tying_shows_it((set, colors) in any_set()) {
        let found = find_repeats(&Sets::alike(set.clone()), &colors);
        let all = tied_out(&set, &colors, 60);
        let (hang, seen): (Vec<_>, Vec<_>) = all.into_iter().unzip();
        prop_assert_eq!(found.colors, least_period(&hang));
        prop_assert_eq!(found.look, least_period(&seen));
        prop_assert_eq!(found.run_in, 0);
    }

    #[test]
    fn sets_that_ask_for_colors_but_do_not_use_them_repeat_as_plain_ones((set, colors) in any_set()) {
        let by_color = Sets::by_color(&colors, |_| Ok::<_, Infallible>(set.clone())).unwrap();
        prop_assert_eq!(find_repeats(&by_color, &colors), find_repeats(&Sets::alike(set), &colors));
    }

    #[test]
    fn sets_by_color_are_what_tying_set_after_set_gives(
        colors in prop::collection::vec(0_u16..2, 5),
        pieces in prop::collection::vec(any_steps(5, 0..8), 4),
        times in 0_u64..30,
    ) {
        // The colors of the two strands on the left say which of four pieces is tied.
        let pick = |colors: &[u16]| {
            Ok::<_, Infallible>(piece(5, &pieces[usize::from(2 * colors[0] + colors[1])]))
        };
        let sets = Sets::by_color(&colors, pick).unwrap();
        let mut all = Piece::empty(5);
        for number in 0..times {
            let Ok(set) = pick(&all.threads_after(&colors));
            prop_assert_eq!(&set, sets.set(number));
            all = all.then(&set).unwrap();
        }
        prop_assert_eq!(sets.order_after(times), all.order());
        prop_assert_eq!(total_uses(&Piece::empty(5), &sets, times, &Piece::empty(5)), count_uses(&all));

        let found = find_repeats(&sets, &colors);
        let from = sets.order_after(found.run_in);
        prop_assert_eq!(sets.order_after(found.run_in + found.strands), from.clone());
        let hang = |order: Vec<u8>| order.iter().map(|&s| colors[usize::from(s)]).collect::<Vec<_>>();
        let back = (1..=found.colors).find(|c| hang(sets.order_after(found.run_in + c)) == hang(from.clone()));
        prop_assert_eq!(back, Some(found.colors));
    }

    #[test]
    fn counts_of_the_whole_are_what_tying_the_whole_gives(
        opening in any_steps(6, 0..10), set in any_steps(6, 0..14), closing in any_steps(6, 0..6), times in 0_u64..50,
    ) {
        let (opening, set, closing) = (piece(6, &opening), piece(6, &set), piece(6, &closing));
        let mut all = opening.clone();
        for _ in 0..times {
            all = all.then(&set).unwrap();
        }
        all = all.then(&closing).unwrap();
        prop_assert_eq!(total_uses(&opening, &Sets::alike(set), times, &closing), count_uses(&all));
    }

    #[test]
    fn idle_rows_are_the_rows_without_a_knot_of_the_strand(piece in any_piece(7, 0..50)) {
        let layout = Layout::of(&piece);
        let height = u64::from(layout.height);
        for (strand, counted) in count_uses(&piece).into_iter().enumerate() {
            let of_it = |k: &&knotwright_band::Knot| usize::from(k.working) == strand || usize::from(k.base) == strand;
            let untied = (0..layout.height).filter(|row| {
                !piece.knots().iter().zip(&layout.rows).any(|(k, r)| r == row && of_it(&k))
            });
            prop_assert_eq!(counted.idle_rows(height), untied.count().to_u64());
        }
    }
}

#[test]
fn sets_by_color_can_look_alike_while_the_colors_go_to_and_fro() {
    // Strand 1 is red and ties over its neighbor, to the right from the left and to the left from the right.
    let tie = |colors: &[u16]| Ok::<_, Infallible>(piece(2, &[(0, if colors[0] == 1 { F } else { B })]));
    let found = find_repeats(&Sets::by_color(&[1, 0], tie).unwrap(), &[1, 0]);
    assert_eq!((found.strands, found.colors, found.look), (2, 2, 1));
}

#[test]
fn a_leaders_row_is_one_row_for_the_leader() {
    let row = forward(5, &[0, 1, 2, 3]).with_straight(vec![0..4; 1]).unwrap();
    let counted = count_uses(&row);
    assert_eq!(counted[0], Use { working: 4, base: 0, tied_rows: 1, ..Use::default() });
    assert_eq!(counted[3], Use { working: 0, base: 1, tied_rows: 1, ..Use::default() });
    assert_eq!(counted[0].idle_rows(1), 0);
}
