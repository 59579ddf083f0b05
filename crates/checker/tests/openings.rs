//! A line that opens a block, written twice or lost.

mod support;

use knotwright_checker::{Finding, Mend, Settings, Source, check};
use knotwright_grammar::apply_edits;
use knotwright_numbers::ToNumber;
use std::sync::Arc;
use support::{Shared, patterns};

fn findings(text: &str) -> Vec<Finding> {
    check(Arc::new(Source::new("band.knot", text)), &Shared, &Settings::default()).findings
}

fn applied(text: &str, mend: &Mend) -> String {
    let edits = mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
    apply_edits(text, edits).expect("the edits fit")
}

fn sample(name: &str) -> String {
    patterns().into_iter().find(|pattern| pattern.0 == name).expect("a sample").1
}

/// Each sample, its lines, and which of them ends in `{`.
fn opening_lines() -> Vec<(String, Vec<String>, usize)> {
    let mut all = Vec::new();
    for (name, text) in patterns() {
        let lines: Vec<String> = text.split_inclusive('\n').map(str::to_owned).collect();
        let opening = (0..lines.len()).filter(|&at| lines[at].trim_end().ends_with('{'));
        all.extend(opening.map(|at| (name.clone(), lines.clone(), at)));
    }
    all
}

#[test]
fn a_line_that_opens_a_block_twice_is_one_finding_and_leaves_first() {
    let (mut wrong, mut tried) = (String::new(), 0);
    for (name, lines, at) in opening_lines() {
        let text = lines.concat();
        let mut twice = lines.clone();
        twice.insert(at, lines[at].clone());
        let twice = twice.concat();
        let found = findings(&twice);
        tried += 1;
        let first = found.first().and_then(|first| first.mends.first());
        let comes_back = first.is_some_and(|mend| applied(&twice, mend) == text);
        let is_sure = |mend: &Mend| mend.certain && applied(&twice, mend) != text;
        if found.len() != 1 || !comes_back || found.iter().flat_map(|one| &one.mends).any(is_sure) {
            wrong += &format!("{name}: {} findings, {first:?} of {}", found.len(), lines[at]);
        }
    }
    assert_eq!(wrong, "");
    assert!(tried > 100, "{tried}");
}

/// A section in a section of the same name can be tied: `--mend` does not choose.
#[test]
fn where_both_ways_hold_no_mend_is_certain() {
    let twice =
        sample("lamp-moth.knot").replace("  section \"lamps\" {\n", &"  section \"lamps\" {\n".repeat(2));
    let found = findings(&twice);
    assert_eq!(
        found[0].message,
        "`section \"lamps\" {` stands here twice, and one of the two blocks is never closed."
    );
    let titles: Vec<&str> = found[0].mends.iter().map(|mend| mend.title.as_str()).collect();
    assert_eq!(titles, ["leave out the second `section \"lamps\" {`", "write `}` at the end of the block"]);
    assert!(!found[0].mends.iter().any(|mend| mend.certain));
}

/// Of a block whose line is lost, these words say all that stood there, or nearly all.
const TOLD: [&str; 12] = [
    "gauge", "begin", "finish", "split", "opening", "set", "closing", "both", "mirrored", "repeat", "rows",
    "face",
];

#[test]
fn a_lost_line_that_opens_a_block_is_one_finding_where_it_is_missing() {
    let (mut wrong, mut tried) = (String::new(), 0);
    for (name, mut lines, at) in opening_lines() {
        let text = lines.concat();
        let lost = lines.remove(at);
        let without = lines.concat();
        let found = findings(&without);
        tried += 1;
        let comes_back = |mend: &Mend| applied(&without, mend) == text;
        let mends = || found.iter().flat_map(|one| &one.mends);
        let word = lost.split_whitespace().next().unwrap_or_default();
        let is_told = !TOLD.contains(&word) || mends().any(comes_back);
        let remarks = lines[at..].iter().take_while(|line| line.trim().starts_with("--")).count();
        let is_there = found.first().is_some_and(|first| {
            without[..first.place.span.start.to_usize()].matches('\n').count() == at + remarks
        });
        if found.len() != 1 || !is_told || !is_there || mends().any(|mend| mend.certain && !comes_back(mend))
        {
            wrong += &format!("{name}:{}: {} findings for {lost}", at + 1, found.len());
        }
    }
    assert_eq!(wrong, "");
    assert!(tried > 100, "{tried}");
}

#[test]
fn a_lost_gauge_is_certain_and_a_lost_section_is_not() {
    let hearts = sample("orchard-hearts.knot");
    let found = findings(&hearts.replace("gauge {\n", ""));
    assert_eq!(found[0].message, "No line opens the block that begins here.");
    assert_eq!(found[0].mends[0].title, "write `gauge {` above this line: all the rest holds then");
    assert!(found[0].mends[0].certain);

    let moth = sample("lamp-moth.knot");
    let found = findings(&moth.replace("  section \"night\" {\n", ""));
    let titles: Vec<&str> = found[0].mends.iter().map(|mend| mend.title.as_str()).collect();
    assert_eq!(titles.first(), Some(&"write `section \"title\" {` above this line"));
    assert_eq!(titles.last(), Some(&"leave out the `}` behind it"));
    assert!(!found[0].mends.iter().any(|mend| mend.certain));
}

/// A motif that is worked elsewhere tells its name, and the names that its lines use its parameters.
#[test]
fn the_lost_line_of_a_motif_has_its_name_and_its_parameters() {
    let gate = sample("garden-gate.knot");
    let found = findings(&gate.replace("motif bar(frame, color) on 10 {\n", ""));
    assert_eq!(found[0].mends[0].title, "write `motif bar(frame, color) {` above this line");
}
