//! Line ends within white space.

use knotwright_grammar::Span;
use knotwright_numbers::ToNumber;

/// The line ends between two pieces: `\n`, `\r\n` or `\r`, each as written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Breaks {
    /// Ends the line of the piece before.
    pub(crate) first: Span,
    /// Ends the first blank line, if that can be seen: `\n` right after `\r` would be one line end with it.
    pub(crate) second: Option<Span>,
    /// Where the line of the piece after begins.
    pub(crate) end: u32,
}

impl Breaks {
    /// The line ends in `gap`; `None` if it is within one line.
    pub(crate) fn find(text: &str, gap: Span) -> Option<Self> {
        let first = next(text, gap)?;
        let second = next(text, Span { start: first.end, end: gap.end });
        let second = second.filter(|second| (first.of(text), second.of(text)) != ("\r", "\n"));
        let last = gap.of(text).rfind(['\n', '\r'])?;
        Some(Self { first, second, end: gap.start + last.to_u32() + 1 })
    }
}

/// The first line end in `span`.
fn next(text: &str, span: Span) -> Option<Span> {
    let written = span.of(text);
    let at = written.find(['\n', '\r'])?;
    let length = if written[at..].starts_with("\r\n") { 2 } else { 1 };
    let start = span.start.to_usize() + at;
    Some(Span::new(start, start + length))
}

/// The first line end of the file, for the line ends that the formatter adds.
pub(crate) fn line_end(text: &str) -> &str {
    next(text, Span::new(0, text.len())).map_or("\n", |span| span.of(text))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn find(text: &str) -> Option<Breaks> {
        Breaks::find(text, Span::new(0, text.len()))
    }

    #[test]
    fn every_kind_of_line_end() {
        let breaks = find(" \r\n \n\r  ").unwrap();
        assert_eq!((breaks.first, breaks.second, breaks.end), (Span::new(1, 3), Some(Span::new(4, 5)), 6));
        assert_eq!(find("\n  ").unwrap().second, None);
        assert_eq!(find("\r \n").unwrap().second, None);
        assert_eq!(find("   "), None);
    }

    #[test]
    fn the_first_line_end_is_the_file_s() {
        assert_eq!(line_end("a\r\nb\n"), "\r\n");
        assert_eq!(line_end("a"), "\n");
    }
}
