//! Text of a pattern within a sentence.

use crate::is_hidden;

/// Text in the quotation marks of the notation, at most `most` letters long; each hidden sign is a mark that something
/// was there.
pub fn quoted(text: &str, most: usize) -> String {
    let mut shown = String::from("`");
    for (at, letter) in text.chars().enumerate() {
        if at == most {
            shown.push('…');
            break;
        }
        shown.push(if letter == '`' { '\'' } else { visible(letter) });
    }
    shown.push('`');
    shown
}

/// Text from outside (a path, a reason), in which every hidden sign is a mark that something was there.
pub fn cleaned(text: &str) -> String {
    text.chars().map(visible).collect()
}

fn visible(letter: char) -> char {
    if is_hidden(letter) { char::REPLACEMENT_CHARACTER } else { letter }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quoted_text_cannot_steer_a_terminal_or_run_on() {
        assert_eq!(quoted("a\u{1b}[31m", 40), "`a\u{fffd}[31m`");
        assert_eq!(quoted("a`b\u{202e}\n", 40), "`a'b\u{fffd}\u{fffd}`");
        assert_eq!(quoted(&"k".repeat(50), 40).chars().count(), 43);
        assert_eq!(cleaned("a\u{61c}b"), "a\u{fffd}b");
    }
}
