//! What the soak found once: each file in `replay` is a case that must hold now.

#![allow(clippy::disallowed_methods, reason = "tests read files")]

mod cases;
#[allow(dead_code, reason = "the protocol's own tests use all of it")]
#[path = "../protocol/client.rs"]
mod client;
#[path = "../protocol/model.rs"]
mod model;
#[allow(dead_code, reason = "the soak uses all of it")]
mod program;
#[allow(dead_code, reason = "the protocol's own tests use all of it")]
#[path = "../protocol/stage.rs"]
mod stage;
mod texts;
mod typed;
mod wire;

use cases::{Case, Change};

#[test]
fn what_was_found_once_holds() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/soak/replay");
    let mut wrong = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        let case: Case = serde_json::from_str(&text).unwrap();
        wrong.extend(case.attempt().err().map(|why| format!("{}: {why}", path.display())));
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn a_case_that_fails_is_made_smaller() {
    let change = |from| Change { from, length: 0, text: "x".to_owned() };
    let changes: Vec<Change> = (0..4).map(change).collect();
    let case = Case::Typed { encoding: "utf-8".to_owned(), page: false, start: String::new(), changes };
    let lengths: Vec<usize> = case
        .smaller()
        .iter()
        .map(|case| match case {
            Case::Typed { changes, .. } => changes.len(),
            _ => 0,
        })
        .collect();
    assert_eq!(lengths, [2, 2, 3, 3, 3, 3]);
}
