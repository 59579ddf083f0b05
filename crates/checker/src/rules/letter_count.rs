//! Letters that say nothing, or too much for one line.

use crate::wording::count;
use crate::{Finding, Rule, Severity};
use knotwright_lettering::MOST_SIGNS;
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "letter-count",
    severity: Severity::Error,
    tags: &[],
    summary: "`letters` has no sign to show, or more than 32.",
    why: "`letters` makes rows of a text, so the text needs at least one sign that can be seen. A line of letters \
          has at most 32 signs, spaces included; for a longer text, write several lines of `letters`, one below \
          the other.",
    example: r#"pattern "Harbor wall"

thread night #1b2440
thread lamp #f2c14e

strands night 7 lamp

set {
  leader left 1 (night) {
    letters " "
  }
}
"#,
    instead: r#"pattern "Harbor wall"

thread night #1b2440
thread lamp #f2c14e

strands night 7 lamp

set {
  leader left 1 (night) {
    letters "AHOY"
  }
}
"#,
};

pub(super) fn nothing() -> Finding {
    Finding::new(&RULE, "There is nothing to see in these letters.")
        .help("Write a text with at least one letter, such as `letters \"AHOY\"`, or leave the line out.")
}

pub(super) fn too_many(signs: usize) -> Finding {
    let message =
        format!("This line has {}, but at most {MOST_SIGNS} fit in one.", count(signs.to_u64(), "sign"));
    Finding::new(&RULE, message).help("Write several lines of `letters`, one below the other.")
}

#[cfg(test)]
mod tests {
    #[test]
    fn found_and_allowed_are_said() {
        assert_eq!(super::too_many(40).message, "This line has 40 signs, but at most 32 fit in one.");
    }
}
