//! Formatting against parsing alone, on a file of 10,000 lines. What counts is the ratio.

use divan::{Bencher, black_box};
use knotwright_formatter::{apply_text_edits, format};
use knotwright_grammar::parse;

fn main() {
    divan::main();
}

/// Ten thousand lines; every line badly set if `careless`.
fn file(careless: bool) -> String {
    let section = "\
  section \"fans\" {
    -- from both edges
    both { on left 5 { work fan(4, foam) } }
    take left 1 (foam): forward to center left
      then backward 2 over kelp
    rows {
      \\ \\ / /
       \\ > /
    }
  }
";
    let text = format!("strands 4 kelp 4 foam\nset {{\n{}}}\n", section.repeat(1_000));
    if careless { text.replace(' ', "  ") } else { text }
}

#[divan::bench(args = [false, true])]
fn parse_alone(bencher: Bencher, careless: bool) {
    let text = file(careless);
    bencher.bench_local(|| parse(black_box(&text)));
}

#[divan::bench(args = [false, true])]
fn format_alone(bencher: Bencher, careless: bool) {
    let text = file(careless);
    let parsed = parse(&text);
    bencher.bench_local(|| format(black_box(&text), black_box(&parsed)));
}

#[divan::bench(args = [false, true])]
fn parse_format_apply(bencher: Bencher, careless: bool) {
    let text = file(careless);
    bencher.bench_local(|| apply_text_edits(black_box(&text), &format(&text, &parse(&text))));
}
