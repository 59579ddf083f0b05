//! Blocks in blocks in blocks, or motifs in motifs in motifs.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "nested-too-deep",
    severity: Severity::Error,
    tags: &[],
    summary: "Too many blocks, parentheses or motifs are inside one another.",
    why: "Nobody can follow a pattern through 64 braces, and no program should have to. Give a part of it a \
          name with `motif`, and work that. The same goes for motifs that work motifs, with a higher limit.",
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
    Finding::new(&RULE, "More than 64 blocks or parentheses are inside one another here.")
        .help("Make a part of it a `motif`, and work that.")
}

/// Motifs worked in one another, more than `deepest`.
pub(super) fn motifs(motif: &str, deepest: usize) -> Finding {
    Finding::new(&RULE, format!("With `{motif}`, more than {deepest} motifs are worked inside one another."))
        .help("Work the motifs one after another, or repeat one with `repeat` or `for`.")
}
