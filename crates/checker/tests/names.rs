//! A name that is misspelled where it is declared, or declared nowhere, is one mistake, however often it is called.

mod support;

use knotwright_checker::{Finding, Mend, Settings, Source, check};
use knotwright_grammar::{TokenKind, apply_edits};
use knotwright_numbers::ToNumber;
use std::ops::Range;
use std::sync::Arc;
use support::{Shared, patterns};

fn findings(text: &str) -> Vec<Finding> {
    check(Arc::new(Source::new("band.knot", text)), &Shared, &Settings::default()).findings
}

#[track_caller]
fn only(text: &str) -> Finding {
    let mut found = findings(text);
    assert_eq!(found.len(), 1, "{text}\n{found:#?}");
    found.remove(0)
}

fn applied(text: &str, mend: &Mend) -> String {
    let edits = mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
    apply_edits(text, edits).expect("the edits fit")
}

/// Where the words of a text stand.
fn words(text: &str) -> Vec<Range<usize>> {
    let source = Source::new("band.knot", text);
    let words = source.parsed.tokens.iter().filter(|token| token.kind == TokenKind::Word);
    words.map(|token| token.span.start.to_usize()..token.span.end.to_usize()).collect()
}

/// Where each pattern declares a thread, a bead or a motif, or gives a name in a block, and how often that name stands
/// elsewhere.
fn declared() -> Vec<(String, Range<usize>, usize)> {
    let mut all = Vec::new();
    for (_, text) in patterns() {
        let words = words(&text);
        for pair in words.windows(2) {
            let [before, name] = pair else { continue };
            let is_declared = match &text[before.clone()] {
                "thread" | "bead" | "motif" => text[..before.start].ends_with('\n'),
                "for" | "as" => true,
                _ => false,
            };
            let is_other =
                |other: &&Range<usize>| **other != *name && text[(*other).clone()] == text[name.clone()];
            let calls = words.iter().filter(is_other).count();
            if is_declared && calls > 0 {
                all.push((text.clone(), name.clone(), calls));
            }
        }
    }
    all
}

#[test]
fn a_misspelled_declaration_is_one_finding_and_comes_back() {
    let (mut tried, mut several) = (0, 0);
    for (text, name, calls) in declared() {
        let slip = format!("{}s{}", &text[..name.end], &text[name.end..]);
        let found = only(&slip);
        let mends: Vec<String> = found.mends.iter().map(|mend| applied(&slip, mend)).collect();
        let is_head = text[..name.start].ends_with("thread ");
        let at = mends.iter().position(|mended| *mended == text);
        assert!(at.is_some(), "{slip}\n{found:#?}");
        // Once against once, nobody knows which of the two is misspelled.
        assert!(calls > 1 || !found.mends.iter().any(|mend| mend.certain), "{slip}\n{found:#?}");
        if is_head && calls > 1 {
            assert!(at == Some(0) && found.mends[0].certain, "{slip}\n{found:#?}");
            several += 1;
        }
        tried += 1;
    }
    assert!(tried > 130 && several > 70, "{tried} {several}");
}

#[test]
fn a_declaration_that_is_gone_is_one_finding() {
    let mut tried = 0;
    for (text, name, calls) in declared() {
        let start = text[..name.start].rfind('\n').map_or(0, |end| end + 1);
        if !text[start..].starts_with("thread") && !text[start..].starts_with("bead") {
            continue;
        }
        let end = name.end + text[name.end..].find('\n').expect("a line ends") + 1;
        let found = only(&format!("{}{}", &text[..start], &text[end..]));
        assert_eq!(found.rule.name, "unknown-name");
        let again = found.notes.iter().filter(|note| note.text.starts_with("here again")).count();
        assert_eq!(again, (calls - 1).min(3), "{found:#?}");
        assert!(found.mends.iter().all(|mend| !mend.certain), "{found:#?}");
        tried += 1;
    }
    assert!(tried > 90, "{tried}");
}

#[test]
fn where_a_name_is_called_again_is_shown_up_to_a_few_places() {
    let text = "pattern \"Lamps\"\nthread wings teal\nthread night navy\nstrands wing night wing night wing night\nset {\n  \
                take left 1 (wing): forward to edge\n  take right 1 (wing): backward to edge\n}\n";
    let found = findings(text).remove(0);
    let said: Vec<&str> = found.notes.iter().map(|note| note.text.as_str()).collect();
    assert_eq!(
        said,
        [
            "`wings` is declared here, and nothing uses it",
            "here again",
            "here again",
            "here again, and in one more place"
        ]
    );
    assert_eq!(found.message, "No thread is called `wing`.");
    assert_eq!(found.help.as_deref(), Some("Did you mean `wing` where `wings` is declared?"));
    let titles: Vec<&str> = found.mends.iter().map(|mend| mend.title.as_str()).collect();
    assert_eq!(
        titles,
        ["write `wing` instead of `wings`: all the rest holds then", "write `wings` in all five places"]
    );
    assert!(applied(text, &found.mends[1]).contains("strands wings night wings night wings night"));
}

/// The name of a thread that was given to a strand as its label: only `rope` is left over, and only `runner` is missing.
#[test]
fn a_label_that_is_not_like_the_one_that_is_called_is_one_finding() {
    let text = "pattern \"Ropes\"\nthread rope teal\nthread sail ivory\nstrands rope 3 sail\nset {\n  \
                take left 1 as runner: forward 3\n  take runner: backward 3\n}\n";
    assert_eq!(findings(text), []);
    let slip = text.replace("as runner", "as rope");
    let found = only(&slip);
    assert_eq!(found.message, "No strand is labeled `runner` here.");
    assert_eq!(applied(&slip, &found.mends[0]), text);
    assert!(!found.mends[0].certain);
}

/// Nothing that is like the name is left over: it is asked for, and each of two that are like one is misspelled itself.
#[test]
fn what_is_right_is_not_taken_for_the_slip() {
    let text = "pattern \"Reeds\"\nthread reed teal\nthread sand tan\nstrands 2 sand reed reeed\nset {\n  \
                take left 1 (sand): forward 3\n  take left 1 (redd): forward 1\n}\n";
    let found = findings(text);
    assert_eq!(found.len(), 2, "{found:#?}");
    for found in found {
        assert_eq!(found.help.as_deref(), Some("Did you mean `reed`?"));
        assert_eq!(found.mends[0].title, "write `reed`");
    }
}

/// What is left of the line still tells the name.
#[test]
fn a_declaration_that_lost_its_word_is_one_finding() {
    let mut tried = 0;
    for (text, name, _) in declared() {
        let Some(before) = text[..name.start].strip_suffix("thread ") else { continue };
        let found = only(&format!("{before}{}", &text[name.start..]));
        assert_eq!(found.rule.name, "unknown-statement");
        tried += 1;
    }
    assert!(tried > 90, "{tried}");
}
