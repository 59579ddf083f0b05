//! A sign that the notation does not know.

use crate::wording::quoted;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "unknown-sign",
    severity: Severity::Error,
    tags: &[],
    summary: "The file contains a sign that the notation does not know.",
    why: "Outside texts and comments, the notation knows letters, digits, `{ } ( ) , : | + - * #` and, in \
          charts, `\\ / > < x .`. Other signs often come in when a pattern is copied from somewhere else: \
          curly quotation marks, a long dash, a semicolon at the end of a line.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set {
  take left 1: forward to edge;
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

pub(super) fn words(found: &str) -> Finding {
    let finding = Finding::new(&RULE, format!("The notation does not know the sign {}.", quoted(found)));
    match found.chars().next() {
        Some(';') => finding.help("A statement ends with its line; leave the sign out."),
        Some('“' | '”' | '„' | '‟' | '«' | '»' | '‘' | '’' | '\'') => {
            finding.help("Write texts in straight quotation marks: `\"...\"`.")
        }
        Some('–' | '—' | '−') => finding.help("Write `-` to subtract, and `--` before a comment."),
        Some('[' | ']') => finding.help("Write blocks in `{ }` and promised colors in `( )`."),
        _ => finding.help("Remove it, or put it in a comment after `--`."),
    }
}

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn signs_that_slip_in_have_advice_of_their_own() {
        assert_eq!(words(";").message, "The notation does not know the sign `;`.");
        assert!(words(";").help.unwrap().contains("ends with its line"));
        assert!(words("“").help.unwrap().contains("straight quotation marks"));
        assert!(words("—").help.unwrap().contains("`--`"));
        assert!(words("~").help.unwrap().contains("Remove it"));
    }
}
