//! What each fact says: the promise, what was found, and where that strand was last moved.

use crate::testing::{set, tied};

fn reported(strands: &str, body: &str) -> String {
    tied(&set(strands, body)).said()
}

#[test]
fn facts_of_the_tie() {
    let reported: Vec<String> = [
        ("a b c d", "take left 1: forward 2\ntake left 3 (b): forward 1"),
        ("a b c d", "take left 1 (e): forward 1"),
        ("a b c d", "take left 1: forward 1\ntake left 2: forward 2 over c"),
        ("a b c d", "take left 2: forward 7"),
        ("a b c d", "mirrored { take left 2: backward 7 }"),
        ("a b c d", "take left 1: forward over c"),
        ("a b c d", "take right 1: forward over c"),
        ("a b c d", "take left 1: forward until b"),
        ("a b c d", "take left 1: forward until e"),
        ("a b c d", "take left 3: forward to left 1"),
        ("a b c d", "take left 9: forward 1"),
        ("a b c d", "take right 0: forward 1"),
        ("a b c", "take center left: forward 1"),
        ("a b c d", "take center: forward 1"),
        ("a b c d", "take b 2 from right: forward 1"),
        ("a b c d", "take left 1 as lead: forward 3\non left 2 { take lead: forward 1 }"),
        ("a b c d", "on left 9 { take left 1: forward 1 }"),
        ("a b c d", "on 3 to 1 { take left 1: forward 1 }"),
        ("a b c d", "on left 1 { take left 1: forward 1 }"),
        ("a b c d", "on center 3 { take left 1: forward 1 }"),
        ("a b c d", "take left 1: forward 1\nmeet center"),
        ("a b c d", "rows {\nx .\n}"),
        ("a b c d", "rows {\n\\\n}"),
        ("a b c d", "leader left 2 {\n. . .\n}"),
        ("a b c d", "expect a b"),
        ("a b c d", "take left 1: forward 1\nexpect a b c d"),
        ("a b c d", "mirrored {\ntake left 1: forward 1\nexpect d c b a\n}"),
        ("a b c d", "take left 1: forward 1 down to 4"),
        ("a b c d", "take left 1: forward 4 down to 1 by 0"),
        ("a b c d", "take left 1: forward 2 - 5"),
        ("a b c d", "take a 1 from left: forward 1 then 2"),
        ("a b c d", "take left 1: forward 100000 * 100000"),
    ]
    .iter()
    .map(|(strands, body)| format!("{strands}\n{body}\n=> {}", reported(strands, body)))
    .collect();
    insta::assert_snapshot!(reported.join("\n"));
}
