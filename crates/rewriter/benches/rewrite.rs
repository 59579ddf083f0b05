//! How long planning and rewriting take, the proof included: `cargo bench -p knotwright-rewriter`.

use divan::Bencher;
use knotwright_band::{Piece, plan_pick_ups};
use knotwright_checker::{NoLibrary, PartKind, Report, Settings, Source, check};
use knotwright_rewriter::{NewBody, Original, rewrite};
use std::sync::Arc;

fn main() {
    divan::main();
}

const KNOTS: [usize; 2] = [1_000, 100_000];

/// A pattern of 24 strands with about `knots` knots in its set, run after run from some position to the right.
fn pattern(knots: usize) -> Report {
    let mut text =
        "pattern \"Tide race\"\nthread kelp #1f5d50\nthread sand goldenrod\nstrands 12 kelp 12 sand\nset {\n"
            .to_owned();
    let (mut tied, mut at) = (0, 1_usize);
    while tied < knots {
        // Some places without a pattern, the same every time.
        at = (at * 7 + 3) % 23;
        let count = 1 + (at * 5) % (23 - at);
        text += &format!("  take left {}: forward {count}\n", at + 1);
        tied += count;
    }
    check(Arc::new(Source::new("band.knot", text + "}\n")), &NoLibrary, &Settings::default())
}

fn written(report: &Report, body: impl Fn(Piece) -> NewBody) -> String {
    let Some(pattern) = &report.pattern else { return String::new() };
    let original = Original { source: &report.files[0], pattern, library: &NoLibrary };
    let bodies: Vec<_> = pattern.set.iter().map(|set| (PartKind::Set, body(set.piece.clone()))).collect();
    rewrite(original, &bodies).map(|rewritten| rewritten.text).unwrap_or_default()
}

#[divan::bench(args = KNOTS)]
fn as_rows(bencher: Bencher, knots: usize) {
    let report = pattern(knots);
    bencher.bench_local(|| written(&report, |piece| NewBody::Rows { piece }));
}

#[divan::bench(args = KNOTS)]
fn as_planned_steps(bencher: Bencher, knots: usize) {
    let report = pattern(knots);
    let planned = |piece: Piece| NewBody::Steps {
        piece: piece.in_order(&plan_pick_ups(&piece, None).knots),
        headings: Vec::new(),
    };
    bencher.bench_local(|| written(&report, planned));
}
