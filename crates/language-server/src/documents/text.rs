//! One version of a text.

use super::{path_of, uri_of};
use crate::encoding::Encoding;
use knotwright_checker::Source;
use knotwright_grammar::Span;
use knotwright_workspace::MARKDOWN_ENDING;
use ropey::Rope;
use std::cell::RefCell;
use std::path::Path;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use tower_lsp::ls_types::{Position, Range, TextDocumentContentChangeEvent, Uri};

/// What editors call Markdown.
const MARKDOWN_LANGUAGE: &str = "markdown";

thread_local! {
    /// Where texts are put together, one after another: room that was used before is sooner had than new one.
    static ROOM: RefCell<String> = const { RefCell::new(String::new()) };
}

/// A text as it was at one time. What was read from it is kept with it.
#[derive(Debug)]
pub(crate) struct Text {
    /// What the client calls it.
    pub(crate) uri: Uri,
    /// What findings and `use` call it.
    pub(crate) path: String,
    /// The version as the client counts; none for a file that is not open.
    pub(crate) version: Option<i32>,
    pub(crate) rope: Rope,
    form: Form,
    source: OnceLock<Arc<Source>>,
    /// The text before, as it was parsed, until this one is.
    before: Mutex<Option<Arc<Source>>>,
}

/// What a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    /// A pattern in a file of its own.
    Pattern,
    /// Markdown, with patterns in it.
    Page,
    /// A pattern in Markdown, from this line on. Lines that are flush have no marks of a quote or a list before them.
    Fenced { first_line: u32, is_flush: bool },
}

impl Text {
    /// The text of a document that is opened, in the language that the client says.
    pub(crate) fn opened(uri: Uri, version: i32, (language, text): (&str, &str)) -> Self {
        let path = path_of(&uri);
        let form = if language == MARKDOWN_LANGUAGE { Form::Page } else { form_of(&path) };
        Self::of((uri, path, Some(version)), Rope::from_str(text), form)
    }

    /// The text of a file that is not open; `None` if its name cannot be said.
    pub(crate) fn saved(path: &str, text: &str) -> Option<Self> {
        Some(Self::of((uri_of(path)?, path.to_owned(), None), Rope::from_str(text), form_of(path)))
    }

    /// A pattern in this page, whose first line is this one of the page.
    pub(super) fn fenced(&self, rope: Rope, first_line: u32, is_flush: bool) -> Self {
        let named = (self.uri.clone(), self.path.clone(), self.version);
        Self::of(named, rope, Form::Fenced { first_line, is_flush })
    }

    /// The same with an empty line for every line of the page before it.
    pub(super) fn in_place(&self) -> Self {
        let mut rope = self.rope.clone();
        rope.insert(0, &"\n".repeat(self.first_line() as usize));
        Self::of((self.uri.clone(), self.path.clone(), self.version), rope, Form::Pattern)
    }

    fn of((uri, path, version): (Uri, String, Option<i32>), rope: Rope, form: Form) -> Self {
        Self { uri, path, version, rope, form, source: OnceLock::new(), before: Mutex::default() }
    }

    /// Whether it is Markdown, where patterns stand among other things.
    pub(crate) fn is_page(&self) -> bool {
        self.form == Form::Page
    }

    /// Whether it is a pattern that stands in Markdown.
    pub(crate) fn is_fenced(&self) -> bool {
        matches!(self.form, Form::Fenced { .. })
    }

    /// Whether lines may come and go in it: those of a pattern in a quote or a list must begin with marks.
    pub(crate) fn is_free(&self) -> bool {
        !matches!(self.form, Form::Fenced { is_flush: false, .. })
    }

    /// The byte of a position of the document; the nearest that there is.
    pub(crate) fn offset(&self, encoding: Encoding, position: Position) -> u32 {
        let line = position.line.checked_sub(self.first_line());
        line.map_or(0, |line| encoding.offset(&self.rope, Position { line, ..position }) as u32)
    }

    /// The position of a byte in the document.
    pub(crate) fn position(&self, encoding: Encoding, offset: u32) -> Position {
        let Position { line, character } = encoding.position(&self.rope, offset as usize);
        Position { line: line + self.first_line(), character }
    }

    /// The range of a span in the document.
    pub(crate) fn range(&self, encoding: Encoding, span: Span) -> Range {
        Range { start: self.position(encoding, span.start), end: self.position(encoding, span.end) }
    }

    /// The span of a range of the document; empty at its start if it ends before.
    pub(crate) fn span(&self, encoding: Encoding, range: Range) -> Span {
        let start = self.offset(encoding, range.start);
        Span { start, end: self.offset(encoding, range.end).max(start) }
    }

    /// Whether something of it stands in a range of the document.
    pub(super) fn reaches(&self, range: Range) -> bool {
        let first = self.first_line();
        first <= range.end.line && range.start.line < first + self.rope.len_lines() as u32
    }

    /// The line of the document that its first line is.
    fn first_line(&self) -> u32 {
        match self.form {
            Form::Fenced { first_line, .. } => first_line,
            Form::Pattern | Form::Page => 0,
        }
    }

    /// The text, parsed; of Markdown there is nothing to parse but what is fenced in it.
    pub(crate) fn source(&self) -> &Arc<Source> {
        self.source.get_or_init(|| {
            let text = self.pattern();
            Arc::new(match self.before() {
                Some(before) => Source::edited(before, text),
                None => Source::new(self.path.clone(), text),
            })
        })
    }

    /// The text, parsed, if somebody has parsed it.
    pub(super) fn parsed(&self) -> Option<&Arc<Source>> {
        self.source.get()
    }

    fn pattern(&self) -> Arc<str> {
        if self.is_page() {
            return Arc::default();
        }
        ROOM.with_borrow_mut(|room| {
            room.clear();
            room.extend(self.rope.chunks());
            Arc::from(room.as_str())
        })
    }

    fn before(&self) -> Option<Arc<Source>> {
        self.before.lock().unwrap_or_else(PoisonError::into_inner).take()
    }

    /// From now on this text is of use only to those who have it already: the next one is read with what was parsed of
    /// it.
    pub(crate) fn hand_on(text: Arc<Self>, next: &Self) {
        let parsed = match Arc::try_unwrap(text) {
            Ok(mut text) => text.source.take().or_else(|| text.before()),
            Err(text) => text.source.get().cloned(),
        };
        *next.before.lock().unwrap_or_else(PoisonError::into_inner) = parsed;
    }

    /// This text is the same as `other`, elsewhere in the page or in another version of it.
    pub(super) fn share(&self, other: &Self) {
        if let Some(source) = other.source.get() {
            let _ = self.source.set(Arc::clone(source));
        }
    }

    /// The text after these changes, one after another.
    pub(crate) fn changed(
        &self,
        version: i32,
        changes: Vec<TextDocumentContentChangeEvent>,
        encoding: Encoding,
    ) -> Self {
        let mut rope = self.rope.clone();
        for change in changes {
            apply(&mut rope, change, encoding);
        }
        Self::of((self.uri.clone(), self.path.clone(), Some(version)), rope, self.form)
    }
}

fn form_of(path: &str) -> Form {
    let ending = Path::new(path).extension();
    if ending.is_some_and(|ending| ending == MARKDOWN_ENDING) { Form::Page } else { Form::Pattern }
}

fn apply(rope: &mut Rope, change: TextDocumentContentChangeEvent, encoding: Encoding) {
    let Some(range) = change.range else {
        *rope = Rope::from_str(&change.text);
        return;
    };
    let span = encoding.span(rope, range);
    let (start, end) = (rope.byte_to_char(span.start as usize), rope.byte_to_char(span.end as usize));
    // Both lie in the text, as places are clamped to it; should that ever fail, the text stays as it was.
    if rope.try_remove(start..end).is_ok() {
        let _ = rope.try_insert(start, &change.text);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// A change as a client thinks of it: from one unit to another in its own encoding, over the whole text.
    #[derive(Debug, Clone)]
    struct Typed {
        from: usize,
        to: usize,
        text: String,
    }

    fn typed() -> impl Strategy<Value = Typed> {
        (0..40usize, 0..40usize, "[ab\r\n\u{e9}\u{301}\u{1f600}]{0,4}").prop_map(|(one, other, text)| Typed {
            from: one.min(other),
            to: one.max(other),
            text,
        })
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
        (nth, Position { line: line as u32, character: column as u32 })
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
                let mut text = Arc::new(Text::opened("a:b".parse().unwrap(), 1, ("knotwright", &start)));
                for edit in &edits {
                    let (from, start) = position(encoding, &model, edit.from);
                    let (to, end) = position(encoding, &model, edit.to);
                    let change = event(Some(Range { start, end }), &edit.text);
                    let next = Arc::new(text.changed(2, vec![change], encoding));
                    Text::hand_on(text, &next);
                    text = next;
                    model.splice(from..to, edit.text.chars());
                    let told: String = model.iter().collect();
                    prop_assert_eq!(text.rope.to_string(), told.as_str());
                    if edit.from % 2 == 0 {
                        prop_assert_eq!(&**text.source(), &Source::new(text.path.as_str(), told));
                    }
                }
            }
        }
    }

    #[test]
    fn places_that_are_not_there_are_the_nearest_that_are() {
        let text = Text::opened("a:b".parse().unwrap(), 1, ("knotwright", "ab\u{1f600}\ncd"));
        let at = |line, column| Position { line, character: column };
        let change = |start, end, new: &str| {
            let changed = text.changed(2, vec![event(Some(Range { start, end }), new)], Encoding::Utf16);
            changed.rope.to_string()
        };
        assert_eq!(change(at(0, 99), at(0, 99), "!"), "ab\u{1f600}!\ncd", "behind the end of its line");
        assert_eq!(change(at(9, 0), at(9, 9), "!"), "ab\u{1f600}\ncd!", "below the last line");
        assert_eq!(change(at(0, 3), at(0, 4), "!"), "ab!\ncd", "from within a character");
        assert_eq!(change(at(1, 1), at(0, 1), "!"), "ab\u{1f600}\nc!d", "the wrong way round");
        let whole = text.changed(2, vec![event(None, "new")], Encoding::Utf16);
        assert_eq!(whole.rope.to_string(), "new");
    }
}
