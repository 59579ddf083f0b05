//! Two names that differ in large and small letters alone.

use crate::contents::Contents;
use crate::{Checked, FileId, Finding, Place, Rule, Severity};
use knotwright_grammar::tree::{Bead, ForBlock, Import, Motif, Name, Take, Thread};

use rustc_hash::FxHashMap as HashMap;

pub(crate) static RULE: Rule = Rule {
    name: "name-differs-by-case",
    severity: Severity::Warning,
    tags: &[],
    summary: "Two names differ only in capital and small letters.",
    why: "Capital and small letters matter: `Foam` and `foam` are two threads. Hardly anybody means that, and \
          nobody who reads the pattern aloud can tell them apart. Threads, labels and numbers are compared \
          with one another, motifs with motifs, and beads with beads.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread Kelp #f4f1e8

strands kelp Kelp

set {
  repeat 2 { take left 1: forward 1 }
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam

set {
  repeat 2 { take left 1: forward 1 }
}
"#,
};

pub(super) fn find(_checked: &Checked, contents: &Contents) -> Vec<Finding> {
    names(contents).iter().flat_map(|names| among(names)).collect()
}

/// Names of threads, labels and numbers; names of motifs; names of beads.
fn names<'a>(contents: &Contents<'a>) -> [Vec<&'a Name>; 3] {
    let (mut strands, mut motifs, mut beads) = (Vec::new(), Vec::new(), Vec::new());
    for statement in &contents.naming {
        if let Some(motif) = statement.get::<Motif>() {
            motifs.push(&motif.name);
            strands.extend(&motif.params);
        }
        strands.extend(statement.get::<Thread>().map(|thread| &thread.name));
        strands.extend(statement.get::<Take>().and_then(|take| take.label.as_deref()));
        strands.extend(statement.get::<ForBlock>().map(|count| &count.variable));
        motifs.extend(statement.get::<Import>().into_iter().flat_map(|import| &import.names));
        beads.extend(statement.get::<Bead>().map(|bead| &bead.name));
    }
    [strands, motifs, beads]
}

/// One finding for each spelling that comes after another.
fn among(names: &[&Name]) -> Vec<Finding> {
    let is_small = |name: &&Name| name.text.bytes().all(|byte| byte.is_ascii() && !byte.is_ascii_uppercase());
    if names.iter().all(is_small) {
        return Vec::new();
    }
    let mut first: HashMap<String, Vec<&Name>> = HashMap::default();
    let mut findings = Vec::new();
    for name in names {
        let alike = first.entry(name.text.to_lowercase()).or_default();
        if alike.iter().all(|other| other.text != name.text) {
            findings.extend(alike.first().map(|other| words(other, name)));
            alike.push(name);
        }
    }
    findings
}

fn words(first: &Name, second: &Name) -> Finding {
    let place = |name: &Name| Place { file: FileId::CHECKED, span: name.span };
    Finding::new(
        &RULE,
        format!("The names `{}` and `{}` differ only in capital and small letters.", first.text, second.text),
    )
    .at(place(second))
    .note(place(first), format!("`{}` is named here", first.text))
    .help("Spell them the same if they are one, or give one of them another name.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn both_spellings_are_named() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            ["The names `kelp` and `Kelp` differ only in capital and small letters."]
        );
    }

    #[test]
    fn a_motif_may_be_called_like_a_thread() {
        let text =
            RULE.instead.replace("set {", "motif Foam() { take left 1: forward 1 }\n\nset {\n  work Foam()");
        assert_silent(RULE.name, &text);
    }

    #[test]
    fn beads_are_compared_with_beads_and_not_with_threads() {
        let with = |beads: &str| RULE.instead.replace("strands", &format!("{beads}strands"));
        let pearl = "bead pearl #f4efe6 4 mm hole 2 mm\n";
        let two = format!("{pearl}{}", pearl.replace("pearl", "Pearl"));
        assert_eq!(
            messages_of(RULE.name, &with(&two)),
            ["The names `pearl` and `Pearl` differ only in capital and small letters."]
        );
        assert_silent(RULE.name, &with(&pearl.replace("pearl", "Foam")));
    }

    #[test]
    fn labels_are_compared_with_threads() {
        let text = RULE.instead.replace("take left 1:", "take left 1 as FOAM:");
        assert_eq!(messages_of(RULE.name, &text).len(), 1);
    }
}
