//! Text of a pattern in Markdown.

use knotwright_wording::printable;

/// Signs that Markdown would take for something else are escaped, line breaks become spaces, hidden signs are left out; what is
/// between backticks is left alone.
pub fn escape_markdown(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    let mut is_code = false;
    for sign in text.chars().filter_map(printable) {
        is_code ^= sign == '`';
        if !is_code && matches!(sign, '\\' | '*' | '_' | '[' | ']' | '<' | '>' | '#' | '|' | '~' | '!' | '&')
        {
            out.push('\\');
        }
        out.push(sign);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::escape_markdown;

    #[test]
    fn words_stay_words_in_markdown() {
        assert_eq!(escape_markdown("a_b <i> `x_y <z>` *!*"), "a\\_b \\<i\\> `x_y <z>` \\*\\!\\*");
        assert_eq!(escape_markdown("&lt;\r\n# a"), "\\&lt;  \\# a");
    }
}
