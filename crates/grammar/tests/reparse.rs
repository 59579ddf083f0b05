//! After any edits, a text that is read again only where it changed comes out as if all of it were read again.

mod support;

use knotwright_grammar::{Splice, parse, reparse};
use proptest::prelude::*;
use std::ops::Range;
use support::{forms, samples};

/// What is typed, pasted or deleted at once: signs, words, halves of line breaks, and whole lines.
const TYPED: &[&str] = &[
    "",
    " ",
    "\n",
    "\r\n",
    "\r",
    "\t",
    "  ",
    "{",
    "}",
    "(",
    ")",
    ",",
    "|",
    "\"",
    "#",
    "-",
    "--",
    ":",
    ".",
    "\\",
    "x",
    "1",
    "15cm",
    "99999999999",
    "kelp",
    "then",
    "take",
    "thread",
    "pattern",
    "edition 2",
    "set {",
    "both {\n",
    "}\n",
    "\u{feff}",
    "\u{e9}",
    "\u{1f600}",
    "\u{a7}",
    "\0",
    "\n\n",
    "meet center\n",
    "join left 2 with sand in set 3\n",
    "meet center }",
    "  take left 1: forward 3,\n",
    "    then 2\n",
    "section \"a\" {\n",
    "section \"a {\n",
    "rows {\n . .\n}\n",
    "rows { { . }\n",
    "-- a comment\n",
    "thread ink #123456\n",
    "gauge {\n  thickness 1 mm,\n}\n",
    "expect start\n",
    "both { meet center }\n",
    "both { both {\n",
    "nonsense here\n",
    "{\n",
    " }\n",
];

/// An edit: where it begins and ends, in parts of the text or, if it is short, in bytes; and what is there then.
#[derive(Debug, Clone)]
struct Edit {
    at: prop::sample::Index,
    length: Length,
    typed: &'static str,
}

#[derive(Debug, Clone)]
enum Length {
    Bytes(usize),
    Part(prop::sample::Index),
    /// The place and the length of lines that are copied to another place.
    Pasted(prop::sample::Index, usize),
}

fn edit() -> impl Strategy<Value = Edit> {
    let length = prop_oneof![
        6 => Just(Length::Bytes(0)),
        8 => (1..12usize).prop_map(Length::Bytes),
        2 => (12..200usize).prop_map(Length::Bytes),
        1 => any::<prop::sample::Index>().prop_map(Length::Part),
        3 => (any::<prop::sample::Index>(), 1..5usize).prop_map(|(at, lines)| Length::Pasted(at, lines)),
    ];
    (any::<prop::sample::Index>(), length, prop::sample::select(TYPED)).prop_map(|(at, length, typed)| Edit {
        at,
        length,
        typed,
    })
}

fn boundary(text: &str, mut at: usize) -> usize {
    at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// The text after an edit, and where that was.
fn edited(text: &str, edit: &Edit) -> (String, Splice) {
    let start = boundary(text, edit.at.index(text.len() + 1));
    let (end, put) = match &edit.length {
        Length::Bytes(bytes) => (boundary(text, start + bytes), edit.typed.to_owned()),
        Length::Part(index) => {
            (boundary(text, start + index.index(text.len() - start + 1)), edit.typed.to_owned())
        }
        Length::Pasted(from, lines) => {
            let count = text.lines().count().max(1);
            let taken: String = text.split_inclusive('\n').skip(from.index(count)).take(*lines).collect();
            (start, taken)
        }
    };
    replaced(text, start..end, &put)
}

fn replaced(text: &str, place: Range<usize>, put: &str) -> (String, Splice) {
    let Range { start, end } = place;
    let splice = Splice { start, old_end: end, new_end: start + put.len() };
    (format!("{}{put}{}", &text[..start], &text[end..]), splice)
}

fn texts() -> Vec<String> {
    let files = ["corpus/accepted", "corpus/refused", "patterns"].into_iter().flat_map(samples);
    files
        .map(|(_, text)| text)
        .chain([forms::together(), String::new(), "set { both {\n}\n}".to_owned()])
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_edits_one_after_another(
        start in prop::sample::select(texts()),
        edits in prop::collection::vec(prop::collection::vec(edit(), 1..3), 1..8),
    ) {
        let mut before = start;
        let mut parsed = parse(&before);
        for together in edits {
            let (mut text, mut splice) = edited(&before, &together[0]);
            for edit in &together[1..] {
                let (next, second) = edited(&text, edit);
                (text, splice) = (next, splice.then(second));
            }
            parsed = reparse(parsed, splice, &text).parsed;
            let fresh = parse(&text);
            prop_assert_eq!(&parsed.tokens, &fresh.tokens, "tokens of {:?}, which was {:?}", text, before);
            prop_assert_eq!(&parsed.problems, &fresh.problems, "problems of {:?}, which was {:?}", text, before);
            prop_assert!(parsed == fresh, "the tree of {:?}, which was {:?}", text, before);
            before = text;
        }
    }
}

/// Whatever is typed, deleted or typed over at every place of a file.
#[test]
fn one_edit_at_every_place() {
    for (name, text) in samples("patterns").into_iter().step_by(5) {
        let parsed = parse(&text);
        for at in (0..=text.len()).filter(|at| text.is_char_boundary(*at)) {
            for typed in ["", "\n", "}", "{", ",", "x", "then ", "\r"] {
                let end = boundary(&text, at + 1);
                for end in [at, end] {
                    let (now, splice) = replaced(&text, at..end, typed);
                    assert!(
                        reparse(parsed.clone(), splice, &now).parsed == parse(&now),
                        "{name}, {at}, {typed:?}"
                    );
                }
            }
        }
    }
}
