//! A bead that is threaded nowhere.

use super::unused_thread::without_line;
use crate::contents::Contents;
use crate::reading::{is_begun, is_library};
use crate::{Checked, FileId, Finding, Place, Rule, Severity, Tag};
use knotwright_grammar::tree::{Bead, BeadPlace, EndBead, Name, Statement};
use rustc_hash::FxHashSet as HashSet;

pub(crate) static RULE: Rule = Rule {
    name: "unused-bead",
    severity: Severity::Warning,
    tags: &[Tag::Symptom],
    summary: "A bead is declared and threaded nowhere.",
    why: "A `bead` at the top of the file says what the bead is like. Where it goes, a line such as `bead pearl on left 3` \
          says, or `bead pearl` in `begin` or `finish`. Without one, it is a leftover, or a line names another bead by \
          mistake.",
    example: r#"pattern "Tide pool"

thread kelp #1f5d50
bead pearl #f4efe6 4 mm hole 2 mm

strands 4 kelp

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Tide pool"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
};

pub(super) fn find(checked: &Checked, _: &Contents) -> Vec<Finding> {
    let source = checked.source;
    let declared = || source.parsed.tree.statements.iter().filter_map(|statement| statement.get::<Bead>());
    // A statement that does not parse may thread it.
    if declared().next().is_none()
        || is_library(source)
        || !is_begun(source)
        || !source.parsed.problems.is_empty()
    {
        return Vec::new();
    }
    let threaded: HashSet<&str> = source.parsed.tree.walk().filter_map(threaded).collect();
    let unused = declared().map(|bead| &bead.name).filter(|name| !threaded.contains(name.text.as_str()));
    unused.map(|name| Finding { mends: vec![without_line(source, name.span)], ..words(name) }).collect()
}

fn threaded(statement: &Statement) -> Option<&str> {
    let within = statement.get::<BeadPlace>().map(|place| &place.bead);
    let name = within.or_else(|| statement.get::<EndBead>().map(|end| &end.bead));
    name.map(|name| name.text.as_str())
}

fn words(name: &Name) -> Finding {
    Finding::new(&RULE, format!("The bead `{}` is threaded nowhere.", name.text))
        .at(Place { file: FileId::CHECKED, span: name.span })
        .help(format!("Thread it with a line such as `bead {} on left 1`, or delete the line.", name.text))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn the_bead_is_named() {
        assert_eq!(messages_of(RULE.name, RULE.example), ["The bead `pearl` is threaded nowhere."]);
    }

    #[test]
    fn in_a_set_a_motif_or_an_end_it_is_threaded() {
        for threads in [
            "set { bead pearl on left 1 }",
            "motif m() { bead pearl on left 1 }",
            "finish {\nbead pearl\nknot\n}",
        ] {
            let text =
                RULE.example.replace("set {", &format!("{}\nset {{", threads.replace("set {", "opening {")));
            assert_silent(RULE.name, &text);
        }
    }
}
