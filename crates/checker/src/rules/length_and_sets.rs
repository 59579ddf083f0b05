//! Both `length` and `sets`.

use crate::{Finding, Place, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "length-and-sets",
    severity: Severity::Error,
    tags: &[],
    summary: "Both `length` and `sets` say how much is tied.",
    why: "`length` says how long the band is, and the number of sets follows from it; `sets` gives the \
          number, and the length follows. If both are given, they would agree only by chance.",
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
    Finding::new(&RULE, "How much to tie is already given: use either `length` or `sets`.")
        .note(first, "given here first")
        .help("Keep `length` if the band must fit; keep `sets` if the number of sets matters.")
}
