//! `15cm`.

use crate::wording::quoted;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "number-touches-word",
    severity: Severity::Error,
    tags: &[],
    summary: "There is no space between a number and a word.",
    why: "A number and its unit, or a number and the thread it counts, are two words: `15 cm`, `3 kelp`. A \
          name may contain digits, so without the space it is not clear where the number ends.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp
length 15cm

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp
length 15 cm

set { take left 1: forward to edge }
"#,
};

pub(super) fn words(found: &str) -> Finding {
    let (digits, word) = apart(found);
    let finding = Finding::new(
        &RULE,
        format!("In {}, a space is missing between the number and the word.", quoted(found)),
    );
    finding.help(format!("Write {}.", quoted(&format!("{digits} {word}"))))
}

fn apart(found: &str) -> (&str, &str) {
    let end = found.find(|letter: char| !letter.is_ascii_digit() && letter != '.').unwrap_or(found.len());
    found.split_at(end)
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_two_words_are_shown_apart() {
        let finding = super::words("15cm");
        assert_eq!(finding.message, "In `15cm`, a space is missing between the number and the word.");
        assert_eq!(finding.help.unwrap(), "Write `15 cm`.");
        assert_eq!(super::words("0.9mm").help.unwrap(), "Write `0.9 mm`.");
    }
}
