//! Files that use one another in a circle.

use crate::wording::quoted;
use crate::{Finding, Place, Rule, Severity, Tag};

pub(crate) static RULE: Rule = Rule {
    name: "import-circular",
    severity: Severity::Error,
    tags: &[Tag::Together],
    summary: "Files use one another's motifs in a circle.",
    why: "If one file needs the motifs of a second file, and the second needs those of the first, neither can \
          be read before the other. Put the motifs that both need into a third file, a library without \
          `strands`. Of several files that are checked together, the first one of the circle says so, with the places \
          of the others.",
    example: r#"pattern "Kelp forest"

use ring from "ring.knot"

thread kelp #1f5d50

strands 4 kelp

motif sweep() {
  take left 1: forward to edge
}

set {
  work sweep()
  work ring()
}
"#,
    instead: r#"pattern "Kelp forest"

use sweep from "sweeps.knot"

thread kelp #1f5d50

strands 4 kelp

set { work sweep() }
"#,
};

/// `others`: where the other files of the circle use one another.
pub(super) fn words(path: &str, others: &[Place]) -> Finding {
    let finding = Finding::new(
        &RULE,
        format!("The file {} leads back to this one: the files use each other in a circle.", quoted(path)),
    )
    .help("Put the motifs that both need into a third file.");
    others.iter().fold(finding, |finding, &other| finding.note(other, "this goes on around the circle"))
}
