//! All forms over the same outcomes.

use super::{FormatName, ReportFormat};
use crate::outcome::{Outcome, Tally};
use clap::ValueEnum;
use knotwright_checker::{
    Edit, FileId, Finding, Mend, NoLibrary, Note, Place, Report, Rule, Settings, Severity, Source, check,
};
use knotwright_grammar::Span;
use knotwright_workspace::ReadError;
use serde_json::Value;
use std::sync::Arc;

static PROMISE: Rule = rule("color-promise-broken", Severity::Error);
static CLOSES: Rule = rule("set-does-not-close", Severity::Warning);
static IMPORT: Rule = rule("import-lacks-motif", Severity::Error);

const fn rule(name: &'static str, severity: Severity) -> Rule {
    Rule {
        name,
        severity,
        tags: &[],
        summary: "What it says.",
        why: "Why it matters.",
        example: "",
        instead: "",
    }
}

/// A terminal would clear itself at the title, and turn the direction of what follows.
const BAND: &str = "pattern \"High \u{1b}[2J tide\u{202e} é\"\r\nthread kelp #1f5d50\r\n\r\nset {\r\n  \
                    take left 1 (foam): forward 4\r\n  take left 2: forward 3\r\n}\r\n";

fn place(file: u32, text: &str, of: &str) -> Place {
    let at = text.find(of).unwrap();
    Place { file: FileId(file), span: Span::new(at, at + of.len()) }
}

fn finding(rule: &'static Rule, place: Place, message: &str) -> Finding {
    let (notes, mends) = (Vec::new(), Vec::new());
    let (message, help, unfinished) = (message.to_owned(), None, false);
    Finding { rule, severity: rule.severity, place, message, notes, help, mends, unfinished }
}

fn outcomes() -> Vec<Outcome> {
    vec![
        Outcome {
            path: "bands/all well.knot".to_owned(),
            checked: Ok(vec![report("bands/all well.knot", Vec::new())]),
        },
        Outcome {
            path: "bands/high, tide.knot".to_owned(),
            checked: Ok(vec![report("bands/high, tide.knot", found())]),
        },
        Outcome {
            path: "bytes.knot".to_owned(),
            checked: Err(ReadError::NotUtf8 { byte: 0xff, line: 3, column: 7 }),
        },
    ]
}

fn report(path: &str, findings: Vec<Finding>) -> Report {
    let library = Source::new("lib/fans.knot", "motif fan(size) {\n}\n");
    let files = vec![Arc::new(Source::new(path, BAND)), Arc::new(library)];
    of(files, findings)
}

/// A report of our own making: that of an empty file, with other findings.
fn of(files: Vec<Arc<Source>>, findings: Vec<Finding>) -> Report {
    let empty = Arc::new(Source::new("empty", String::new()));
    let mut report = check(empty, &NoLibrary, &Settings::default());
    (report.files, report.findings, report.pattern) = (files, findings, None);
    report
}

fn found() -> Vec<Finding> {
    let promised = Place { span: place(0, BAND, "foam").span, ..Place::default() };
    let count = Place { span: place(0, BAND, "forward 3").span, ..Place::default() };
    vec![
        Finding {
            notes: vec![Note { place: place(0, BAND, "kelp"), text: "it was named here".to_owned() }],
            help: Some("Take another strand, or promise kelp.".to_owned()),
            mends: vec![Mend::new(
                "write kelp: all the rest holds then",
                vec![Edit { place: promised, text: "kelp".to_owned() }],
                true,
            )],
            ..finding(&PROMISE, promised, "The strand in hand is kelp, and foam was promised: 100 % sure.")
        },
        finding(
            &CLOSES,
            place(0, BAND, "set {\r\n  take left 1"),
            "Position 1 has foam <now> & kelp \"then\".\u{1b}[1m",
        ),
        Finding {
            notes: vec![Note {
                place: place(1, "motif fan(size) {\n}\n", "fan"),
                text: "there is fan\u{7}".to_owned(),
            }],
            ..finding(&IMPORT, count, "The file has no motif of that name.")
        },
    ]
}

fn whole(format: &dyn ReportFormat) -> String {
    let outcomes = outcomes();
    let mut tally = Tally::default();
    outcomes.iter().for_each(|outcome| tally += outcome.tally());
    let pieces: Vec<String> =
        outcomes.iter().map(|outcome| format.file(outcome)).filter(|piece| !piece.is_empty()).collect();
    format.head() + &pieces.join(format.separator()) + &format.foot(&tally)
}

fn whole_json(format: FormatName) -> Value {
    serde_json::from_str(&whole(&*format.format(false, false))).unwrap()
}

/// The rules of the house are described in SARIF, and more are added every now and then.
fn without_rules(text: String) -> String {
    match text.split_once("\"rules\":[").and_then(|(head, rest)| Some((head, rest.split_once("]}},\n")?.1))) {
        Some((head, rest)) => format!("{head}\"rules\":[...]}}}},\n{rest}"),
        None => text,
    }
}

#[test]
fn every_form_reads_well() {
    for name in FormatName::value_variants() {
        let text =
            without_rules(whole(&*name.format(false, false)).replace(env!("CARGO_PKG_VERSION"), "VERSION"));
        insta::assert_snapshot!(format!("{name:?}").to_lowercase(), text);
    }
}

#[test]
fn no_form_lets_a_terminal_be_misled() {
    for name in FormatName::value_variants() {
        let text = whole(&*name.format(false, true));
        let nasty = |sign: &char| (sign.is_control() && !"\n\t".contains(*sign)) || *sign == '\u{202e}';
        assert_eq!(text.chars().find(nasty), None, "{name:?}");
    }
}

#[test]
fn only_the_human_form_has_color_and_only_if_asked() {
    for name in FormatName::value_variants() {
        assert_eq!(
            whole(&*name.format(true, false)).contains("\u{1b}["),
            *name == FormatName::Human,
            "{name:?}"
        );
    }
}

/// The members that SARIF 2.1.0 requires (sections 3.13.2, 3.14.6, 3.19.8, 3.27.11, 3.55.2, 3.57.3).
#[test]
fn sarif_has_what_the_standard_asks_for() {
    let log = whole_json(FormatName::Sarif);
    assert_eq!(log["version"], "2.1.0");
    let run = &log["runs"][0];
    assert_eq!(run["tool"]["driver"]["name"], "knotwright");
    let rules = run["tool"]["driver"]["rules"].as_array().unwrap();
    assert_eq!(rules.len(), knotwright_checker::rules::all().len() + 1, "and `unreadable-file`");
    assert_eq!(run["invocations"][0]["executionSuccessful"], true);
    let results = run["results"].as_array().unwrap();
    assert_eq!(results.len(), 4);
    assert!(results.iter().all(|result| result["ruleId"].is_string()), "3.27.5: {results:#?}");
    for result in results {
        assert!(result["message"]["text"].is_string());
        let place = &result["locations"][0]["physicalLocation"];
        assert!(
            place["artifactLocation"]["uri"].as_str().unwrap().bytes().all(|byte| byte.is_ascii_graphic())
        );
        assert!(place["region"]["startLine"].as_u64().unwrap() >= 1);
    }
    let fix = &results[0]["fixes"][0]["artifactChanges"][0];
    assert_eq!(fix["replacements"][0]["insertedContent"]["text"], "kelp");
    assert_eq!(fix["replacements"][0]["deletedRegion"]["startLine"], 5);
}

#[test]
fn marks_are_of_the_finding_not_of_its_line() {
    let marks = |text: &Value| -> Vec<String> {
        text.as_array()
            .unwrap()
            .iter()
            .map(|issue| issue["fingerprint"].as_str().unwrap().to_owned())
            .collect()
    };
    let issues = whole_json(FormatName::Gitlab);
    let mut all = marks(&issues);
    assert_eq!(all.len(), 4);
    all.sort_unstable();
    all.dedup();
    assert_eq!(all.len(), 4, "no two are the same");
    assert_eq!(issues[0]["location"]["lines"]["begin"], 5);
}

#[test]
fn a_warning_fails_a_test_only_if_denied() {
    let failures = |deny| whole(&*FormatName::Junit.format(false, deny)).matches("<failure ").count();
    assert_eq!((failures(false), failures(true)), (2, 3));
    let text = whole(&*FormatName::Junit.format(false, true));
    assert!(text.contains("tests=\"3\" failures=\"3\" errors=\"0\""), "{text}");
    assert!(text.contains("foam &lt;now&gt; &amp; kelp &quot;then&quot;.&lt;U+001B&gt;[1m"), "{text}");
}

#[test]
fn columns_count_characters_and_no_byte_order_mark() {
    let text = "\u{feff}é\u{1f980}x";
    let files = vec![Arc::new(Source::new("a.knot", text))];
    let found = vec![finding(&PROMISE, place(0, text, "x"), "here")];
    let report = of(files, found);
    let outcome = Outcome { path: "a.knot".to_owned(), checked: Ok(vec![report]) };
    let short = FormatName::Short.format(false, false).file(&outcome);
    assert_eq!(short, "a.knot:1:3: error[color-promise-broken]: here\n");
    let human = FormatName::Human.format(false, false).file(&outcome);
    assert!(human.contains("a.knot:1:3"), "{human}");
}
