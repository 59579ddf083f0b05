//! A pattern in a fenced block of Markdown, and where it is in there.

use std::ops::Range;

/// What fences a block.
const FENCES: [&str; 2] = ["```", "~~~"];

/// A pattern in a fenced block.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fenced {
    /// Where it is in the Markdown, from the line below the first fence.
    pub place: Range<usize>,
    /// Its lines, with a space for every byte that belongs to the quote or the list they are in: a place in it is as
    /// far from its start as in the Markdown from the start of `place`.
    pub text: String,
    /// The line of the first fence, from the fence on and without its end: what is said of a pattern of no words is said
    /// there.
    pub fence: Range<usize>,
    /// Where each piece of it is in the Markdown.
    pieces: Vec<Range<usize>>,
}

/// A pattern without the marks of the quote or the list it is in.
#[derive(Debug)]
pub struct Alone<'m> {
    /// The pattern.
    pub text: String,
    markdown: &'m str,
    /// The marks of a line that is not blank: the longest of all.
    marks: &'m str,
    /// Its lines, and last what comes after them.
    lines: Vec<FencedLine>,
}

/// A line of a pattern that stands alone.
#[derive(Debug)]
struct FencedLine {
    start: usize,
    /// What stands before it in the Markdown.
    marks: Range<usize>,
}

impl Fenced {
    /// The block at `block`, fences and all, of which `pieces` are the pattern.
    pub(crate) fn new(markdown: &str, block: Range<usize>, pieces: &[Range<usize>]) -> Self {
        let first = first_line(&markdown[block.clone()]);
        let start = block.start + first.len();
        let fence = block.start..block.start + first.trim_end_matches(['\r', '\n']).len();
        let text = blanked(markdown, start, pieces);
        Self { place: start..block.end, text, fence, pieces: pieces.to_vec() }
    }

    /// Which bytes of the Markdown belong to the pattern, in order; all others are spaces in `text`.
    pub fn pieces(&self) -> &[Range<usize>] {
        &self.pieces
    }

    /// The pattern after as much blank text as stands before it in `markdown`: what is said about a place in it holds
    /// for the same place in there. For one pattern of a page only: all of them take the square of its length.
    pub fn in_place(&self, markdown: &str) -> String {
        let mut text = String::with_capacity(self.place.start + self.text.len());
        blank(&markdown[..self.place.start], &mut text);
        text + &self.text
    }

    /// Whether the last of some marks is a tab that belongs to the line as well: the library that reads the Markdown gives
    /// what is left of it as a piece without a place.
    fn parts_tab(&self, markdown: &str, marks: &Range<usize>) -> bool {
        let after = self.pieces.partition_point(|piece| piece.start < marks.end);
        let is_left = self.pieces.get(after).is_some_and(|piece| *piece == (marks.end..marks.end));
        is_left && markdown[marks.clone()].ends_with('\t')
    }

    /// The pattern as it would be in a file.
    pub fn alone<'m>(&self, markdown: &'m str) -> Alone<'m> {
        let end = self.place.start + self.text.len();
        let text = String::with_capacity(self.text.len());
        let mut alone = Alone { text, markdown, marks: "", lines: Vec::new() };
        let mut pieces = self.pieces.iter().filter(|piece| !piece.is_empty()).peekable();
        let mut start = self.place.start;
        while start < end {
            let line = start..start + first_line(&markdown[start..end]).len();
            let content = line.start + markdown[line.clone()].trim_end_matches(['\r', '\n']).len();
            while pieces.next_if(|piece| piece.end <= line.start).is_some() {}
            let first = pieces.peek().map_or(content, |piece| piece.start);
            let mut marks = line.start..first.clamp(line.start, content);
            let rest = markdown[marks.end..].trim_start();
            if self.parts_tab(markdown, &marks) && FENCES.iter().any(|fence| rest.starts_with(fence)) {
                marks.end -= 1;
            }
            alone.lines.push(FencedLine { start: alone.text.len(), marks: marks.clone() });
            alone.text.push_str(&markdown[marks.end..line.end]);
            if alone.marks.len() < marks.len() {
                alone.marks = &markdown[marks];
            }
            start = line.end;
        }
        alone.lines.push(FencedLine { start: alone.text.len(), marks: end..end });
        alone
    }
}

impl Alone<'_> {
    /// A change of the pattern as one of the Markdown: each line that comes gets marks.
    pub fn placed(&self, span: Range<usize>, new: &str) -> (Range<usize>, String) {
        let (first, last) = (self.line(span.start), self.line(span.end));
        // Nothing of the first line stays, not even its marks, which may be those of a blank line.
        let is_whole = span.start == first.start && first.start != last.start;
        let start = if is_whole { first.marks.start } else { self.outer(span.start) };
        let mut text = String::with_capacity(new.len());
        let (mut rest, mut is_begun) = (new, is_whole);
        loop {
            let line = first_line(rest);
            let is_last = !line.ends_with('\n');
            if is_begun {
                text.push_str(self.marks_of(line, is_last.then_some(last)));
            }
            text.push_str(line);
            if is_last {
                break;
            }
            (rest, is_begun) = (&rest[line.len()..], true);
        }
        (start..self.outer(span.end), text)
    }

    /// The marks of a line that comes; `before` is the one whose rest follows it.
    fn marks_of(&self, line: &str, before: Option<&FencedLine>) -> &str {
        match before {
            Some(before) if line.trim().is_empty() => &self.markdown[before.marks.clone()],
            // Spaces of the pattern's own stay behind the marks, or they would be taken for these.
            None if line.trim_end_matches(['\r', '\n']).is_empty() => self.marks.trim_end(),
            _ => self.marks,
        }
    }

    fn line(&self, offset: usize) -> &FencedLine {
        let after = self.lines.partition_point(|line| line.start <= offset);
        &self.lines[after.saturating_sub(1)]
    }

    /// Where a place is in the Markdown.
    fn outer(&self, offset: usize) -> usize {
        let line = self.line(offset);
        line.marks.end + (offset - line.start)
    }
}

/// The first line of `text`, with its end. A carriage return alone ends no line of a fenced block, as the library has it
/// that reads the Markdown: what stands behind it has no marks of a quote or a list.
fn first_line(text: &str) -> &str {
    &text[..text.find('\n').map_or(text.len(), |end| end + 1)]
}

/// `text` from `start` up to the end of the last of `kept`, with spaces for every byte that is neither in them nor ends
/// a line.
fn blanked(text: &str, start: usize, kept: &[Range<usize>]) -> String {
    let end = kept.last().map_or(start, |range| range.end);
    let mut out = String::with_capacity(end.saturating_sub(start));
    for range in kept {
        blank(text.get(start + out.len()..range.start).unwrap_or_default(), &mut out);
        out.push_str(text.get(range.clone()).unwrap_or_default());
    }
    out
}

fn blank(text: &str, out: &mut String) {
    out.extend(text.bytes().map(|byte| if matches!(byte, b'\r' | b'\n') { char::from(byte) } else { ' ' }));
}

#[cfg(test)]
mod tests {
    use crate::fenced_patterns;

    const QUOTED: &str = "\u{e9}\n\n> ```knot\n> a  b\n>\n>   c\n> ```\n\n1. x\n\n   ```knot\n   d\n   ```\n";

    #[test]
    fn a_pattern_alone_has_no_marks() {
        let alone: Vec<String> =
            fenced_patterns(QUOTED).iter().map(|fenced| fenced.alone(QUOTED).text).collect();
        assert_eq!(alone, ["a  b\n\n  c\n", "d\n"]);
        let crlf = QUOTED.replace('\n', "\r\n");
        assert_eq!(fenced_patterns(&crlf)[0].alone(&crlf).text, "a  b\r\n\r\n  c\r\n");
    }

    /// A tab stands for a space of its own here, which keeps the fence from being one.
    #[test]
    fn what_only_a_tab_keeps_from_ending_the_block_keeps_its_tab() {
        for page in ["1. x\n   ```knot\n   a\n  \t   ```\n", "1. x\n   ~~~knot\n   a\n \t   ~~~\n   b\n"] {
            let alone = fenced_patterns(page).remove(0).alone(page);
            assert!(alone.text.starts_with("a\n\t   "), "{:?}", alone.text);
            let (place, put) = alone.placed(0..alone.text.len(), &alone.text);
            let again = [&page[..place.start], &put, &page[place.end..]].concat();
            assert_eq!(fenced_patterns(&again).remove(0).alone(&again).text, alone.text);
        }
    }

    #[test]
    fn what_is_changed_in_it_is_changed_in_the_page() {
        let fenced = fenced_patterns(QUOTED).remove(0);
        let alone = fenced.alone(QUOTED);
        let changed = |span, new: &str| {
            let (place, text) = alone.placed(span, new);
            [&QUOTED[..place.start], &*text, &QUOTED[place.end..]].concat()
        };
        assert_eq!(changed(1..3, " "), QUOTED.replace("a  b", "a b"));
        assert_eq!(changed(4..8, "\n"), QUOTED.replace(" b\n>\n>   c", " b\n> c"));
        assert_eq!(changed(8..8, "x\n\n"), QUOTED.replace(">   c", ">   x\n>\n> c"));
        assert_eq!(
            changed(5..6, ""),
            QUOTED.replace(">\n>   c", ">   c"),
            "a blank line goes with its marks"
        );
        assert_eq!(changed(9..10, "\n"), QUOTED, "the last line is followed by the fence");
        assert_eq!(changed(1..3, "\r"), QUOTED.replace("a  b", "a\rb"), "the line goes on");
        assert_eq!(changed(1..3, "\r\n"), QUOTED.replace("a  b", "a\r\n> b"));
    }
}
