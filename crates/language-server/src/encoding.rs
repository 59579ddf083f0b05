//! Columns: what a client counts, and what it means in bytes. This is the only place where one becomes the other.

use knotwright_grammar::Span;
use knotwright_numbers::ToNumber;
use ropey::{Rope, RopeSlice};
use tower_lsp::ls_types::{Position, PositionEncodingKind, Range};

/// What a client's columns count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Encoding {
    /// Bytes.
    Utf8,
    /// Code units of UTF-16, unless something else was agreed on.
    #[default]
    Utf16,
    /// Characters.
    Utf32,
}

impl Encoding {
    /// The one that costs least among those that the client offers.
    pub(crate) fn among(offered: Option<&[PositionEncodingKind]>) -> Self {
        let offered = offered.unwrap_or_default();
        let known = [Self::Utf8, Self::Utf32].into_iter().find(|known| offered.contains(&known.kind()));
        known.unwrap_or_default()
    }

    /// Its name in the protocol.
    pub(crate) fn kind(self) -> PositionEncodingKind {
        match self {
            Self::Utf8 => PositionEncodingKind::UTF8,
            Self::Utf16 => PositionEncodingKind::UTF16,
            Self::Utf32 => PositionEncodingKind::UTF32,
        }
    }

    /// The byte of a position. A line too far means the end of the text, a column too far the end of its line, a
    /// column within a character its start.
    pub(crate) fn offset(self, text: &Rope, position: Position) -> usize {
        let line = position.line.to_usize();
        if line >= text.len_lines() {
            return text.len_bytes();
        }
        let content = without_break(text.line(line));
        text.line_to_byte(line) + self.column_to_byte(content, position.character.to_usize())
    }

    /// The position of a byte. One past the end means the end, one within a character its start, one within a line
    /// break the end of its line.
    pub(crate) fn position(self, text: &Rope, offset: usize) -> Position {
        let offset = offset.min(text.len_bytes());
        let line = text.byte_to_line(offset);
        let content = without_break(text.line(line));
        let byte = (offset - text.line_to_byte(line)).min(content.len_bytes());
        Position { line: unsigned(line), character: unsigned(self.byte_to_column(content, byte)) }
    }

    /// The range of a span.
    pub(crate) fn range(self, text: &Rope, span: Span) -> Range {
        Range {
            start: self.position(text, span.start.to_usize()),
            end: self.position(text, span.end.to_usize()),
        }
    }

    /// The span of a range; empty at its start if it ends before.
    pub(crate) fn span(self, text: &Rope, range: Range) -> Span {
        let start = self.offset(text, range.start);
        Span::new(start, self.offset(text, range.end).max(start))
    }

    /// How many units `text` is long.
    pub(crate) fn length(self, text: &str) -> u32 {
        let units = match self {
            Self::Utf8 => text.len(),
            Self::Utf16 => text.chars().map(char::len_utf16).sum(),
            Self::Utf32 => text.chars().count(),
        };
        unsigned(units)
    }

    fn column_to_byte(self, line: RopeSlice, column: usize) -> usize {
        let character = match self {
            Self::Utf8 => line.byte_to_char(column.min(line.len_bytes())),
            Self::Utf16 => line.utf16_cu_to_char(column.min(line.len_utf16_cu())),
            Self::Utf32 => column.min(line.len_chars()),
        };
        line.char_to_byte(character)
    }

    fn byte_to_column(self, line: RopeSlice, byte: usize) -> usize {
        let character = line.byte_to_char(byte);
        match self {
            Self::Utf8 => line.char_to_byte(character),
            Self::Utf16 => line.char_to_utf16_cu(character),
            Self::Utf32 => character,
        }
    }
}

/// A length as the protocol has it. A message is shorter than a number can be.
pub(crate) fn unsigned(length: usize) -> u32 {
    u32::try_from(length).unwrap_or(u32::MAX)
}

fn without_break(line: RopeSlice) -> RopeSlice {
    let mut end = line.len_chars();
    if end > 0 && line.char(end - 1) == '\n' {
        end -= 1;
    }
    if end > 0 && line.char(end - 1) == '\r' {
        end -= 1;
    }
    line.slice(..end)
}

#[cfg(test)]
mod tests {
    use super::*;
    use knotwright_grammar::{Columns, LineIndex};
    use proptest::prelude::*;

    const ALL: [(Encoding, Columns); 3] = [
        (Encoding::Utf8, Columns::Bytes),
        (Encoding::Utf16, Columns::Utf16),
        (Encoding::Utf32, Columns::Chars),
    ];

    #[test]
    fn utf_8_is_taken_where_it_is_offered() {
        let among = |names: &[&'static str]| {
            let offered: Vec<_> = names.iter().map(|name| PositionEncodingKind::new(name)).collect();
            Encoding::among(Some(&offered))
        };
        assert_eq!(among(&["utf-16", "utf-8"]), Encoding::Utf8);
        assert_eq!(among(&["utf-32", "utf-16"]), Encoding::Utf32);
        assert_eq!(among(&["utf-7"]), Encoding::Utf16);
        assert_eq!(Encoding::among(None), Encoding::Utf16);
    }

    #[test]
    fn lines_end_where_the_protocol_says_and_nowhere_else() {
        let text = Rope::from_str("a\u{b}b\u{c}c\u{85}d\u{2028}e\u{2029}f\rg\nh\r\ni");
        assert_eq!(text.len_lines(), 4);
    }

    proptest! {
        /// The grammar has a line index of its own, for reports; both must mean the same.
        #[test]
        fn places_agree_with_those_of_reports(
            text in "[ab\r\n\u{e9}\u{301}\u{1f600}\u{fffd}]{0,24}", line in 0..8u32, column in 0..12u32,
        ) {
            let (rope, index) = (Rope::from_str(&text), LineIndex::new(&text));
            for (encoding, columns) in ALL {
                let position = knotwright_grammar::Position { line, column };
                let offset = encoding.offset(&rope, Position { line, character: column });
                prop_assert_eq!(unsigned(offset), index.offset(&text, position, columns));
                for offset in 0..=text.len() {
                    let ours = encoding.position(&rope, offset);
                    let reported = index.position(&text, unsigned(offset), columns);
                    prop_assert_eq!((ours.line, ours.character), (reported.line, reported.column), "{}", offset);
                }
            }
        }
    }
}
