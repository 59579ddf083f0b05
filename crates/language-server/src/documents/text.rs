//! One version of a text.

use super::{path_of, uri_of};
use crate::encoding::{Encoding, unsigned};
use knotwright_grammar::{Span, Splice};
use knotwright_numbers::ToNumber;
use knotwright_workspace::MARKDOWN_ENDING;
use ropey::Rope;
use std::borrow::Cow;
use std::cell::RefCell;
use std::path::Path;
use std::sync::Arc;
use tower_lsp::ls_types::{Position, Range, TextDocumentContentChangeEvent, TextDocumentItem, Uri};

/// What editors call Markdown.
const MARKDOWN_LANGUAGE: &str = "markdown";

thread_local! {
    /// Where texts are put together, one after another: room that was used before is sooner had than new one.
    static ROOM: RefCell<String> = const { RefCell::new(String::new()) };
}

/// A text as it was at one time.
#[derive(Debug)]
pub(crate) struct DocumentText {
    /// What the client calls it.
    pub(crate) uri: Uri,
    /// What findings and `use` call it.
    pub(crate) path: String,
    /// The version as the client counts; none for a file that is not open.
    pub(crate) version: Option<i32>,
    pub(crate) rope: Rope,
    form: TextForm,
    /// Of a pattern in Markdown without a word: the page, and where its first fence stands there.
    fence: Option<(Rope, Span)>,
}

/// What a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum TextForm {
    /// A pattern in a file of its own.
    Pattern,
    /// Markdown, with patterns in it.
    Page,
    /// A pattern in Markdown, from this line on. Lines that are flush have no marks of a quote or a list before them.
    Fenced { first_line: u32, is_flush: bool },
}

/// The lines of a pattern in a page.
#[derive(Debug, Clone, Copy)]
pub(super) struct FencedLines {
    /// The line of the page that is its first.
    pub(super) first_line: u32,
    /// Whether no marks of a quote or a list stand before them.
    pub(super) is_flush: bool,
    /// Where its first fence stands.
    pub(super) fence: Span,
}

impl DocumentText {
    /// The text of a document that is opened, in the language that the client says.
    pub(crate) fn opened(document: TextDocumentItem) -> Self {
        let TextDocumentItem { uri, language_id, version, text } = document;
        let path = path_of(&uri);
        let form = if language_id == MARKDOWN_LANGUAGE { TextForm::Page } else { form_of(&path) };
        Self { uri, path, version: Some(version), rope: Rope::from_str(&text), form, fence: None }
    }

    /// The text of a file that is not open; `None` if its name cannot be said.
    pub(crate) fn saved(path: &str, text: &str) -> Option<Self> {
        let (uri, form) = (uri_of(path)?, form_of(path));
        let (rope, path) = (Rope::from_str(text), path.to_owned());
        Some(Self { uri, path, version: None, rope, form, fence: None })
    }

    /// A pattern that stands there in this page.
    pub(super) fn fenced(&self, rope: Rope, stands: FencedLines) -> Self {
        let FencedLines { first_line, is_flush, fence } = stands;
        let is_blank = rope.chars().all(char::is_whitespace);
        let fence = is_blank.then(|| (self.rope.clone(), fence));
        Self { fence, ..self.with(rope, TextForm::Fenced { first_line, is_flush }) }
    }

    /// Where what is said of a pattern without a word is shown: at its first fence in the page.
    pub(super) fn fence_range(&self, encoding: Encoding) -> Option<Range> {
        let (page, Span { start, end }) = self.fence.as_ref()?;
        let [start, end] = [start, end].map(|byte| encoding.position(page, byte.to_usize()));
        Some(Range { start, end })
    }

    /// The pattern with an empty line for every line of the page before it.
    pub(super) fn in_place(&self) -> Self {
        let mut rope = self.rope.clone();
        rope.insert(0, &"\n".repeat(self.first_line().to_usize()));
        self.with(rope, TextForm::Pattern)
    }

    /// Another text of the same document and version.
    fn with(&self, rope: Rope, form: TextForm) -> Self {
        let (uri, path) = (self.uri.clone(), self.path.clone());
        Self { uri, path, version: self.version, rope, form, fence: None }
    }

    /// Whether it is Markdown, where patterns stand among other things.
    pub(crate) fn is_page(&self) -> bool {
        self.form == TextForm::Page
    }

    /// Whether it is a pattern that is in Markdown.
    pub(crate) fn is_fenced(&self) -> bool {
        matches!(self.form, TextForm::Fenced { .. })
    }

    /// Whether lines may come and go in it: those of a pattern in a quote or a list must begin with marks.
    pub(crate) fn is_free(&self) -> bool {
        !matches!(self.form, TextForm::Fenced { is_flush: false, .. })
    }

    /// The byte of a position of the document; the nearest that there is.
    pub(crate) fn offset(&self, encoding: Encoding, position: Position) -> u32 {
        let line = position.line.checked_sub(self.first_line());
        line.map_or(0, |line| unsigned(encoding.offset(&self.rope, Position { line, ..position })))
    }

    /// The position of a byte in the document.
    pub(crate) fn position(&self, encoding: Encoding, offset: u32) -> Position {
        let Position { line, character } = encoding.position(&self.rope, offset.to_usize());
        Position { line: line + self.first_line(), character }
    }

    /// The range of a span in the document.
    pub(crate) fn range(&self, encoding: Encoding, span: Span) -> Range {
        Range { start: self.position(encoding, span.start), end: self.position(encoding, span.end) }
    }

    /// A span with something in it, if there is anything on its line: where it is empty, the character before it, or
    /// else the one behind it.
    pub(super) fn widened(&self, span: Span) -> Span {
        let rope = &self.rope;
        if !span.is_empty() || span.end as usize > rope.len_bytes() {
            return span;
        }
        let at = rope.byte_to_char(span.start as usize);
        let is_break = |nth: usize| rope.get_char(nth).is_none_or(|sign| matches!(sign, '\n' | '\r'));
        let byte = |nth: usize| unsigned(rope.char_to_byte(nth));
        match at.checked_sub(1) {
            Some(before) if !is_break(before) => Span { start: byte(before), end: byte(at) },
            _ if !is_break(at) => Span { start: byte(at), end: byte(at + 1) },
            _ => span,
        }
    }

    /// The span of a range of the document; empty at its start if it ends before.
    pub(crate) fn span(&self, encoding: Encoding, range: Range) -> Span {
        let start = self.offset(encoding, range.start);
        Span { start, end: self.offset(encoding, range.end).max(start) }
    }

    /// Whether something of it is in a range of the document.
    pub(super) fn reaches(&self, range: Range) -> bool {
        let first = self.first_line();
        first <= range.end.line && range.start.line < first + unsigned(self.rope.len_lines())
    }

    /// How many lines it has.
    pub(crate) fn lines(&self) -> u32 {
        unsigned(self.rope.len_lines())
    }

    /// The line of the document that its first line is.
    fn first_line(&self) -> u32 {
        match self.form {
            TextForm::Fenced { first_line, .. } => first_line,
            TextForm::Pattern | TextForm::Page => 0,
        }
    }

    /// The text in one piece; of Markdown none, as nothing but what is fenced in it is a pattern.
    pub(super) fn pattern(&self) -> Arc<str> {
        if self.is_page() {
            return Arc::default();
        }
        put_together(self.rope.chunks())
    }

    /// The text in one piece, if it came of the text `before` by an edit: to put that together takes half as long as all pieces
    /// of a rope.
    pub(super) fn pattern_after(&self, before: &str, edit: Splice) -> Arc<str> {
        let put = Cow::from(self.rope.byte_slice(edit.start..edit.new_end));
        put_together([&before[..edit.start], &put, &before[edit.old_end..]].into_iter())
    }

    /// The text after these changes, one after another; and all of them as one edit, if they change anything.
    pub(crate) fn changed(
        &self,
        version: i32,
        changes: Vec<TextDocumentContentChangeEvent>,
        encoding: Encoding,
    ) -> (Self, Option<Splice>) {
        let (mut rope, mut edit) = (self.rope.clone(), None);
        for change in changes {
            if let Some(next) = apply(&mut rope, change, encoding) {
                edit = Some(edit.map_or(next, |edit: Splice| edit.then(next)));
            }
        }
        (Self { version: Some(version), ..self.with(rope, self.form) }, edit)
    }
}

fn put_together<'t>(pieces: impl Iterator<Item = &'t str>) -> Arc<str> {
    ROOM.with_borrow_mut(|room| {
        room.clear();
        room.extend(pieces);
        Arc::from(room.as_str())
    })
}

fn form_of(path: &str) -> TextForm {
    let ending = Path::new(path).extension();
    if ending.is_some_and(|ending| ending == MARKDOWN_ENDING) { TextForm::Page } else { TextForm::Pattern }
}

/// Makes a change, and says where that was; `None` if the text is the same. What a client replaces is compared with what
/// it writes there, so that one that sends lines, or always the whole text, is served as one that sends letters.
fn apply(rope: &mut Rope, change: TextDocumentContentChangeEvent, encoding: Encoding) -> Option<Splice> {
    let whole = Span::new(0, rope.len_bytes());
    let Span { start, end } = change.range.map_or(whole, |range| encoding.span(rope, range));
    let (start, end) = (start.to_usize(), end.to_usize());
    let edit = Splice::between(&Cow::from(rope.byte_slice(start..end)), &change.text, start)?;
    let put = &change.text[edit.start - start..edit.new_end - start];
    let (first, last) = (rope.byte_to_char(edit.start), rope.byte_to_char(edit.old_end));
    // Both are in the text, as places are clamped to it; should that ever fail, the text stays as it was.
    let mut edited = rope.clone();
    edited.try_remove(first..last).ok()?;
    edited.try_insert(first, put).ok()?;
    *rope = edited;
    Some(edit)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::Version;
    use knotwright_checker::Source;
    use proptest::prelude::*;

    /// A change as a client thinks of it: from one unit to another in its own encoding, over the whole text.
    #[derive(Debug, Clone)]
    struct TypedChange {
        from: usize,
        to: usize,
        text: String,
    }

    fn typed() -> impl Strategy<Value = TypedChange> {
        (0..40usize, 0..40usize, "[ab\r\n\u{e9}\u{301}\u{1f600}]{0,4}")
            .prop_map(|(one, other, text)| TypedChange { from: one.min(other), to: one.max(other), text })
    }

    /// Lines as the protocol has them, each with its line break, written down without ropes.
    fn lines(text: &[char]) -> Vec<Vec<char>> {
        let mut lines = vec![Vec::new()];
        let mut rest = text.iter().copied().peekable();
        while let Some(sign) = rest.next() {
            lines.last_mut().unwrap().push(sign);
            if sign == '\n' || (sign == '\r' && rest.peek() != Some(&'\n')) {
                lines.push(Vec::new());
            }
        }
        lines
    }

    fn width(encoding: Encoding, sign: char) -> usize {
        match encoding {
            Encoding::Utf8 => sign.len_utf8(),
            Encoding::Utf16 => sign.len_utf16(),
            Encoding::Utf32 => 1,
        }
    }

    /// The position before the `nth` character, and that number: one before it if that is within a line break.
    fn position(encoding: Encoding, text: &[char], nth: usize) -> (usize, Position) {
        let mut nth = nth.min(text.len());
        if nth > 0 && text[nth - 1] == '\r' && text.get(nth) == Some(&'\n') {
            nth -= 1;
        }
        let (mut line, mut left) = (0, nth);
        let lines = lines(text);
        while line + 1 < lines.len() && left >= lines[line].len() {
            left -= lines[line].len();
            line += 1;
        }
        let column: usize = lines[line][..left].iter().map(|sign| width(encoding, *sign)).sum();
        (nth, Position { line: unsigned(line), character: unsigned(column) })
    }

    fn opened(text: &str) -> DocumentText {
        let uri = "a:b".parse().unwrap();
        DocumentText::opened(TextDocumentItem::new(uri, "knotwright".to_owned(), 1, text.to_owned()))
    }

    fn event(range: Option<Range>, text: &str) -> TextDocumentContentChangeEvent {
        TextDocumentContentChangeEvent { range, range_length: None, text: text.to_owned() }
    }

    proptest! {
        #[test]
        fn any_edits_give_the_text_the_client_has(
            start in "[ab\r\n\u{e9}\u{301}\u{1f600}]{0,24}", edits in prop::collection::vec(typed(), 0..8),
        ) {
            for encoding in [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32] {
                let mut model: Vec<char> = start.chars().collect();
                let mut version = Version::new(opened(&start));
                for edit in &edits {
                    let (from, start) = position(encoding, &model, edit.from);
                    let (to, end) = position(encoding, &model, edit.to);
                    let change = event(Some(Range { start, end }), &edit.text);
                    let (text, edited) = version.text.changed(2, vec![change], encoding);
                    version = version.edited(text, edited);
                    model.splice(from..to, edit.text.chars());
                    let expected: String = model.iter().collect();
                    prop_assert_eq!(version.text.rope.to_string(), expected.as_str());
                    if edit.from % 2 == 0 {
                        let fresh = Source::new(version.text.path.as_str(), expected);
                        prop_assert_eq!(&**version.source(), &fresh);
                    }
                }
            }
        }
    }

    #[test]
    fn an_empty_place_is_widened_by_a_whole_character_of_its_line() {
        let text = opened("a\u{e9}\r\n\u{1f600}b\n\nc");
        let widened = |at| {
            let Span { start, end } = text.widened(Span { start: at, end: at });
            text.rope.byte_slice(start as usize..end as usize).to_string()
        };
        let found = [0, 1, 3, 5, 9, 11, 12, 13].map(widened);
        assert_eq!(found, ["a", "a", "\u{e9}", "\u{1f600}", "\u{1f600}", "", "c", "c"]);
        let far = Span { start: 99, end: 99 };
        assert_eq!(text.widened(far), far);
    }

    #[test]
    fn places_that_are_not_there_are_the_nearest_that_are() {
        let text = opened("ab\u{1f600}\ncd");
        let at = |line, column| Position { line, character: column };
        let change = |start, end, new: &str| {
            let changed = text.changed(2, vec![event(Some(Range { start, end }), new)], Encoding::Utf16);
            changed.0.rope.to_string()
        };
        assert_eq!(change(at(0, 99), at(0, 99), "!"), "ab\u{1f600}!\ncd", "behind the end of its line");
        assert_eq!(change(at(9, 0), at(9, 9), "!"), "ab\u{1f600}\ncd!", "below the last line");
        assert_eq!(change(at(0, 3), at(0, 4), "!"), "ab!\ncd", "from within a character");
        assert_eq!(change(at(1, 1), at(0, 1), "!"), "ab\u{1f600}\nc!d", "the wrong way round");
        let (whole, _) = text.changed(2, vec![event(None, "new")], Encoding::Utf16);
        assert_eq!(whole.rope.to_string(), "new");
    }

    #[test]
    fn however_much_a_client_sends_only_what_differs_is_edited() {
        let text = opened("both {\n  \u{e9} 3\n}\n");
        let line =
            Range { start: Position { line: 1, character: 0 }, end: Position { line: 2, character: 0 } };
        let third = Splice { start: 12, old_end: 13, new_end: 14 };
        for change in [event(Some(line), "  \u{e9} 14\n"), event(None, "both {\n  \u{e9} 14\n}\n")] {
            assert_eq!(text.changed(2, vec![change], Encoding::Utf16).1, Some(third));
        }
        let typed = |column, new: &str| {
            let at = Position { line: 1, character: column };
            event(Some(Range { start: at, end: at }), new)
        };
        let twice = text.changed(2, vec![typed(2, "x"), typed(5, "y")], Encoding::Utf16).1;
        assert_eq!(twice, Some(Splice { start: 9, old_end: 12, new_end: 14 }), "one edit covers both");
        assert_eq!(text.changed(2, vec![typed(2, "")], Encoding::Utf16).1, None);
    }
}
