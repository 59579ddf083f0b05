//! A motif that is never worked.

use crate::contents::Contents;
use crate::reading::{is_begun, is_library, words};
use crate::{Checked, FileId, Finding, Place, Rule, Severity, Source, Tag};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Import, Motif, Name, Statement};

use rustc_hash::FxHashMap as HashMap;
use std::borrow::Cow;

pub(crate) static RULE: Rule = Rule {
    name: "unused-motif",
    severity: Severity::Warning,
    tags: &[Tag::Symptom, Tag::Unused],
    summary: "A motif is declared or imported, but never worked.",
    why: "A motif ties nothing until `work` names it. If that never happens, it is a leftover, or a `work` \
          line names another one by mistake. The motifs of a library are there for other files and are not \
          reported; motifs that a library imports and never works are.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

motif sweep() {
  take left 1: forward to edge
}

set { take left 1: forward 3 }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

motif sweep() {
  take left 1: forward to edge
}

set { work sweep() }
"#,
};

pub(super) fn find(checked: &Checked, _contents: &Contents) -> Vec<Finding> {
    let source = checked.source;
    let is_named = |statement: &Statement| statement.is::<Motif>() || statement.is::<Import>();
    if !source.parsed.tree.statements.iter().any(is_named) || !is_begun(source) {
        return Vec::new();
    }
    let made_here = !is_library(source);
    let calls = calls(source);
    let mut findings = Vec::new();
    for statement in &source.parsed.tree.statements {
        // A motif that works itself is not worked by that.
        let own = statement.span;
        let worked = |name: &Name| {
            calls.get(name.text.as_str()).is_some_and(|all| all.start < own.start || own.end < all.end)
        };
        let made =
            statement.get::<Motif>().map(|motif| &motif.name).filter(|name| made_here && !worked(name));
        findings.extend(made.map(|name| words_for(name, "made")));
        let fetched = statement.get::<Import>().into_iter().flat_map(|import| &import.names);
        findings.extend(fetched.filter(|name| !worked(name)).map(|name| words_for(name, "fetched")));
    }
    findings
}

/// By motif, from the first `work` that calls it to the last.
fn calls(source: &Source) -> HashMap<Cow<'_, str>, Span> {
    let mut calls: HashMap<Cow<str>, Span> = HashMap::default();
    let mut after_work = false;
    for (span, word) in words(source) {
        let is_work = word == "work";
        if after_work {
            calls.entry(word).and_modify(|all| *all = all.to(span)).or_insert(span);
        }
        after_work = is_work;
    }
    calls
}

fn words_for(name: &Name, how: &str) -> Finding {
    Finding::new(&RULE, format!("The motif `{}` is {how}, but never worked.", name.text))
        .at(Place { file: FileId::CHECKED, span: name.span })
        .help(format!("Write `work {}` where you want it tied, or delete it.", name.text))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn the_motif_is_named() {
        assert_eq!(messages_of(RULE.name, RULE.example), ["The motif `sweep` is made, but never worked."]);
    }

    #[test]
    fn a_library_lends_its_motifs() {
        assert_silent(RULE.name, "pattern \"Sweeps\"\nmotif sweep() { take left 1: forward to edge }\n");
    }

    #[test]
    fn a_motif_worked_by_another_is_used() {
        let text = RULE.instead.replace("set {", "motif gust() { work sweep() }\n\nset {");
        assert_eq!(messages_of(RULE.name, &text), ["The motif `gust` is made, but never worked."]);
    }
}
