//! A comment that allows something, but silences nothing.

use crate::wording::quoted;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "allow-without-effect",
    severity: Severity::Warning,
    summary: "A comment `-- allow RULE: reason` silences nothing.",
    why: "A warning that is meant to stay is allowed by a comment at the end of its line, or on the line above: \
          `-- allow missing-brick: a peephole`. The reason is for the next reader and must be there. An allowance \
          without a reason, for a rule that is not known or for an error has no effect: what cannot be tied cannot be \
          allowed. And one for a warning that no longer comes should go, lest it silence another some day.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

-- allow missing-brick: the band has a peephole
set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
};

pub(crate) fn unknown(written: &str, nearest: Option<&str>) -> Finding {
    let finding =
        Finding::new(&RULE, format!("No rule is called {}, so that this allows nothing.", quoted(written)));
    finding.help(nearest.map_or_else(
        || "The name of a rule stands with each finding.".to_owned(),
        |name| format!("Did you mean `{name}`?"),
    ))
}

pub(crate) fn error(rule: &str) -> Finding {
    Finding::new(&RULE, format!("`{rule}` is an error and cannot be allowed."))
        .help("What cannot be tied, or was promised and is not so, must be mended.")
}

pub(crate) fn no_reason(rule: &str) -> Finding {
    Finding::new(&RULE, format!("This allows `{rule}` without saying why, and so has no effect."))
        .help(format!("Write the reason behind a colon: `-- allow {rule}: ...`."))
}

pub(crate) fn idle(rule: &str) -> Finding {
    Finding::new(&RULE, format!("There is no `{rule}` here to allow."))
        .help("Delete the comment, or move it to the end of the line it is for, or to the line above that.")
}
