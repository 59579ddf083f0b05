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

/// A chart with its leader or without: by name, the lines, and the numbers of its rows.
fn all_charts() -> Vec<(String, Vec<String>, std::ops::Range<usize>)> {
    let mut charts = Vec::new();
    for (name, text) in patterns() {
        let lines: Vec<String> = text.lines().map(str::to_owned).collect();
        for (head, line) in lines.iter().enumerate() {
            let word = line.trim();
            if (word.starts_with("rows") || word.starts_with("leader")) && word.ends_with('{') {
                let end =
                    head + lines[head..].iter().position(|line| line.contains('}')).expect("it is closed");
                charts.push((name.clone(), lines.clone(), head + 1..end));
            }
        }
    }
    charts
}

fn whole(lines: &[String]) -> String {
    lines.join("\n") + "\n"
}

fn told_apart(text: &str) -> Vec<char> {
    text.chars().filter(|sign| !sign.is_whitespace()).collect()
}

/// Each mark of each row is left out once, and written twice.
#[test]
fn a_mark_lost_or_written_twice_is_one_finding_with_the_row_as_it_was() {
    let (mut tried, mut offered, mut first) = (0, 0, 0);
    for (name, lines, rows) in all_charts() {
        let right = whole(&lines);
        for row in rows.step_by(3) {
            let marks: Vec<&str> = lines[row].split_whitespace().collect();
            if marks.iter().any(|mark| mark.len() > 1) {
                continue;
            }
            for (at, is_twice) in (0..marks.len()).step_by(2).flat_map(|at| [(at, false), (at, true)]) {
                let mut slip = marks.clone();
                match is_twice {
                    true => slip.insert(at, marks[at]),
                    false => _ = slip.remove(at),
                }
                let mut lines = lines.clone();
                lines[row] = slip.join(" ");
                let slip = whole(&lines);
                let found = findings(&slip);
                assert_eq!(found.len(), 1, "{name}, row {row}: {found:#?}");
                let mends: Vec<String> =
                    found[0].mends.iter().map(|mend| applied_mend(&slip, mend)).collect();
                let is_right = |mended: &String| told_apart(mended) == told_apart(&right);
                assert!(
                    mends.iter().all(|mended| mended.lines().count() + 1 >= lines.len()),
                    "{name}: {found:#?}"
                );
                tried += 1;
                offered += usize::from(mends.iter().any(is_right));
                first += usize::from(mends.first().is_some_and(is_right));
            }
        }
    }
    assert!(tried > 300, "{tried}");
    assert!(offered * 10 > tried * 9 && first * 10 > tried * 6, "{first} first and {offered} of {tried}");
}

/// The chart is as it was, and one strand fewer or three hang there.
#[test]
fn a_chart_for_other_strands_is_one_finding() {
    let text = "pattern \"Nets\"\nthread a teal\nthread b coral\nstrands 4 a 4 b\nset {\n  rows {\n    \\ \\ \\ \\\n     \
                \\ \\ \\\n    / / / /\n     / / /\n  }\n}\n";
    for strands in ["a 4 b", "3 a 4 b", "9 a 4 b"] {
        let found = errors(&text.replacen("4 a 4 b", strands, 1));
        assert_eq!(found.len(), 1, "{strands}: {found:#?}");
    }
}

#[test]
fn a_row_of_a_leader_left_out_is_one_finding() {
    let (mut tried, mut floods) = (0, String::new());
    for (name, lines, rows) in all_charts() {
        for row in rows.clone().filter(|&row| lines[rows.start - 1].contains("leader") && row % 2 == 0) {
            let mut slip = lines.clone();
            slip.remove(row);
            let found = findings(&whole(&slip));
            tried += 1;
            if found.len() != 1 {
                let said: Vec<&str> = found.iter().map(|finding| finding.message.as_str()).collect();
                floods += &format!("{name}, row {row}: {said:#?}\n");
            }
        }
    }
    assert_eq!(floods, "");
    assert!(tried > 15, "{tried}");
}

/// What is wrong with the band where a chart has an odd number of rows is not said besides.
#[test]
fn a_chart_that_lost_its_last_row_is_one_finding() {
    let (_, lines, rows) =
        all_charts().into_iter().find(|chart| chart.0 == "headland-path.knot").expect("a sample");
    let mut slip = lines.clone();
    slip.remove(rows.end - 1);
    let found = findings(&whole(&slip));
    assert_eq!(found.len(), 1, "{found:#?}");
    assert_eq!(found[0].rule.name, "odd-chart-repeats");
    let left = findings(&applied(&whole(&slip), &found[0]));
    assert!(left.iter().all(|left| left.rule.name == "look-alike-neighbors"), "{left:#?}");
}

/// A thread that hangs nowhere is the one that was left out.
#[test]
fn a_thread_lost_in_strands_is_one_finding_and_comes_back_first() {
    let (mut tried, mut wrong) = (0, String::new());
    for (name, text) in patterns() {
        let Some(line) = strands(&text) else { continue };
        let words: Vec<&str> = text[line.clone()].split(' ').collect();
        let is_once = |word: &&&str| words.iter().filter(|other| other == word).count() == 1;
        let named = |word: &&&str| text.contains(&format!("thread {} ", word.trim_end_matches(',')));
        for word in words.iter().filter(is_once).filter(named) {
            let slip = text.replacen(&text[line.clone()], &words_without(&words, word), 1);
            let found = findings(&slip);
            tried += 1;
            let others = found.iter().filter(|finding| finding.rule.name == "unused-thread").count();
            if others > 0 && found.len() > 1 {
                wrong += &format!("{name}: {word}\n");
            }
        }
    }
    assert!(tried > 20, "{tried}");
    assert!(wrong.lines().count() * 5 < tried, "{tried}: {wrong}");
}

/// A step that stands there once too often may leave the band closed and all promises kept.
#[test]
fn a_step_written_twice_within_both_is_found_and_leaves_first() {
    let (mut tried, mut silent, mut others) = (0, String::new(), String::new());
    for (name, text) in patterns() {
        let lines: Vec<String> = text.lines().map(str::to_owned).collect();
        let mut is_in_both = false;
        for (at, line) in lines.iter().enumerate() {
            is_in_both = line.trim() == "both {" || (is_in_both && line.trim() != "}");
            let is_step = line.trim() == "meet center" || (is_in_both && line.trim().starts_with("take "));
            if !is_step || lines.get(at + 1) == Some(line) || (at > 0 && lines[at - 1] == *line) {
                continue;
            }
            let mut slip = lines.clone();
            slip.insert(at, line.clone());
            let slip = whole(&slip);
            let found = findings(&slip);
            tried += 1;
            match found.first() {
                None => silent += &format!("{name}, line {}: {line}\n", at + 1),
                Some(first) if applied(&slip, first) != whole(&lines) => {
                    others += &format!("{name}, line {}: {line}\n", at + 1);
                }
                Some(_) => {}
            }
        }
    }
    assert!(tried > 80, "{tried}");
    assert!(silent.lines().count() * 20 < tried, "{tried}: {silent}");
    assert!(others.lines().count() * 20 < tried, "{tried}: {others}");
}

fn words_without(words: &[&str], left_out: &str) -> String {
    let kept: Vec<&str> = words.iter().copied().filter(|word| *word != left_out).collect();
    kept.join(" ")
}

/// Where it is said what is to be seen, no edit is offered after which something else is seen.
#[test]
fn no_mend_breaks_a_face() {
    let (name, lines, rows) =
        all_charts().into_iter().find(|chart| chart.0 == "tide-in-bricks.knot").expect("a sample");
    let mut mends = 0;
    for row in rows.step_by(5) {
        let mut slip = lines.clone();
        slip.remove(row);
        let slip = whole(&slip);
        for finding in findings(&slip) {
            for mend in &finding.mends {
                mends += 1;
                let left = errors(&applied_mend(&slip, mend));
                assert_eq!(left, [], "{name}, row {row}: {}", mend.title);
            }
        }
    }
    assert!(mends < 20, "{mends}");
}

/// A drift there and back, of one strand after another.
const BOAT_SHED: &str = r#"pattern "Boat shed"

thread tar #222222
thread foam #f4f1e8
thread rust #a8502f

strands tar foam rust | mirror

motif bar(shade, reach) {
  both { take left 1 (shade): forward reach }
  for place 2 down to 1 {
    both { take left place: forward 3 - place }
  }
  meet center
}

set {
  work bar(tar, 2)
  repeat 3 {
    meet center
  }
}
"#;

#[test]
fn names_that_a_line_forgot_to_give_are_one_finding_and_come_back() {
    assert!(errors(BOAT_SHED).is_empty(), "{:#?}", errors(BOAT_SHED));
    let slips =
        [("bar(shade, reach) {", "bar {"), ("for place 2", "for 2"), ("repeat 3 {", "for 3 down to 1 {")];
    for (written, slip) in slips {
        let slip = BOAT_SHED.replace(written, slip);
        let found = errors(&slip);
        let [only] = &found[..] else { panic!("{found:#?}") };
        assert_eq!(applied(&slip, only), BOAT_SHED, "{only:#?}");
    }
}

#[test]
fn a_sign_that_looks_like_a_mark_is_one_finding_wherever_it_stands() {
    for (name, text) in patterns() {
        let Some(start) = text.find("rows {") else { continue };
        let (head, rows) = text.split_at(start + "rows {".len());
        let rows_end = rows.find('}').expect("the chart ends");
        for (mark, sign) in [('x', 'X'), ('/', '\u{2571}')] {
            let chart = rows[..rows_end].replace(mark, &sign.to_string());
            let slip = format!("{head}{chart}{}", &rows[rows_end..]);
            if slip == text {
                continue;
            }
            let found = errors(&slip);
            let [only] = &found[..] else { panic!("{name}, {sign}: {found:#?}") };
            assert_eq!(applied(&slip, only), text, "{name}, {sign}");
        }
    }
}

#[test]
fn two_places_are_both() {
    let text =
        "pattern \"Buoy\"\nthread teal #008080\nstrands 4 teal\nset {\n  rows {\n    \\ X\n     X\n  }\n}\n";
    let found = errors(text);
    assert!(found[0].mends[0].title.starts_with("write `x` in both places"), "{found:#?}");
}
