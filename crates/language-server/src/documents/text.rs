//! One version of a text.

use super::{path_of, uri_of};
use crate::encoding::Encoding;
use knotwright_checker::Source;
use knotwright_workspace::{Fenced, MARKDOWN_ENDING};
use ropey::Rope;
use std::ops::Range;
use std::path::Path;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use tower_lsp::ls_types::{TextDocumentContentChangeEvent, Uri};

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
    source: OnceLock<Arc<Source>>,
    /// The text before, as it was parsed, until this one is.
    before: Mutex<Option<Arc<Source>>>,
}

impl Text {
    /// The text of a document that is opened.
    pub(crate) fn opened(uri: Uri, version: i32, text: &str) -> Self {
        let (path, rope) = (path_of(&uri), Rope::from_str(text));
        Self { uri, path, version: Some(version), rope, source: OnceLock::new(), before: Mutex::default() }
    }

    /// The text of a file that is not open; `None` if its name cannot be said.
    pub(crate) fn saved(source: Arc<Source>) -> Option<Self> {
        let (uri, path) = (uri_of(&source.path)?, source.path.clone());
        let rope = Rope::from_str(&source.text);
        Some(Self { uri, path, version: None, rope, source: source.into(), before: Mutex::default() })
    }

    /// Whether patterns stand in it among other things.
    pub(crate) fn is_markdown(&self) -> bool {
        Path::new(&self.path).extension().is_some_and(|ending| ending == MARKDOWN_ENDING)
    }

    /// The patterns fenced in it, each as a text of its own with the places of this one.
    pub(super) fn fenced(&self) -> impl Iterator<Item = (Range<usize>, Self)> {
        let fenced = knotwright_workspace::patterns(&String::from(&self.rope)).into_iter();
        fenced.map(|Fenced { place, text }| {
            let mut part = Self::opened(self.uri.clone(), 0, "");
            (part.version, part.rope) = (self.version, self.rope.clone());
            part.source = Arc::new(Source::new(self.path.clone(), text)).into();
            (place, part)
        })
    }

    /// The text, parsed; of Markdown there is nothing to parse but what is [fenced](Self::fenced) in it.
    pub(crate) fn source(&self) -> &Arc<Source> {
        self.source.get_or_init(|| {
            let text = self.pattern();
            Arc::new(match self.before() {
                Some(before) => Source::edited(before, text),
                None => Source::new(self.path.clone(), text),
            })
        })
    }

    fn pattern(&self) -> String {
        if self.is_markdown() { String::new() } else { String::from(&self.rope) }
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
        let (uri, path) = (self.uri.clone(), self.path.clone());
        Self { uri, path, version: Some(version), rope, source: OnceLock::new(), before: Mutex::default() }
    }
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
    use tower_lsp::ls_types::{Position, Range};

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
                let mut text = Arc::new(Text::opened("a:b".parse().unwrap(), 1, &start));
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
        let text = Text::opened("a:b".parse().unwrap(), 1, "ab\u{1f600}\ncd");
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
