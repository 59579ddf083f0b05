//! A sign of which there is no letter in knots.

use crate::{Finding, Rule, Severity};
use knotwright_wording::is_hidden;

pub(crate) static RULE: Rule = Rule {
    name: "letter-not-there",
    severity: Severity::Error,
    tags: &[],
    summary: "`letters` has a sign that there is no letter for.",
    why: "The letters come from a font that has capitals, small letters, figures and signs of the alphabets of \
          Europe: Latin with its accents, Greek and Cyrillic. Signs of other scripts, emoji and ornaments are \
          not in it. Draw these yourself, row by row.",
    example: r#"pattern "Harbor wall"

thread night #1b2440
thread lamp #f2c14e

strands night 7 lamp

set {
  leader left 1 (night) {
    letters "A♥"
  }
}
"#,
    instead: r#"pattern "Harbor wall"

thread night #1b2440
thread lamp #f2c14e

strands night 7 lamp

set {
  leader left 1 (night) {
    letters "A"
  }
}
"#,
};

pub(super) fn words(sign: char) -> Finding {
    let name = format!("U+{:04X}", u32::from(sign));
    let is_shown =
        !is_hidden(sign) && (sign.is_alphanumeric() || sign.is_ascii() || u32::from(sign) >= 0x2000);
    let shown = if is_shown { format!("`{sign}` ({name})") } else { name };
    Finding::new(&RULE, format!("There is no letter for {shown}."))
        .help("Write another sign, or draw this one in rows of `.` and `#`.")
}

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn a_sign_that_cannot_be_shown_alone_is_named_by_its_number() {
        assert_eq!(words('\u{6d77}').message, "There is no letter for `\u{6d77}` (U+6D77).");
        assert_eq!(words('\u{301}').message, "There is no letter for U+0301.");
        assert_eq!(words('\u{202e}').message, "There is no letter for U+202E.");
    }
}
