//! The marks that a merge left.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "conflict-marks",
    severity: Severity::Error,
    tags: &[],
    summary: "Marks of a merge conflict are left in the file.",
    why: "Where two people change the same step, git writes both texts into the file, between lines that begin with \
          `<<<<<<<`, `=======` and `>>>>>>>`. Until somebody chooses, it is not known which of the two is the \
          pattern. Nothing else in such a file is checked, and it is not formatted.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
<<<<<<< ours
  take left 1: forward to edge
=======
  take right 1: backward to edge
>>>>>>> theirs
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  take left 1: forward to edge
}
"#,
};

/// `found`: the first line that is a mark.
pub(super) fn words(found: &str) -> Finding {
    let mark: String = found.chars().take_while(|sign| !sign.is_whitespace()).collect();
    Finding::new(
        &RULE,
        format!("Marks of a merge conflict are left in this file; the first one is `{mark}`."),
    )
    .help("Keep the steps of one side, or of both, and delete the lines with the marks.")
}
