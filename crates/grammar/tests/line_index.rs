//! Offsets to lines and columns and back.

use knotwright_grammar::{Columns, LineIndex, Position};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;

fn at(line: u32, column: u32) -> Position {
    Position { line, column }
}

/// The example of the Language Server Protocol 3.17, section "Position": in `a𐐀b` the offset of `a` is 0, of
/// `𐐀` 1 and of `b` 3 in UTF-16; and its three line ends, section "Text Documents".
#[test]
fn as_the_protocol_has_it() {
    let text = "a𐐀b\nc\r\nd\re";
    let index = LineIndex::new(text);
    let b = text.find('b').unwrap().to_u32();
    assert_eq!(index.position(text, b, Columns::Utf16), at(0, 3));
    assert_eq!(index.position(text, b, Columns::Chars), at(0, 2));
    assert_eq!(index.position(text, b, Columns::Bytes), at(0, 5));
    let lines: Vec<&str> = (0..4).map(|line| index.text(text, line)).collect();
    assert_eq!((index.len(), lines), (4, vec!["a𐐀b", "c", "d", "e"]));
}

#[test]
fn other_breaks_are_no_line_ends() {
    let text = "a\u{b}b\u{c}c\u{85}d\u{2028}e\u{2029}f";
    assert_eq!(LineIndex::new(text).len(), 1);
}

#[test]
fn what_lies_outside_is_moved_inside() {
    let text = "é𐐀\r\nb";
    let index = LineIndex::new(text);
    assert_eq!(index.position(text, 1, Columns::Utf16), at(0, 0));
    assert_eq!(index.position(text, 7, Columns::Utf16), at(0, 3), "within the line break");
    assert_eq!(index.position(text, 99, Columns::Chars), at(1, 1));
    assert_eq!(index.offset(text, at(0, 2), Columns::Utf16), 2, "within a pair");
    assert_eq!(index.offset(text, at(0, 99), Columns::Bytes), 6);
    assert_eq!(index.offset(text, at(9, 0), Columns::Chars), 9);
    let last = at(u32::MAX, u32::MAX);
    assert_eq!(index.offset(text, last, Columns::Chars), 9);
    assert_eq!(index.text(text, 9), "");
}

#[test]
fn the_empty_text_has_one_line() {
    let index = LineIndex::new("");
    assert_eq!((index.len(), index.is_empty()), (1, false));
    assert_eq!(index.position("", 5, Columns::Utf16), at(0, 0));
    assert_eq!(index.offset("", at(0, 5), Columns::Utf16), 0);
}

/// How much a character adds to a column.
type Width = fn(char) -> usize;

/// Line and column, found by going through the text from its start.
fn naive(text: &str, offset: usize, width: Width) -> Position {
    let before = text[..offset].replace("\r\n", "\n").replace('\r', "\n");
    let line = before.matches('\n').count();
    let column = before.rsplit('\n').next().unwrap_or("").chars().map(width).sum::<usize>();
    at(line.to_u32(), column.to_u32())
}

proptest! {
    #[test]
    fn there_and_back(text in "[a\u{e9}\u{10400}\r\n]{0,40}") {
        let index = LineIndex::new(&text);
        let units: [(Columns, Width); 3] =
            [(Columns::Bytes, char::len_utf8), (Columns::Utf16, char::len_utf16), (Columns::Chars, |_| 1)];
        let in_break = |offset: usize| text[..offset].ends_with('\r') && text[offset..].starts_with('\n');
        for (offset, _) in text.char_indices().filter(|(offset, _)| !in_break(*offset)) {
            for (columns, width) in units {
                let position = index.position(&text, offset.to_u32(), columns);
                prop_assert_eq!(position, naive(&text, offset, width));
                prop_assert_eq!(index.offset(&text, position, columns), offset.to_u32());
            }
        }
    }

    #[test]
    fn nothing_panics(text in ".{0,20}", other in ".{0,20}", offset: u32, line: u32, column: u32) {
        let index = LineIndex::new(&text);
        for columns in [Columns::Bytes, Columns::Utf16, Columns::Chars] {
            for text in [&text, &other] {
                index.position(text, offset % 64, columns);
                index.position(text, offset, columns);
                index.offset(text, at(line % 8, column % 64), columns);
                index.offset(text, at(line, column), columns);
            }
        }
    }
}
