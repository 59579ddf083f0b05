//! Edits on a text.

use knotwright_grammar::Span;

/// A replacement in the file that is asked about.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct TextEdit {
    /// What is replaced; an empty span inserts.
    pub span: Span,
    /// What stands there instead.
    pub text: String,
}

/// `text` with all replacements done; they may be in any order but must not overlap. One that overlaps another or does
/// not fit the text is left out.
pub(crate) fn apply<'e>(text: &str, edits: impl IntoIterator<Item = (Span, &'e str)>) -> String {
    let mut edits: Vec<(Span, &str)> = edits.into_iter().collect();
    edits.sort_by_key(|(span, _)| *span);
    let mut out = String::with_capacity(text.len());
    let mut done = 0;
    for (span, new) in edits {
        let (start, end) = (span.start as usize, span.end as usize);
        if let (Some(before), Some(_)) = (text.get(done..start), text.get(start..end)) {
            out.push_str(before);
            out.push_str(new);
            done = end;
        }
    }
    out.push_str(&text[done..]);
    out
}

/// `text` with these edits done; see [`TextEdit`].
pub fn edited(text: &str, edits: &[TextEdit]) -> String {
    apply(text, edits.iter().map(|edit| (edit.span, edit.text.as_str())))
}
