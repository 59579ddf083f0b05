//! A label that nothing calls.

use crate::contents::{Contents, Label};
use crate::{Checked, FileId, Finding, Place, Rule, Severity, Source, Tag, reading};
use knotwright_grammar::tree::Name;
use rustc_hash::FxHashMap as HashMap;
use std::borrow::Cow;

pub(crate) static RULE: Rule = Rule {
    name: "unused-label",
    severity: Severity::Warning,
    tags: &[Tag::Symptom, Tag::Unused],
    summary: "A strand gets a label that is never used.",
    why: "A label lets you take the same strand again later, wherever it hangs by then. It is known until the \
          end of its block. If nothing there uses it, it is a leftover, or the step that should use it \
          counts positions instead and may take another strand.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands foam 3 kelp

set {
  take left 1 as crest: forward to edge
  take right 1: backward to edge
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands foam 3 kelp

set {
  take left 1 as crest: forward to edge
  take crest: backward to edge
}
"#,
};

pub(super) fn find(checked: &Checked, contents: &Contents) -> Vec<Finding> {
    if contents.labels.is_empty() {
        return Vec::new();
    }
    let calls = calls(checked.source);
    let is_called = |label: &&Label| {
        calls.get(label.name.text.as_str()).is_some_and(|places| {
            let next = places.get(places.partition_point(|&place| place < label.from));
            next.is_some_and(|&place| Some(place) < label.end)
        })
    };
    contents.labels.iter().filter(|label| !is_called(label)).map(|label| words(label.name)).collect()
}

/// By word, where it stands, in order.
fn calls(source: &Source) -> HashMap<Cow<'_, str>, Vec<u32>> {
    let mut calls: HashMap<Cow<str>, Vec<u32>> = HashMap::default();
    for (span, word) in reading::words(source) {
        calls.entry(word).or_default().push(span.start);
    }
    calls
}

fn words(label: &Name) -> Finding {
    Finding::new(&RULE, format!("The label `{}` is never used in its block.", label.text))
        .at(Place { file: FileId::CHECKED, span: label.span })
        .help(format!(
            "Write `take {0}` where you take this strand again, or leave out `as {0}`.",
            label.text
        ))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn the_label_is_named() {
        assert_eq!(messages_of(RULE.name, RULE.example), ["The label `crest` is never used in its block."]);
    }

    #[test]
    fn a_label_may_be_called_in_a_block_further_in() {
        let text =
            RULE.instead.replace("take crest: backward to edge", "repeat 1 { take crest: backward to edge }");
        assert_silent(RULE.name, &text);
    }
}
