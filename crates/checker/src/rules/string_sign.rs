//! A sign that a string cannot hold yet.

use crate::wording::quoted;
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "string-sign",
    severity: Severity::Error,
    tags: &[],
    summary: "A text contains a brace, or a backslash that means nothing.",
    why: "In a text, `\\\"` is a quotation mark and `\\\\` a backslash. Any other `\\`, and the braces `{` \
          and `}`, are kept free for later editions, so a text that is accepted today will always mean what \
          it means today.",
    example: r#"pattern "Kelp {forest}"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Kelp (forest)"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward to edge }
"#,
};

pub(super) fn escape(found: &str) -> Finding {
    Finding::new(&RULE, format!("{} has no meaning in a text.", quoted(found)))
        .help("Write `\\\\` for a backslash and `\\\"` for a quotation mark.")
}

pub(super) fn brace(found: &str) -> Finding {
    Finding::new(&RULE, format!("{} is not allowed in a text yet.", quoted(found)))
        .help("Use parentheses: braces in texts are kept free for later.")
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_sign_is_shown() {
        assert_eq!(super::escape("\\n").message, "`\\n` has no meaning in a text.");
        assert_eq!(super::brace("{").message, "`{` is not allowed in a text yet.");
    }
}
