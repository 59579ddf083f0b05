//! Every rule's page is run: its example has the mistake, and no other; the file below it has none.

use knotwright_checker::{
    Finding, Library, OpenError, Place, Rule, Settings, Severity, Source, check, rules,
};
use std::collections::HashSet;
use std::sync::{Arc, LazyLock};

/// What the examples fetch motifs from.
const SWEEPS: &str = r#"pattern "Sweeps"

thread foam white

motif sweep() {
  take left 1: forward to edge
}

motif crest(wave) {
  take left 1 (wave): forward to edge
}

motif tinted-crest() {
  take left 1 (foam): forward to edge
}
"#;

/// A file that comes back to the example.
const RING: &str = r#"pattern "Ring"

use sweep from "example.knot"

motif ring() {
  work sweep()
}
"#;

struct Shelf(Arc<Source>);

impl Library for Shelf {
    fn open(&self, _from: &str, path: &str) -> Result<Arc<Source>, OpenError> {
        match path {
            "sweeps.knot" => Ok(Arc::new(Source::new(path, SWEEPS))),
            "ring.knot" => Ok(Arc::new(Source::new(path, RING))),
            "example.knot" => Ok(Arc::clone(&self.0)),
            _ => Err(OpenError::Missing),
        }
    }
}

fn findings(text: &str) -> Vec<Finding> {
    let source = Arc::new(Source::new("example.knot", text));
    check(Arc::clone(&source), &Shelf(source), &Settings::default()).findings
}

fn reported(findings: &[Finding]) -> String {
    findings.iter().map(|finding| format!("  {}: {}\n", finding.rule.name, finding.message)).collect()
}

/// Rules with a page that shows an example, and what is found in it.
static SHOWN: LazyLock<Vec<(&'static Rule, Vec<Finding>)>> = LazyLock::new(|| {
    let shown = rules::all().iter().filter(|rule| !rule.example.is_empty());
    shown.map(|rule| (*rule, findings(rule.example))).collect()
});

#[test]
fn every_example_has_the_mistake_of_its_page_and_no_other_error() {
    let mut wrong = String::new();
    for (rule, findings) in SHOWN.iter() {
        let is_own = |finding: &Finding| finding.rule.name == rule.name;
        let stray = |finding: &&Finding| !is_own(finding) && finding.severity == Severity::Error;
        if !findings.iter().any(is_own) || findings.iter().any(|finding| stray(&finding)) {
            wrong += &format!("{}\n{}", rule.name, reported(findings));
        }
    }
    assert_eq!(wrong, "");
}

#[test]
fn every_mended_example_is_clean() {
    let mut wrong = String::new();
    for (rule, _) in SHOWN.iter() {
        let findings = findings(rule.instead);
        if !findings.is_empty() {
            wrong += &format!("{}\n{}", rule.name, reported(&findings));
        }
    }
    assert_eq!(wrong, "");
}

#[test]
fn the_one_rule_without_an_example_is_tried_with_what_would_be_too_long_to_print() {
    let without: Vec<_> =
        rules::all().iter().filter(|rule| rule.example.is_empty()).map(|rule| rule.name).collect();
    assert_eq!(without, ["file-too-large"]);
    let text = "-- kelp\n".repeat(3 << 20);
    assert_eq!(
        findings(&text).iter().map(|finding| finding.rule.name).collect::<Vec<_>>(),
        ["file-too-large"]
    );
}

#[test]
fn names_are_kebab_case_unique_and_in_order() {
    let names: Vec<&str> = rules::all().iter().map(|rule| rule.name).collect();
    let is_kebab = |name: &&str| {
        name.split('-').all(|word| !word.is_empty() && word.chars().all(|letter| letter.is_ascii_lowercase()))
    };
    assert_eq!(names.iter().filter(|name| !is_kebab(name)).collect::<Vec<_>>(), [&""; 0]);
    assert_eq!(names.iter().collect::<HashSet<_>>().len(), names.len());
    assert!(names.is_sorted());
}

/// A rule that is not in the list would speak, but have no page and no name for the settings.
#[test]
#[expect(clippy::disallowed_methods, reason = "the test looks at the sources")]
fn every_file_of_a_rule_is_in_the_list() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/rules");
    let mut files: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path().file_stem().unwrap().to_str().unwrap().replace('_', "-"))
        .filter(|name| name != "mod")
        .collect();
    files.sort_unstable();
    assert_eq!(files, rules::all().iter().map(|rule| rule.name).collect::<Vec<_>>());
}

#[test]
fn pages_are_written_in_whole_sentences() {
    for rule in rules::all() {
        assert!(rule.summary.ends_with('.'), "{}", rule.name);
        assert!(rule.summary.len() <= 110, "{}: {}", rule.name, rule.summary.len());
        assert!(rule.why.ends_with(['.', ')']), "{}", rule.name);
        assert!(!rule.why.contains("  "), "{}", rule.name);
    }
}

/// Messages are sentences for people who tie: no word of how files are read.
#[test]
fn no_sentence_speaks_of_plumbing() {
    let plumbing =
        ["token", "pars", "syntax", "AST", "span", "byte", "identifier", "invalid", "argument of type"];
    let mut wrong = String::new();
    for (rule, findings) in SHOWN.iter() {
        for finding in findings {
            let mut said = vec![finding.message.clone()];
            said.extend(finding.notes.iter().map(|note| note.text.clone()));
            said.extend(finding.help.clone());
            for sentence in said {
                if plumbing.iter().any(|word| sentence.contains(word)) {
                    wrong += &format!("{}: {sentence}\n", rule.name);
                }
            }
            assert!(finding.message.ends_with('.'), "{}: {}", rule.name, finding.message);
        }
    }
    assert_eq!(wrong, "");
}

/// All that is said of the examples, to be read as a whole.
#[test]
fn what_is_said_of_the_examples() {
    let mut said = String::new();
    for (rule, findings) in SHOWN.iter() {
        for finding in findings.iter().filter(|finding| finding.rule.name == rule.name) {
            said += &format!(
                "{} at `{}`\n  {}\n",
                rule.name,
                shown(rule.example, finding.place),
                finding.message
            );
            for note in &finding.notes {
                said += &format!("  note at `{}`: {}\n", shown(rule.example, note.place), note.text);
            }
            said += &finding.help.as_ref().map_or_else(String::new, |help| format!("  help: {help}\n"));
        }
    }
    insta::assert_snapshot!(said);
}

/// What is at a place of the example, in one line; places in other files are named as such.
fn shown(text: &str, place: Place) -> String {
    let here = place.file == Place::default().file;
    let found = if here { place.span.of(text) } else { "(another file)" };
    found.split_whitespace().collect::<Vec<_>>().join(" ")
}
