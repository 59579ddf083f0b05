//! A bead that is hard to thread, or surely would be if the thread is the usual one.

use super::bead_hole_too_small::{help, hole, wide};
use crate::contents::Contents;
use crate::wording::length;
use crate::{BeadInTheWay, Checked, FileId, Finding, Place, Rule, Severity};
use knotwright_grammar::tree::{BeadPlace, BeginBlock, Block, EndBead, FinishBlock, SplitBlock, Statement};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "bead-hole-tight",
    severity: Severity::Warning,
    tags: &[],
    summary: "A bead can hardly be threaded: its hole is too narrow for a needle, or for thread as thick as usual.",
    why: "In the eye of a needle a strand lies double, so one strand needs a hole of twice its thickness while it is \
          threaded. Without a needle it may still go through, if its tip is stiff. If the pattern does not say how thick \
          the thread is (`thickness` in `gauge`), 0.9 mm is taken (common practice, no source): then it is only a \
          warning that the strands do not fit.",
    example: r#"pattern "Tide pool"

thread kelp #1f5d50
bead pearl #f4efe6 4 mm hole 1.2 mm

strands 4 kelp

gauge {
  thickness 0.9 mm
}

set {
  take left 1: forward to edge
  bead pearl on left 1
}
"#,
    instead: r#"pattern "Tide pool"

thread kelp #1f5d50
bead pearl #f4efe6 4 mm hole 1.8 mm

strands 4 kelp

gauge {
  thickness 0.9 mm
}

set {
  take left 1: forward to edge
  bead pearl on left 1
}
"#,
};

pub(super) fn find(checked: &Checked, _: &Contents) -> Vec<Finding> {
    let mut findings = Vec::new();
    if checked.script.head.beads.is_empty() {
        return findings;
    }
    let strands = checked.script.head.strands.as_ref().map_or(0, Vec::len);
    for statement in checked.source.parsed.tree.walk() {
        if let Some(place) = statement.get::<BeadPlace>() {
            let threaded = Threaded { bead: &place.bead.text, strands: place.strands.len(), statement };
            findings.extend(threaded.hindered(checked));
        }
        let begin = statement.get::<BeginBlock>().map(|begin| &begin.block);
        let end = begin.or_else(|| statement.get::<FinishBlock>().map(|finish| &finish.block));
        end.into_iter().for_each(|block| at_end(block, strands, checked, &mut findings));
    }
    findings
}

/// The beads of an end, or of a part of it, and how many strands go through each.
fn at_end(block: &Block, strands: usize, checked: &Checked, findings: &mut Vec<Finding>) {
    for statement in &block.statements {
        if let Some(bead) = statement.get::<EndBead>() {
            findings.extend(Threaded { bead: &bead.bead.text, strands, statement }.hindered(checked));
        }
        if let Some(split) = statement.get::<SplitBlock>() {
            let part = strands.div_ceil(split.parts.value.to_usize().max(1));
            at_end(&split.block, part, checked, findings);
        }
    }
}

/// A bead that is threaded somewhere.
struct Threaded<'a> {
    bead: &'a str,
    strands: usize,
    statement: &'a Statement,
}

impl Threaded<'_> {
    fn hindered(&self, checked: &Checked) -> Option<Finding> {
        let bead = checked.script.bead(FileId::CHECKED, self.bead)?;
        let found = checked.script.beads().hinders(bead, self.strands)?;
        // What is no guess is an error, and was reported.
        let is_error = !found.is_assumed && !found.is_of_needle;
        let place = Place { file: FileId::CHECKED, span: self.statement.head };
        (!is_error).then(|| words(&found).at(place))
    }
}

fn words(of: &BeadInTheWay) -> Finding {
    let assumed = if of.is_assumed {
        let taken = length(of.thickness);
        format!(" Nothing says how thick the thread is; {taken} is taken (common practice, no source).")
    } else {
        String::new()
    };
    if !of.is_of_needle {
        return Finding::new(&RULE, hole(of) + &assumed).help(help(of));
    }
    let BeadInTheWay { bead, hole, needed, .. } = of;
    let message = format!(
        "A needle hardly goes through `{bead}`: the strand lies double in its eye and needs {}, and the hole is {} wide.{assumed}",
        wide(*needed),
        length(*hole)
    );
    Finding::new(&RULE, message).help(
        "Stiffen the tip of the strand and thread it without a needle, or take a bead with a wider hole.",
    )
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn a_strand_lies_double_in_a_needle() {
        let said = messages_of(RULE.name, RULE.example);
        assert_eq!(
            said,
            [
                "A needle hardly goes through `pearl`: the strand lies double in its eye and needs 1.8 mm, and the hole is 1.2 \
              mm wide."
            ]
        );
    }

    #[test]
    fn of_thread_that_is_not_known_the_usual_is_taken_and_marked() {
        let unknown = RULE.example.replace("gauge {\n  thickness 0.9 mm\n}\n", "");
        let two = unknown.replace("on left 1", "on left 1, left 2");
        let said = messages_of(RULE.name, &two);
        assert!(said[0].starts_with("Two strands of 0.9 mm do not go through `pearl`"), "{said:?}");
        assert!(said[0].ends_with("0.9 mm is taken (common practice, no source)."), "{said:?}");
        assert_silent(RULE.name, &two.replace("hole 1.2", "hole 1.8"));
    }

    #[test]
    fn beads_at_the_ends_are_looked_at_too() {
        let text = RULE.instead.replace("set {", "finish {\nsplit 4 {\nbead pearl\nknot\n}\n}\nset {");
        assert_silent(RULE.name, &text);
        assert_eq!(messages_of(RULE.name, &text.replace("hole 1.8", "hole 1")).len(), 2);
    }
}
