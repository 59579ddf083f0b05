//! Something else was due here.

use crate::wording::{either, quoted};
use crate::{Finding, Rule, Severity, expected_words};
use knotwright_grammar::Expected;

pub(crate) static RULE: Rule = Rule {
    name: "not-understood",
    severity: Severity::Error,
    tags: &[],
    summary: "A line cannot be read: something is missing, or does not belong there.",
    why: "Each line of a pattern is one statement and reads like a sentence: `take left 1: forward 4`. If a word, a \
          number or a sign is missing, or one too many, the rest of the line cannot be read. The strands may \
          hang anywhere then, so nothing more is reported about them until the next `expect` that fits.",
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

/// `found`: what is there; empty at the end of the line.
pub(super) fn words(found: &str, expected: &[Expected]) -> Finding {
    let due = due(expected);
    let message = match (found.trim().is_empty(), due.is_empty()) {
        (true, true) => "The line ends too early.".to_owned(),
        (true, false) => format!("The line ends here, but {due} should come next."),
        (false, true) => format!("{} does not belong here.", quoted(found)),
        (false, false) => format!("Found {}, but {due} should come next.", quoted(found)),
    };
    let finding = Finding::new(&RULE, message);
    if found == "/" { finding.help("A remark for readers begins with `--`.") } else { finding }
}

/// A word that is nearly one of the notation.
pub(super) fn misspelled(found: &str, meant: &str) -> Finding {
    let message = format!("{} does not belong here.", quoted(found));
    Finding::new(&RULE, message).help(format!("Did you mean `{meant}`?"))
}

/// What could have stood there, as one list.
fn due(expected: &[Expected]) -> String {
    let words: Vec<String> = expected.iter().flat_map(|expected| expected_words(*expected)).collect();
    either(&words.iter().map(String::as_str).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::{misspelled, words};
    use knotwright_grammar::Expected;

    #[test]
    fn found_and_due_are_reported() {
        assert_eq!(words(":", &[Expected::Number]).message, "Found `:`, but a number should come next.");
        assert_eq!(
            words("", &[Expected::Word("left"), Expected::Word("right")]).message,
            "The line ends here, but `left` or `right` should come next."
        );
        assert_eq!(words("}", &[]).message, "`}` does not belong here.");
    }
    #[test]
    fn long_lists_read_well() {
        let due = [Expected::Kind, Expected::Word("over"), Expected::Strand];
        assert_eq!(
            words("sideways", &due).message,
            "Found `sideways`, but a kind of knot (such as `forward`), `over`, a thread or a label should come next."
        );
    }

    #[test]
    fn the_word_that_was_meant_is_offered() {
        let finding = misspelled("foward", "forward");
        assert_eq!(finding.message, "`foward` does not belong here.");
        assert_eq!(finding.help.unwrap(), "Did you mean `forward`?");
    }

    #[test]
    fn slashes_are_no_remark() {
        assert!(words("/", &[Expected::Statement]).help.unwrap().contains("`--`"));
    }
}
