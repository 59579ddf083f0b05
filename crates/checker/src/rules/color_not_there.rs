//! A color reference beyond the strands of that color.

use crate::wording::{number, ordinal};
use crate::{Finding, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "color-not-there",
    severity: Severity::Error,
    tags: &[],
    summary: "A strand is named by its color, but there are not that many of that color.",
    why: "`foam 2 from left` is the second strand of foam, counted from the left edge; `foam 1 left of \
          center` counts outward from the middle. Inside `on`, only the strands of its range are counted. \
          `left of center` counts only the left half.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp

set {
  take foam 2 from left: forward 1
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp

set {
  take foam 1 from left: forward 1
  take foam 1 from left: backward to edge
  take foam 1 from left: forward 1
}
"#,
};

pub(super) fn words(thread: &str, number: i64, there: usize) -> Finding {
    let message = match usize::try_from(number) {
        Ok(nth) if nth > 0 => {
            format!("There is no {} strand of {thread}: {} here.", ordinal(nth), those(there))
        }
        _ => format!("There is no {thread} {number}: strands are counted from 1."),
    };
    Finding::new(&RULE, message).help(
        "Count the strands of that color as they hang at this step; inside `on`, only those of its range.",
    )
}

fn those(there: usize) -> String {
    match there {
        0 => "none hangs".to_owned(),
        1 => "only one hangs".to_owned(),
        _ => format!("only {} hang", number(there.to_u64())),
    }
}

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn those_that_are_there_are_counted() {
        assert_eq!(words("foam", 2, 1).message, "There is no second strand of foam: only one hangs here.");
        assert_eq!(words("foam", 4, 3).message, "There is no fourth strand of foam: only three hang here.");
        assert_eq!(words("foam", 1, 0).message, "There is no first strand of foam: none hangs here.");
        assert_eq!(words("foam", 0, 2).message, "There is no foam 0: strands are counted from 1.");
    }
}
