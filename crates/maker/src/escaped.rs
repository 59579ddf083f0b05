//! Text of a pattern in Markdown.

/// Signs that Markdown would take for something else are escaped, line breaks become spaces; what stands between
/// backticks is left alone.
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    let mut is_code = false;
    for sign in text.chars().map(|sign| if sign.is_control() { ' ' } else { sign }) {
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
    use super::escaped;

    #[test]
    fn words_stay_words_in_markdown() {
        assert_eq!(escaped("a_b <i> `x_y <z>` *!*"), "a\\_b \\<i\\> `x_y <z>` \\*\\!\\*");
        assert_eq!(escaped("&lt;\r\n# a"), "\\&lt;  \\# a");
    }
}
