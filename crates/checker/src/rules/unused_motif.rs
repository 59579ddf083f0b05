//! A motif that is never worked.

use crate::reading::{is_library, is_name, whole, words};
use crate::{Checked, FileId, Finding, Place, Rule, Severity};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Name, Node};

pub(crate) static RULE: Rule = Rule {
    name: "unused-motif",
    severity: Severity::Warning,
    summary: "A motif is made or fetched, but never worked.",
    why: "A motif ties nothing until `work` calls it. If it is never called, it is a leftover, or the `work` line \
          names another one by mistake. The motifs of a library are there for other files and are not told; what a \
          library fetches from elsewhere is.",
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

pub(super) fn find(checked: &Checked) -> Vec<Finding> {
    let source = checked.source;
    let made_here = !is_library(source);
    let mut findings = Vec::new();
    for statement in &source.parsed.tree.statements {
        let unworked = |name: &&Name| !worked(checked, name, statement.span);
        match &statement.node {
            Node::Motif(motif) if made_here => {
                findings
                    .extend([&motif.name].into_iter().filter(unworked).map(|name| words_for(name, "made")));
            }
            Node::Use { names, .. } => {
                findings.extend(names.iter().filter(unworked).map(|name| words_for(name, "fetched")));
            }
            _ => {}
        }
    }
    findings
}

/// Whether `work NAME` stands anywhere but in the motif itself.
fn worked(checked: &Checked, name: &Name, own: Span) -> bool {
    let mut before = "";
    words(checked.source, whole(checked.source)).any(|(span, word)| {
        let called = before == "work" && is_name(word, &name.text);
        before = word;
        called && !(own.start <= span.start && span.end <= own.end)
    })
}

fn words_for(name: &Name, how: &str) -> Finding {
    Finding::new(&RULE, format!("The motif `{}` is {how}, but never worked.", name.text))
        .at(Place { file: FileId(0), span: name.span })
        .help(format!("Write `work {}` where it should be tied, or delete it.", name.text))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{silent, told};

    #[test]
    fn the_motif_is_named() {
        assert_eq!(told(RULE.name, RULE.example), ["The motif `sweep` is made, but never worked."]);
    }

    #[test]
    fn a_library_lends_its_motifs() {
        silent(RULE.name, "pattern \"Sweeps\"\nmotif sweep() { take left 1: forward to edge }\n");
    }

    #[test]
    fn a_motif_worked_by_another_is_used() {
        let text = RULE.instead.replace("set {", "motif gust() { work sweep() }\n\nset {");
        assert_eq!(told(RULE.name, &text), ["The motif `gust` is made, but never worked."]);
    }
}
