//! A statement that may stand once stands again.

use crate::{Finding, Place, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "said-twice",
    severity: Severity::Error,
    summary: "A statement that can be given only once is given again.",
    why: "A band has one title, one list of strands, one length and one set. If two lines say it, one of them is \
          a leftover, and nobody can tell which. (`about`, `author`, `thread`, `colorway`, `use` and `motif` may \
          stand as often as you like.)",
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
    Finding::new(&RULE, format!("`{statement}` was given already; a pattern has it only once."))
        .note(first, format!("the first `{statement}` stands here"))
        .help("Keep the one you mean and delete the other.")
}
