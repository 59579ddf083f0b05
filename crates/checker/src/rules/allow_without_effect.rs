//! A comment that allows something, but silences nothing.

use crate::wording::quoted;
use crate::{Finding, Rule, Severity, Tag};

pub(crate) static RULE: Rule = Rule {
    name: "allow-without-effect",
    severity: Severity::Warning,
    tags: &[Tag::Comment],
    summary: "A comment `-- allow RULE: reason` silences nothing.",
    why: "To keep a warning on purpose, add a comment at the end of its line, or on the line above: `-- allow \
          missing-brick: a peephole`. Commas separate several rules. The reason is for the next reader and is \
          required. An `allow` without a reason, for an unknown rule, or for an error has no effect: what \
          cannot be tied cannot be allowed. And one for a warning that no longer appears should go, so that \
          it does not hide another one some day.",
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
        Finding::new(&RULE, format!("There is no rule called {}, so this allows nothing.", quoted(written)));
    finding.help(nearest.map_or_else(
        || "Each finding shows the name of its rule in brackets.".to_owned(),
        |name| format!("Did you mean `{name}`?"),
    ))
}

pub(crate) fn error(rule: &str) -> Finding {
    Finding::new(&RULE, format!("`{rule}` is an error and cannot be allowed."))
        .help("Fix the error: what cannot be tied, or was promised and is not true, cannot be allowed.")
}

pub(crate) fn no_reason(rule: &str) -> Finding {
    Finding::new(&RULE, format!("This allows `{rule}` without a reason, so it has no effect."))
        .help(format!("Write the reason after a colon: `-- allow {rule}: ...`."))
}

/// `among_others`: the comment allows other rules, too.
pub(crate) fn idle(rule: &str, among_others: bool) -> Finding {
    let finding = Finding::new(&RULE, format!("There is no `{rule}` finding here to allow."));
    if among_others {
        return finding.help(format!("Take `{rule}` out of the list."));
    }
    finding.help(
        "Delete the comment, or move it to the end of the line that it is for, or to the line above \
               that one.",
    )
}
