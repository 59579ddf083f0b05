//! The laws on files that no person wrote: valid ones, valid ones with something spoiled, and noise.

mod author;
mod laws;

use knotwright_grammar::parse;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    #[test]
    fn the_author_writes_valid_files(text in author::files()) {
        prop_assert_eq!(parse(&text).problems, vec![]);
    }

    #[test]
    fn valid_files(text in author::files()) {
        laws::hold(&text);
    }

    #[test]
    fn spoiled_files(text in author::files(), spoils in prop::collection::vec(spoil(), 1..4)) {
        laws::hold(&spoils.into_iter().fold(text, spoiled));
    }

    #[test]
    fn noise(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        laws::hold(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn words_at_random(words in prop::collection::vec(prop::sample::select(SCRAPS), 0..60)) {
        laws::hold(&words.concat());
    }
}

/// What a slip of the hand leaves in a file.
const SCRAPS: &[&str] = &[
    "{",
    "}",
    "\"",
    ",",
    ":",
    "|",
    "\n",
    "\r\n",
    "\r",
    " ",
    "  ",
    "\t",
    "--",
    " -- tide",
    "then ",
    "take left 1: forward 2",
    "set",
    "set {\n",
    "both { ",
    "rows {\n",
    "leader left 1 {\n",
    "\\ / ",
    "xx",
    "#",
    "#fff",
    "strands ",
    "kelp",
    "2",
    "(",
    ")",
    "expect start",
    "meet center",
    "pattern \"p\"",
    "edition 2",
    "about \"{\"",
    "gauge {",
    "15cm",
    "\u{feff}",
    "\0",
    "é",
    "\u{a0}",
];

type Spoil = (prop::sample::Index, usize, &'static str);

fn spoil() -> impl Strategy<Value = Spoil> {
    (any::<prop::sample::Index>(), 0..9usize, prop::sample::select(SCRAPS))
}

/// `text` with some characters taken out and a scrap put there.
fn spoiled(text: String, (at, length, scrap): Spoil) -> String {
    let mut letters: Vec<char> = text.chars().collect();
    let start = at.index(letters.len() + 1);
    let end = letters.len().min(start + length);
    letters.splice(start..end, scrap.chars());
    letters.into_iter().collect()
}
