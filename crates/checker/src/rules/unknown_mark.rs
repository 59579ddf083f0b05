//! A sign that this chart does not know.

use crate::wording::quoted;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "unknown-mark",
    severity: Severity::Error,
    tags: &[],
    summary: "A chart contains a mark that it does not know.",
    why: "`rows` use `\\` forward, `/` backward, `>` forward-backward, `<` backward-forward, `x` for two \
          strands of one color, and `.` for no knot. `leader` rows use `.` where the leader shows, and `#` \
          where the strand shows.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  rows {
    \ o
     /
  }
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  rows {
    \ x
     /
  }
}
"#,
};

pub(super) fn words(found: &str) -> Finding {
    Finding::new(&RULE, format!("{} is not a mark of this chart.", quoted(found)))
        .help("In `rows`: `\\`, `/`, `>`, `<`, `x` and `.`. In `leader`: `.` and `#`.")
}
