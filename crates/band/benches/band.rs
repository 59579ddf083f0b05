//! How fast the band is computed: `cargo bench -p knotwright-band`.

use divan::{Bencher, black_box};
use knotwright_band::balance::{Lengths, balance_set};
use knotwright_band::compare::{Colored, find_edits};
use knotwright_band::locate::locate_hang;
use knotwright_band::thread::Gauge;
use knotwright_band::{
    Growth, Kind, KnotChart, Layout, Piece, Sets, Tying, normal_form, plan_pick_ups, total_uses,
};
use knotwright_numbers::ToNumber;

fn main() {
    divan::main();
}

const STRANDS: usize = 24;
const SIZES: [usize; 2] = [1_000, 100_000];
const KINDS: [Kind; 4] = [Kind::Forward, Kind::Backward, Kind::ForwardBackward, Kind::BackwardForward];

/// `knots` knots in brick rows, of kinds that change without a pattern (a linear congruence).
fn steps(knots: usize) -> Vec<(u8, Kind)> {
    let mut state = 1_u32;
    let bricks = (0..).flat_map(|row: usize| (row % 2..STRANDS - 1).step_by(2));
    let kind = |gap: usize| {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (gap.to_u8(), KINDS[(state >> 30).to_usize()])
    };
    bricks.map(kind).take(knots).collect()
}

fn piece(knots: usize) -> Piece {
    Piece::tie(STRANDS, steps(knots)).unwrap_or_else(|_| Piece::empty(STRANDS))
}

fn colors() -> Vec<u16> {
    (0..STRANDS.to_u16()).map(|strand| strand / 4).collect()
}

/// Nothing but bytes that change places, and one byte a knot: what simulating is measured against.
#[divan::bench(args = [1_000_000])]
fn only_swap_bytes(bencher: Bencher, knots: usize) {
    let gaps: Vec<u8> = steps(knots).iter().map(|step| step.0).collect();
    bencher.bench(|| {
        let mut order: Vec<u8> = (0..STRANDS.to_u8()).collect();
        let mut seen = Vec::with_capacity(gaps.len());
        for &gap in black_box(&gaps) {
            let at = usize::from(gap);
            order.swap(at, at + 1);
            seen.push(order[at]);
        }
        (order, seen)
    });
}

#[divan::bench(args = [1_000_000])]
fn simulate(bencher: Bencher, knots: usize) {
    let steps = steps(knots);
    bencher.bench(|| Piece::tie(STRANDS, black_box(&steps).iter().copied()));
}

/// Diagonals to and fro, tied run by run.
#[divan::bench(args = [1_000_000])]
fn simulate_runs(bencher: Bencher, knots: usize) {
    bencher.bench(|| {
        let mut tying = Tying::new(STRANDS);
        for _ in 0..knots / (2 * (STRANDS - 1)) {
            tying.tie_run(0, Kind::Forward, black_box(STRANDS - 1));
            tying.tie_run(STRANDS.to_u8() - 2, Kind::Backward, black_box(STRANDS - 1));
        }
        tying.finish()
    });
}

#[divan::bench(args = SIZES)]
fn rows(bencher: Bencher, knots: usize) {
    let piece = piece(knots);
    bencher.bench(|| Layout::of(black_box(&piece)));
}

#[divan::bench(args = SIZES)]
fn form(bencher: Bencher, knots: usize) {
    let piece = piece(knots);
    bencher.bench(|| normal_form(black_box(&piece)));
}

#[divan::bench(args = SIZES)]
fn fewest_pick_ups(bencher: Bencher, knots: usize) {
    let piece = piece(knots);
    bencher.bench(|| plan_pick_ups(black_box(&piece), None));
}

#[divan::bench(args = SIZES)]
fn chart(bencher: Bencher, knots: usize) {
    let piece = piece(knots);
    bencher.bench(|| KnotChart::of(black_box(&piece)).rows().count());
}

/// A hundred sets: rows, counts and thread of every strand.
#[divan::bench(args = SIZES)]
fn measure(bencher: Bencher, knots: usize) {
    let (set, nothing) = (piece(knots), Piece::empty(STRANDS));
    let gauge = Gauge { thickness: Some(0.9), ..Gauge::default() };
    bencher.bench(|| {
        let sets = Sets::alike(black_box(&set).clone());
        let height = Growth::new(&nothing, &sets).height(100);
        let uses = total_uses(&nothing, &sets, 100, &nothing);
        gauge
            .figures(0.0)
            .map(|figures| uses.into_iter().map(|strand| figures.used(strand, height)).sum::<f64>())
    });
}

/// Two bands that differ in three places.
#[divan::bench(args = SIZES)]
fn compare_alike(bencher: Bencher, knots: usize) {
    let one = piece(knots);
    let mut other = steps(knots);
    for at in [knots / 10, knots / 2, knots - knots / 10] {
        other[at].1 = KINDS[(other[at].1 as usize + 2) % 4];
    }
    let other = Piece::tie(STRANDS, other).unwrap_or_else(|_| Piece::empty(STRANDS));
    bencher.bench(|| find_edits(black_box(&one), black_box(&other)));
}

/// Two bands of other kinds altogether.
#[divan::bench(args = [1_000, 10_000])]
fn compare_unlike(bencher: Bencher, knots: usize) {
    let one = piece(knots);
    let other =
        Piece::tie(STRANDS, steps(2 * knots).split_off(knots)).unwrap_or_else(|_| Piece::empty(STRANDS));
    bencher.bench(|| find_edits(black_box(&one), black_box(&other)));
}

#[divan::bench(args = SIZES)]
fn find_place(bencher: Bencher, knots: usize) {
    let (piece, colors) = (piece(knots), colors());
    let hang: Vec<u16> = colors.iter().rev().copied().collect();
    bencher.bench(|| locate_hang(Colored { piece: black_box(&piece), colors: &colors }, &hang));
}

#[divan::bench(args = SIZES)]
fn balance_least(bencher: Bencher, knots: usize) {
    let (piece, colors) = (piece(knots), colors());
    let lengths = Lengths { used: &[1000.0; STRANDS], extra: 12.0 };
    bencher.bench(|| balance_set(black_box(&piece), &colors, lengths, false));
}

#[divan::bench(args = [1_000])]
fn balance_keeping_pick_ups(bencher: Bencher, knots: usize) {
    let (piece, colors) = (piece(knots), colors());
    let lengths = Lengths { used: &[1000.0; STRANDS], extra: 12.0 };
    bencher.bench(|| balance_set(black_box(&piece), &colors, lengths, true));
}
