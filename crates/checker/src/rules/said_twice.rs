//! A statement that may stand once stands again.

use crate::{Finding, Place, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "said-twice",
    severity: Severity::Error,
    tags: &[],
    summary: "A statement that can be given only once is given again.",
    why: "A band has one title, one list of strands, one length and one set. If two lines give one of these, \
          one line is a leftover, and nobody can tell which. (You can repeat `about`, `author`, `thread`, \
          `colorway`, `use` and `motif` as often as you like.)",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp
strands 6 kelp

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 6 kelp

set { take left 1: forward to edge }
"#,
};

pub(super) fn words(statement: &str, first: Place) -> Finding {
    // All others stand at the top of a file.
    let whole = if statement == "face" { "an opening, a set or a closing" } else { "a pattern" };
    Finding::new(&RULE, format!("`{statement}` is already given; {whole} has it only once."))
        .note(first, format!("the first `{statement}` is here"))
        .help("Keep the one that you mean and delete the other.")
}
