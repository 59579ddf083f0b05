//! How long a check takes, beside reading the text alone in the same run.
//!
//! `cargo bench -p knotwright-checker`

use divan::{Bencher, black_box};
use knotwright_checker::{NoLibrary, Settings, Source, check};
use std::sync::Arc;

fn main() {
    divan::main();
}

/// Files of as many lines.
const LINES: [usize; 2] = [1_000, 10_000];

/// Sections of promised steps until there are `lines` lines.
fn pattern(lines: usize) -> String {
    const HEAD: &str = "pattern \"Long shore\"\nthread kelp #1f5d50\nthread foam #f4f1e8\nthread sand goldenrod\n\
        strands 4 kelp 4 foam 4 sand\nset {\n";
    let mut text = HEAD.to_owned();
    for wave in 0..lines / 14 {
        text.push_str(&format!("  section \"wave {wave}\" {{\n"));
        for color in ["kelp", "foam", "sand"] {
            text.push_str(&format!("    take left 1 ({color}): forward to edge\n").repeat(4));
        }
        text.push_str("  }\n");
    }
    text.push_str("}\n");
    text
}

#[divan::bench(args = LINES)]
fn floor_reading(bencher: Bencher, lines: usize) {
    let text = pattern(lines);
    bencher.bench_local(|| Source::new("band.knot", black_box(text.as_str())));
}

#[divan::bench(args = LINES)]
fn whole(bencher: Bencher, lines: usize) {
    let source = Arc::new(Source::new("band.knot", pattern(lines)));
    let settings = Settings::default();
    assert!(check(Arc::clone(&source), &NoLibrary, &settings).findings.is_empty());
    bencher.bench_local(|| check(black_box(Arc::clone(&source)), &NoLibrary, &settings));
}
