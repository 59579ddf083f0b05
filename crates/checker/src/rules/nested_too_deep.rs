//! Blocks in blocks in blocks, or motifs in motifs in motifs.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "nested-too-deep",
    severity: Severity::Error,
    summary: "Too many blocks, parentheses or motifs stand in one another.",
    why: "Nobody can follow a pattern through 64 braces, and no program should have to. Give a part of it a name \
          with `motif` and work that. For motifs that work motifs the same holds, only that the limit is higher.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  take left 1: forward (((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((3)))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  take left 1: forward 3
}
"#,
};

pub(super) fn words() -> Finding {
    Finding::new(&RULE, "More than 64 blocks or parentheses stand in one another here.")
        .help("Make a part of it a `motif` and work that.")
}

/// Motifs worked in one another, more than `deepest`.
pub(super) fn motifs(motif: &str, deepest: usize) -> Finding {
    Finding::new(&RULE, format!("With `{motif}`, more than {deepest} motifs are worked in one another."))
        .help("Let the motifs be worked one after another, or repeat one with `repeat` or `for`.")
}
