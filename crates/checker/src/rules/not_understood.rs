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
    let due = due(expected);
    let message = match (found.trim().is_empty(), due.is_empty()) {
        (true, true) => "The line ends too early.".to_owned(),
        (true, false) => format!("The line ends here, but {due} should come next."),
        (false, true) => format!("{} does not belong here.", quoted(found)),
        (false, false) => format!("Here stands {}, but {due} should come next.", quoted(found)),
    };
    let finding = Finding::new(&RULE, message);
    if found == "/" { finding.help("A remark for readers begins with `--`.") } else { finding }
}

/// A word that is nearly one of the notation.
pub(super) fn misspelled(found: &str, meant: &str) -> Finding {
    let message = format!("{} is no word that can stand here.", quoted(found));
    Finding::new(&RULE, message).help(format!("Did you mean `{meant}`?"))
}

/// What could have stood there, as one list. Something with an example keeps it in parentheses.
fn due(expected: &[&'static str]) -> String {
    let mut words = Vec::new();
    for word in expected {
        match word.split_once(", such as ") {
            Some((what, example)) => words.push(format!("{what} (such as {example})")),
            None => words.extend(word.split(" or ").map(str::to_owned)),
        }
    }
    either(&words.iter().map(String::as_str).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::{misspelled, words};

    #[test]
    fn found_and_due_are_told() {
        assert_eq!(words(":", &["a number"]).message, "Here stands `:`, but a number should come next.");
        assert_eq!(
            words("", &["`left`", "`right`"]).message,
            "The line ends here, but `left` or `right` should come next."
        );
        assert_eq!(words("}", &[]).message, "`}` does not belong here.");
    }
    #[test]
    fn long_lists_read_well() {
        let due = ["a kind of knot, such as `forward`", "`over`", "a thread or a label"];
        assert_eq!(
            words("sideways", &due).message,
            "Here stands `sideways`, but a kind of knot (such as `forward`), `over`, a thread or a label should come next."
        );
    }

    #[test]
    fn the_word_that_was_meant_is_offered() {
        let finding = misspelled("foward", "forward");
        assert_eq!(finding.message, "`foward` is no word that can stand here.");
        assert_eq!(finding.help.unwrap(), "Did you mean `forward`?");
    }

    #[test]
    fn slashes_are_no_remark() {
        assert!(words("/", &["a statement"]).help.unwrap().contains("`--`"));
    }
}
