//! How long parsing takes, beside two floors in the same run: a loop over the bytes, and the lexer alone.
//!
//! `cargo bench -p knotwright-grammar`

use divan::counter::BytesCount;
use divan::{Bencher, black_box};
use knotwright_grammar::{Splice, lex, parse, reparse};

fn main() {
    divan::main();
}

/// Files of as many lines.
const LINES: [usize; 2] = [50, 10_000];

/// A file of about `lines` lines, of the statements that patterns mostly consist of.
fn pattern(lines: usize) -> String {
    const HEAD: &str = "pattern \"Harbor lights\" edition 1\nabout \"Lamps on the quay, seen from the water.\"\n\n\
        thread quay #26323d \"slate\"\nthread lamp #f2c14e\nthread tide #2f6f8f\n\n\
        strands 2 quay lamp 2 tide | mirror\nlength 15 cm\n\nset {\n";
    const PART: &str = "  section \"quay\" {\n    -- the lamps are lit from the middle outward\n    \
        both { on left 5 { take left 1: forward 4 } }\n    on center 6 {\n      \
        take left 1 (lamp): forward 2 over quay, backward to edge\n        then 2\n      \
        take lamp 2 from left as first: forward until tide\n      meet center\n    }\n    \
        expect 2 quay lamp 2 tide | mirror\n  }\n";
    let mut text = HEAD.to_owned();
    let mut count = HEAD.lines().count();
    while count + PART.lines().count() < lines {
        text.push_str(PART);
        count += PART.lines().count();
    }
    text.push_str("}\n");
    text
}

#[divan::bench(args = LINES)]
fn whole(bencher: Bencher, lines: usize) {
    let text = pattern(lines);
    assert!(parse(&text).problems.is_empty());
    bencher.counter(BytesCount::of_str(&text)).bench_local(|| parse(black_box(&text)));
}

#[divan::bench(args = LINES)]
fn floor_lexer(bencher: Bencher, lines: usize) {
    let text = pattern(lines);
    bencher.counter(BytesCount::of_str(&text)).bench_local(|| lex(black_box(&text)));
}

#[divan::bench(args = LINES)]
fn floor_bytes(bencher: Bencher, lines: usize) {
    let text = pattern(lines);
    let breaks = |text: &str| text.bytes().filter(|byte| matches!(byte, b'\n' | b' ')).count();
    bencher.counter(BytesCount::of_str(&text)).bench_local(|| breaks(black_box(&text)));
}

/// A file in which every line is broken: the second try, which reports, for each.
#[divan::bench(args = LINES)]
fn all_broken(bencher: Bencher, lines: usize) {
    let text = pattern(lines).replace("forward", "forwards").replace(" 2", " two 2");
    bencher.counter(BytesCount::of_str(&text)).bench_local(|| parse(black_box(&text)));
}

/// A number in the middle of a file is written otherwise, and the file read again where that was.
#[divan::bench(args = LINES)]
fn after_an_edit(bencher: Bencher, lines: usize) {
    let text = pattern(lines);
    let at = text[text.len() / 2..].find("forward 2").map_or(0, |found| text.len() / 2 + found);
    let edited = format!("{}forward 12{}", &text[..at], &text[at + "forward 2".len()..]);
    let old = parse(&text);
    let digit = at + "forward ".len();
    let splice = Splice { start: digit, old_end: digit + 1, new_end: digit + 2 };
    bencher
        .counter(BytesCount::of_str(&text))
        .with_inputs(|| old.clone())
        .bench_local_values(|old| reparse(old, splice, black_box(&edited)));
}
