//! How soon there is an answer, and how soon it is proved. The floor is the first answer of the same run: no proof can be
//! there before.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a benchmark looks at the clock, and prints"
)]

use knotwright_band::{Kind, KnotChart};
use knotwright_designer::{
    DesignEnd, DesignStart, DesignTask, DesignWatch, Designed, WishedFace, design_band,
};
use std::cell::Cell;
use std::time::{Duration, Instant};

/// Ends a search that takes too long for a benchmark.
const PATIENCE: Duration = Duration::from_secs(60);

/// Numbers that look random and are the same each time (a linear congruential generator with the constants of D. Knuth's
/// MMIX).
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, end: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % end
    }
}

/// The face of a band with knots of random kinds, a fifth of them turning knots.
fn planted(strands: usize, rows: usize, colors: u64) -> WishedFace {
    let mut numbers = Numbers(7);
    let kind = |numbers: &mut Numbers| match numbers.below(10) {
        0 => Kind::ForwardBackward,
        1 => Kind::BackwardForward,
        number if number % 2 == 0 => Kind::Forward,
        _ => Kind::Backward,
    };
    let rows: Vec<Vec<Option<Kind>>> = (0..rows)
        .map(|row| (row % 2..strands - 1).step_by(2).map(|_| Some(kind(&mut numbers))).collect())
        .collect();
    let piece = KnotChart::from_rows(strands, false, &rows)
        .and_then(|chart| chart.piece().map_err(knotwright_band::ChartError::Piece));
    let piece = piece.expect("a chart of random kinds");
    let start: Vec<u16> =
        (0..strands).map(|_| u16::try_from(numbers.below(colors)).expect("few colors")).collect();
    WishedFace::of_piece(&piece, |strand| start[usize::from(strand)]).expect("a face")
}

/// Discs of one color on another, one below the other.
fn discs(strands: usize, rows: usize) -> WishedFace {
    let radius = strands / 3;
    let is_in = |row: usize, gap: usize| {
        let (down, across) = ((row % strands).abs_diff(strands / 2), gap.abs_diff(strands / 2 - 1));
        down * down + across * across < radius * radius
    };
    let rows: Vec<Vec<_>> = (0..rows)
        .map(|row| {
            (row % 2..strands - 1).step_by(2).map(|gap| Some(Some(u16::from(is_in(row, gap))))).collect()
        })
        .collect();
    WishedFace::from_rows(strands, false, &rows).expect("a face")
}

fn measure(name: &str, task: &DesignTask) {
    let begun = Instant::now();
    let first = Cell::new(None);
    let mut better = |_: &Designed| first.set(first.get().or_else(|| Some(begun.elapsed())));
    let stop = || begun.elapsed() > PATIENCE;
    let end = design_band(task, &mut DesignWatch { stop: &stop, better: &mut better });
    let whole = begun.elapsed();
    let (Ok(DesignEnd::Tied(designed)), Some(first)) = (end, first.get()) else {
        println!("| {name} | none | {:.2} s |", whole.as_secs_f64());
        return;
    };
    println!(
        "| {name} | {:.2} s | {:.2} s, {} turning, {} |",
        first.as_secs_f64(),
        whole.as_secs_f64(),
        designed.turning,
        if designed.is_least { "proved" } else { "not proved" }
    );
}

fn main() {
    println!("| face | first answer | end of the search |\n| --- | --- | --- |");
    let free = |face, closes| DesignTask { face, start: DesignStart::Free, closes };
    for (strands, rows, colors) in [(12, 40, 4), (16, 60, 4), (20, 80, 5), (32, 120, 6)] {
        let name = format!("planted, {strands} x {rows}, {colors} colors");
        measure(&name, &free(planted(strands, rows, colors), false));
    }
    for (strands, rows) in [(12, 40), (16, 40)] {
        let name = format!("discs, {strands} x {rows}, 2 colors, closing");
        measure(&format!("{name}, start free"), &free(discs(strands, rows), true));
        let start = DesignStart::Given(
            (0..u16::try_from(strands).expect("few strands")).map(|place| place % 2).collect(),
        );
        measure(
            &format!("{name}, start given"),
            &DesignTask { face: discs(strands, rows), start, closes: true },
        );
    }
}
