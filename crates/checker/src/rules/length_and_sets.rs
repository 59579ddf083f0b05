//! Both `length` and `sets`.

use crate::{Finding, Place, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "length-and-sets",
    severity: Severity::Error,
    summary: "Both `length` and `sets` say how much is tied.",
    why: "`length` asks for so much of band and lets the number of sets follow; `sets` gives the number and lets \
          the length follow. Given both, they would agree only by chance.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp
length 15 cm
sets 12

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp
length 15 cm

set { take left 1: forward to edge }
"#,
};

pub(super) fn words(first: Place) -> Finding {
    Finding::new(&RULE, "How much is tied was said already: `length` and `sets` cannot both hold.")
        .note(first, "it was said here first")
        .help("Keep `length` if the band must fit, `sets` if the motif must come so often.")
}
