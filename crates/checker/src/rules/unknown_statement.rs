//! A line that begins with a word that begins no statement.

use crate::wording::quoted;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "unknown-statement",
    severity: Severity::Error,
    tags: &[],
    summary: "A line begins with a word with which no statement begins.",
    why: "The first word of a line says what the line does: `thread`, `strands`, `take`, `meet`, `repeat` and so \
          on. With an unknown first word nothing can be made of the line.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  tak left 1: forward to edge
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  take left 1: forward to edge
}
"#,
};

pub(super) fn words(found: &str, nearest: Option<&str>) -> Finding {
    let finding = Finding::new(&RULE, format!("A line cannot begin with {}.", quoted(found)));
    match nearest {
        Some(word) => finding.help(format!("Did you mean `{word}`?")),
        None => {
            finding.help("A remark for readers begins with `--`, one for the instructions is `note \"...\"`.")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn the_nearest_word_is_offered() {
        let finding = words("tak", Some("take"));
        assert_eq!(finding.message, "A line cannot begin with `tak`.");
        assert_eq!(finding.help.unwrap(), "Did you mean `take`?");
        assert!(words("hello", None).help.unwrap().contains("`--`"));
    }
}
