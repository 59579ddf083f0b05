//! Signs that nobody sees and that change what is seen: they steer a terminal, turn the direction of writing, or hide
//! text. A pattern comes from anywhere, so none of them reaches a picture, a page, a sentence or a terminal as it is.
//!
//! Sources: control characters are those of general category Cc (Unicode 16, chapter 23.1); signs that turn the
//! direction of writing are those with the property `Bidi_Control` (UAX #9, UAX #44); the others are format characters
//! without ink of their own (Unicode 16, chapters 23.2 to 23.9). What joins letters, U+200C and U+200D, is not among
//! them: Persian, Indic scripts and emoji are written with it.

/// Whether a sign is hidden. Line breaks and tabs are: where they may stay, ask for them first.
pub fn is_hidden(sign: char) -> bool {
    sign.is_control()
        || matches!(sign,
            '\u{ad}' | '\u{34f}' | '\u{180e}'                   // soft hyphen, joiner of graphemes, vowel separator
            | '\u{61c}' | '\u{200e}' | '\u{200f}'               // direction marks
            | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' // direction embeddings, overrides, isolates
            | '\u{200b}' | '\u{feff}'                           // spaces without width
            | '\u{2028}' | '\u{2029}'                           // line and paragraph separators
            | '\u{2060}'..='\u{2065}' | '\u{206a}'..='\u{206f}' // word joiner, invisible operators, old format signs
            | '\u{fff9}'..='\u{fffb}'                           // annotations
            | '\u{e0000}'..='\u{e007f}'                         // tags
        )
}

/// A sign as it may be in a line of text: one that parts words is a space, any other hidden one is left out.
pub fn printable(sign: char) -> Option<char> {
    match sign {
        '\u{2028}' | '\u{2029}' => Some(' '),
        sign if sign.is_control() => Some(' '),
        sign if is_hidden(sign) => None,
        sign => Some(sign),
    }
}

/// Text without hidden signs; see [`printable`].
pub fn without_hidden(text: &str) -> String {
    text.chars().filter_map(printable).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use unicode_bidi::BidiClass::{FSI, LRE, LRI, LRO, PDF, PDI, RLE, RLI, RLO};

    /// Against the tables of another implementation of UAX #9.
    #[test]
    fn whatever_turns_the_direction_of_writing_is_hidden() {
        let turning = |sign: &char| {
            matches!(unicode_bidi::bidi_class(*sign), LRE | RLE | LRO | RLO | PDF | LRI | RLI | FSI | PDI)
        };
        let all: Vec<char> = ('\0'..=char::MAX).filter(turning).collect();
        assert_eq!(all.len(), 9);
        for sign in all.into_iter().chain(['\u{61c}', '\u{200e}', '\u{200f}']) {
            assert!(is_hidden(sign), "{:x}", u32::from(sign));
            assert_eq!(printable(sign), None);
        }
    }

    #[test]
    fn letters_of_any_script_stay() {
        let text = "Æ\u{644}\u{200c}\u{647}\u{6d77} \u{1f469}\u{200d}\u{1f680}\u{fe0f}";
        assert_eq!(without_hidden(text), text);
    }

    #[test]
    fn what_parts_words_is_a_space() {
        assert_eq!(without_hidden("a\tb\u{2028}c\u{202e}d\u{7}"), "a b cd ");
    }
}
