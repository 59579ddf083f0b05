//! Something else was due here.

use crate::wording::{either, quoted};
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "not-understood",
    severity: Severity::Error,
    summary: "A line does not read on as it should.",
    why: "Each line of a pattern is one statement and reads like a sentence: `take left 1: forward 4`. Where a word, \
          a number or a sign is missing or too many, the rest of the line cannot be followed, and neither can the \
          places of the strands after it: nothing more is said of them until the next `expect` that fits.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
};

/// `found`: what stands there; empty at the end of the line.
pub(super) fn words(found: &str, expected: &[&'static str]) -> Finding {
    let due = either(expected);
    let message = match (found.trim().is_empty(), due.is_empty()) {
        (true, true) => "The line ends too early.".to_owned(),
        (true, false) => format!("The line ends here, but {due} should come next."),
        (false, true) => format!("{} does not belong here.", quoted(found)),
        (false, false) => format!("Here stands {}, but {due} should come next.", quoted(found)),
    };
    Finding::new(&RULE, message)
}

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn found_and_due_are_told() {
        assert_eq!(words(":", &["a number"]).message, "Here stands `:`, but a number should come next.");
        assert_eq!(
            words("", &["`left`", "`right`"]).message,
            "The line ends here, but `left` or `right` should come next."
        );
        assert_eq!(words("}", &[]).message, "`}` does not belong here.");
    }
}
