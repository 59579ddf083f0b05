//! Files that use one another in a circle.

use crate::wording::quoted;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "import-circular",
    severity: Severity::Error,
    summary: "Files fetch motifs from one another in a circle.",
    why: "If one file needs the motifs of a second and the second those of the first, neither can be read before \
          the other. Put the motifs that both need into a third file, a library without `strands`.",
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

pub(super) fn words(path: &str) -> Finding {
    Finding::new(
        &RULE,
        format!("The file {} comes back to this one: the files use each other in a circle.", quoted(path)),
    )
    .help("Put the motifs that both need into a third file.")
}
