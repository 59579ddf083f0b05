//! One mistake is one finding, however much follows from it.

mod support;

use knotwright_checker::{Finding, Mend, Settings, Severity, Source, check};
use knotwright_grammar::apply_edits;
use knotwright_numbers::ToNumber;
use std::sync::Arc;
use support::{Shared, patterns};

fn findings(text: &str) -> Vec<Finding> {
    check(Arc::new(Source::new("band.knot", text)), &Shared, &Settings::default()).findings
}

fn errors(text: &str) -> Vec<Finding> {
    findings(text).into_iter().filter(|finding| finding.severity == Severity::Error).collect()
}

fn applied(text: &str, finding: &Finding) -> String {
    finding.mends.first().map_or_else(|| text.to_owned(), |mend| applied_mend(text, mend))
}

fn applied_mend(text: &str, mend: &Mend) -> String {
    let edits = mend.edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
    apply_edits(text, edits).expect("the edits fit")
}

/// The bytes of `strands` and the lines that it runs on in.
fn strands(text: &str) -> Option<std::ops::Range<usize>> {
    let start = text.find("\nstrands ")? + 1;
    let mut end = start;
    loop {
        end += text[end..].find('\n')?;
        if !text[start..end].ends_with([',', '|']) {
            return Some(start..end);
        }
        end += 1;
    }
}

/// Each letter and number of each `strands` is left out once.
#[test]
fn a_letter_lost_in_strands_is_two_findings_at_most() {
    let (mut floods, mut tried, mut elsewhere) = (String::new(), 0, 0);
    for (name, text) in patterns() {
        let Some(strands) = strands(&text) else { continue };
        let is_at = |span: knotwright_grammar::Span| {
            strands.start <= span.start.to_usize() && span.start.to_usize() <= strands.end
        };
        for at in strands.clone().filter(|&at| text.as_bytes()[at].is_ascii_alphanumeric()) {
            let slip = format!("{}{}", &text[..at], &text[at + 1..]);
            let found = findings(&slip);
            tried += 1;
            if found.len() > 2 {
                floods += &format!("{name}: {} findings of {:?}\n", found.len(), &slip[strands.clone()]);
            }
            let is_named = found.first().is_none_or(|first| {
                is_at(first.place.span)
                    || first.notes.iter().any(|note| is_at(note.place.span))
                    || first.mends.iter().flat_map(|mend| &mend.edits).any(|edit| is_at(edit.place.span))
            });
            elsewhere += usize::from(!is_named);
        }
    }
    assert_eq!(floods, "");
    assert!(tried > 800, "{tried}");
    // Without `2` before a thread, the strands are fewer; some bands tie with fewer.
    assert!(elsewhere * 50 < tried, "{elsewhere} of {tried} point elsewhere first");
}

#[test]
fn mirror_misspelled_is_one_word() {
    for (name, text) in patterns() {
        let slip = text.replacen("| mirror", "| mirro", 1);
        if slip == text {
            continue;
        }
        let found = errors(&slip);
        assert_eq!(found.len(), 1, "{name}: {found:#?}");
        assert!(found[0].mends.first().is_some_and(|mend| mend.certain), "{name}: {found:#?}");
        assert_eq!(applied(&slip, &found[0]), text, "{name}");
        assert_eq!(found[0].help.as_deref(), Some("Did you mean `mirror`?"));
    }
}

/// Two errors at most: of a few numbers nobody can say what they were to be.
#[test]
fn a_number_of_strands_off_by_one_is_no_flood() {
    let mut tried = 0;
    for (name, text) in patterns() {
        let Some(strands) = strands(&text) else { continue };
        for at in strands.filter(|&at| text.as_bytes()[at].is_ascii_digit()) {
            for other in ["1", "3"] {
                let slip = format!("{}{other}{}", &text[..at], &text[at + 1..]);
                let found = errors(&slip);
                tried += 1;
                assert!(found.len() <= 2, "{name} with {other}: {found:#?}");
            }
        }
    }
    assert!(tried > 10, "{tried}");
}

/// Nine of one color and one of another: each promise below is broken with eight.
#[test]
fn eight_for_nine_is_one_slip_in_strands() {
    let text = "pattern \"Buoys\"\nthread red crimson\nthread sea teal\nstrands 9 red sea\nset {\n  \
        take right 1 (sea): backward 9\n  take left 2 (red): forward to edge\n  take left 1 (sea): forward to edge\n  \
        take right 1 (sea): backward 4\n  expect 5 red sea 4 red\n  take left 6 (sea): forward to edge\n  \
        expect 9 red sea\n}\n";
    assert_eq!(errors(text), []);
    let slip = text.replacen("9 red sea", "8 red sea", 1);
    let found = errors(&slip);
    assert_eq!(found.len(), 1, "{found:#?}");
    assert!(
        found[0].mends[0].title.starts_with("write `9` instead of `8` in `strands`"),
        "{:?}",
        found[0].mends[0]
    );
    assert_eq!(applied(&slip, &found[0]), text);
}

/// By name, the first chart of each pattern that has one: its first line and its rows.
fn charts() -> Vec<(String, Vec<String>, usize, usize)> {
    let charts = patterns().into_iter().filter_map(|(name, text)| {
        let lines: Vec<String> = text.lines().map(str::to_owned).collect();
        let head = lines.iter().position(|line| matches!(line.trim(), "rows {" | "rows offset {"))?;
        let end = head + lines[head..].iter().position(|line| line.contains('}'))?;
        Some((name, lines, head, end))
    });
    charts.collect()
}

#[test]
fn a_row_doubled_is_one_finding_with_the_row_to_leave_out() {
    let mut tried = 0;
    for (name, lines, head, end) in charts() {
        for row in head + 1..end {
            let mut slip = lines.clone();
            slip.insert(row, lines[row].clone());
            let slip = slip.join("\n") + "\n";
            let found = errors(&slip);
            tried += 1;
            assert!(found.len() <= 1, "{name}, row {row}: {found:#?}");
            let Some(found) = found.first() else { continue };
            assert_eq!(applied(&slip, found), lines.join("\n") + "\n", "{name}, row {row}");
        }
    }
    assert!(tried > 15, "{tried}");
}

#[test]
fn offset_forgotten_is_one_finding() {
    for (name, mut lines, head, _) in charts() {
        let other =
            if lines[head].contains("offset") { ("rows offset", "rows") } else { ("rows", "rows offset") };
        let right = lines.join("\n") + "\n";
        lines[head] = lines[head].replace(other.0, other.1);
        let slip = lines.join("\n") + "\n";
        let found = errors(&slip);
        assert!(found.len() <= 1, "{name}: {found:#?}");
        let mends = found.iter().flat_map(|found| &found.mends);
        let is_right = |mend: &Mend| applied_mend(&slip, mend) == right;
        assert!(found.is_empty() || mends.into_iter().any(is_right), "{name}: {found:#?}");
    }
}

/// Each `{` of each pattern is lost once, with the space before it.
#[test]
fn a_lost_brace_is_one_finding_and_its_mend() {
    let (mut tried, mut wrong) = (0, String::new());
    for (name, text) in patterns() {
        for (at, _) in text.match_indices(" {") {
            let slip = format!("{}{}", &text[..at], &text[at + 2..]);
            let found = errors(&slip);
            tried += 1;
            let is_mended = found.first().is_some_and(|first| errors(&applied(&slip, first)).is_empty());
            if found.len() != 1 || !is_mended {
                let line = text[..at].matches('\n').count() + 1;
                let said: Vec<&str> = found.iter().map(|finding| finding.message.as_str()).collect();
                wrong += &format!("{name}:{line}: {said:?}\n");
            }
        }
    }
    assert_eq!(wrong, "");
    assert!(tried > 100, "{tried}");
}
