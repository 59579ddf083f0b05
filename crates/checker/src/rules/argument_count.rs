//! Too few or too many arguments for a motif.

use crate::wording::{count, number};
use crate::{Finding, Place, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "argument-count",
    severity: Severity::Error,
    tags: &[],
    summary: "A motif is given more or fewer arguments than it has parameters.",
    why: "Each name in the parentheses of a motif takes one argument, in that order. With too few arguments \
          the motif cannot be tied; with too many, you meant something that the motif does not know.",
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
    let arguments = count(wanted.to_u64(), "argument");
    let stand = match given {
        0 => "there are none here".to_owned(),
        1 => "there is one here".to_owned(),
        _ => format!("there are {} here", number(given.to_u64())),
    };
    Finding::new(&RULE, format!("The motif `{motif}` takes {arguments}, but {stand}."))
        .note(defined, "the motif lists its parameters here")
        .help("Give one argument for each name in the motif's parentheses.")
}

#[cfg(test)]
mod tests {
    use super::words;
    use crate::Place;

    #[test]
    fn numbers_agree_with_their_verbs() {
        let reported = |wanted, given| words("fan", wanted, given, Place::default()).message;
        assert_eq!(reported(1, 2), "The motif `fan` takes one argument, but there are two here.");
        assert_eq!(reported(2, 1), "The motif `fan` takes two arguments, but there is one here.");
        assert_eq!(reported(2, 0), "The motif `fan` takes two arguments, but there are none here.");
        assert_eq!(reported(0, 1), "The motif `fan` takes no arguments, but there is one here.");
    }
}
