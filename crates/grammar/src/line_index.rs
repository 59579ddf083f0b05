//! From byte offsets to lines and columns and back.

use knotwright_numbers::ToNumber;

/// A place as editors and people name it. Both count from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Position {
    /// The line.
    pub line: u32,
    /// The column, in the units asked for.
    pub column: u32,
}

/// What a column counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Columns {
    /// Bytes of UTF-8.
    Bytes,
    /// Code units of UTF-16: a character beyond U+FFFF counts two.
    Utf16,
    /// Characters (Unicode scalar values).
    Chars,
}

/// Where the lines of one text begin. A line ends with `\n`, `\r\n` or `\r`, as in the Language Server Protocol.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineIndex {
    starts: Vec<u32>,
}

impl LineIndex {
    /// Goes once through the text.
    pub fn new(text: &str) -> Self {
        let (bytes, mut starts) = (text.as_bytes(), vec![0]);
        if text.contains('\r') {
            let is_end = |&at: &usize| match bytes[at] {
                b'\n' => true,
                b'\r' => bytes.get(at + 1) != Some(&b'\n'),
                _ => false,
            };
            starts.extend((0..bytes.len()).filter(is_end).map(|at| at.to_u32() + 1));
        } else {
            // One sign is looked for many bytes at a time.
            starts.extend(text.match_indices('\n').map(|(at, _)| at.to_u32() + 1));
        }
        Self { starts }
    }

    /// How many lines there are: one more than line breaks.
    pub fn len(&self) -> usize {
        self.starts.len()
    }

    /// Never: the empty text has one line.
    pub fn is_empty(&self) -> bool {
        false
    }

    /// The line in which `offset` lies.
    pub fn line(&self, offset: u32) -> u32 {
        self.starts.partition_point(|start| *start <= offset).to_u32() - 1
    }

    /// The text of a line without its line break; empty if there is no such line.
    pub fn text<'t>(&self, text: &'t str, line: u32) -> &'t str {
        let (start, end) = self.bounds(text, line);
        text.get(start..end).unwrap_or("")
    }

    /// Line and column of an offset. One past the end means the end, one within a character its start,
    /// one within a line break the line's end.
    pub fn position(&self, text: &str, offset: u32, columns: Columns) -> Position {
        let line = self.line(offset.min(text.len().to_u32()));
        let (start, end) = self.bounds(text, line);
        let stop = floor(text, offset.to_usize().clamp(start, end));
        let before = text.get(start..stop).unwrap_or("");
        let column = match columns {
            Columns::Bytes => before.len(),
            Columns::Utf16 => before.chars().map(char::len_utf16).sum(),
            Columns::Chars => before.chars().count(),
        };
        Position { line, column: column.to_u32() }
    }

    /// The offset of a line and column. A line too far means the end of the text, a column too far the end of
    /// its line, a column within a character its start.
    pub fn offset(&self, text: &str, position: Position, columns: Columns) -> u32 {
        if position.line.to_usize() >= self.starts.len() {
            return text.len().to_u32();
        }
        let (start, _) = self.bounds(text, position.line);
        let line = self.text(text, position.line);
        let mut left = position.column.to_usize();
        for (at, character) in line.char_indices() {
            let width = match columns {
                Columns::Bytes => character.len_utf8(),
                Columns::Utf16 => character.len_utf16(),
                Columns::Chars => 1,
            };
            if left < width {
                return (start + at).to_u32();
            }
            left -= width;
        }
        (start + line.len()).to_u32()
    }

    /// The first byte of a line and the byte after its last, its line break left out.
    pub fn bounds(&self, text: &str, line: u32) -> (usize, usize) {
        let line = line.to_usize();
        let Some(start) = self.starts.get(line).map(|start| start.to_usize()) else {
            return (text.len(), text.len());
        };
        let end = self.starts.get(line + 1).map_or(text.len(), |next| next.to_usize());
        let content = text.get(start..end).unwrap_or("").trim_end_matches(['\n', '\r']);
        (start, start + content.len())
    }
}

/// The last boundary of a character at or before `offset`.
fn floor(text: &str, offset: usize) -> usize {
    (0..=offset.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0)
}
