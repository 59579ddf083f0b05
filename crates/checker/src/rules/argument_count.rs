//! Too few or too many arguments for a motif.

use crate::wording::{count, number};
use crate::{Finding, Place, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "argument-count",
    severity: Severity::Error,
    summary: "A motif is given more or fewer arguments than it has parameters.",
    why: "Each name in the parentheses of a motif waits for one argument, in that order. With one too few the motif \
          cannot be tied; with one too many something was meant that the motif does not know.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

motif sweep(size) {
  take left 1: forward size
}

set { work sweep(3, kelp) }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

motif sweep(size) {
  take left 1: forward size
}

set { work sweep(3) }
"#,
};

pub(super) fn words(motif: &str, wanted: usize, given: usize, defined: Place) -> Finding {
    let arguments = count(wanted as u64, "argument");
    let stand = match given {
        0 => "none stands here".to_owned(),
        1 => "one stands here".to_owned(),
        _ => format!("{} stand here", number(given as u64)),
    };
    Finding::new(&RULE, format!("The motif `{motif}` takes {arguments}, but {stand}."))
        .note(defined, "the motif says here what it takes")
        .help("Give one argument for each name in the motif's parentheses.")
}

#[cfg(test)]
mod tests {
    use super::words;
    use crate::Place;

    #[test]
    fn numbers_agree_with_their_verbs() {
        let told = |wanted, given| words("fan", wanted, given, Place::default()).message;
        assert_eq!(told(1, 2), "The motif `fan` takes one argument, but two stand here.");
        assert_eq!(told(2, 1), "The motif `fan` takes two arguments, but one stands here.");
        assert_eq!(told(2, 0), "The motif `fan` takes two arguments, but none stands here.");
        assert_eq!(told(0, 1), "The motif `fan` takes no arguments, but one stands here.");
    }
}
