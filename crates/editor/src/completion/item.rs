//! One proposal, and the list of them.

use knotwright_grammar::Span;
use std::collections::HashSet;

/// Something that may be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Completion {
    /// What is shown in the list.
    pub label: String,
    /// What is replaced: the word under the cursor.
    pub span: Span,
    /// What is there instead.
    pub insert: String,
    /// `insert` with places to fill in, `${1:name}` and `$0`, for editors that know such.
    pub snippet: Option<String>,
    /// A few words after the label.
    pub detail: String,
    /// More about it.
    pub documentation: String,
    /// What it is.
    pub kind: CompletionKind,
}

/// What a proposal is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CompletionKind {
    /// The beginning of a statement.
    Statement,
    /// Another word of the notation.
    Word,
    /// A place or a range of strands.
    Place,
    /// A number of knots or strands.
    Number,
    /// A thread.
    Thread,
    /// A motif.
    Motif,
    /// A parameter or a number that counts.
    Variable,
    /// A label of a strand.
    Label,
    /// A color.
    Color,
    /// A unit of length.
    Unit,
    /// A list of strands.
    List,
    /// A text in quotes.
    Text,
    /// A file.
    File,
}

/// Proposals as they are gathered, the likeliest first; each label once.
pub(super) struct Items {
    span: Span,
    list: Vec<Completion>,
    labels: HashSet<String>,
}

impl Items {
    /// Proposals that replace `span`.
    pub(super) fn new(span: Span) -> Self {
        Self { span, list: Vec::new(), labels: HashSet::new() }
    }

    /// Inserts just its label.
    pub(super) fn add(&mut self, label: &str, detail: impl Into<String>, kind: CompletionKind) {
        let item = self.item(label, kind);
        self.push(Completion { detail: detail.into(), ..item });
    }

    /// A word of the notation.
    pub(super) fn word(&mut self, label: &str, detail: &str) {
        self.add(label, detail, CompletionKind::Word);
    }

    /// Inserts something with places to fill in.
    pub(super) fn snippet(&mut self, label: &str, snippet: &str, detail: &str, kind: CompletionKind) {
        self.push(Completion {
            insert: plain(snippet),
            snippet: Some(snippet.to_owned()),
            detail: detail.to_owned(),
            ..self.item(label, kind)
        });
    }

    /// Replaces something else than the word under the cursor.
    pub(super) fn replace(&mut self, label: &str, span: Span, insert: String, kind: CompletionKind) {
        self.push(Completion { span, insert, ..self.item(label, kind) });
    }

    /// Says more about the proposal before.
    pub(super) fn document(&mut self, text: impl Into<String>) {
        if let Some(last) = self.list.last_mut() {
            last.documentation = text.into();
        }
    }

    /// A proposal that says nothing more than its label and inserts it.
    fn item(&self, label: &str, kind: CompletionKind) -> Completion {
        Completion {
            label: label.to_owned(),
            span: self.span,
            insert: label.to_owned(),
            snippet: None,
            detail: String::new(),
            documentation: String::new(),
            kind,
        }
    }

    fn push(&mut self, item: Completion) {
        if self.labels.insert(item.label.clone()) {
            self.list.push(item);
        }
    }

    pub(super) fn done(self) -> Vec<Completion> {
        self.list
    }
}

/// A snippet with the texts of its places, as it is for editors that know no snippets.
fn plain(snippet: &str) -> String {
    let mut text = String::with_capacity(snippet.len());
    let mut rest = snippet;
    while let Some(at) = rest.find('$') {
        text.push_str(&rest[..at]);
        rest = &rest[at + 1..];
        if let Some(inner) = rest.strip_prefix('{') {
            let end = inner.find('}').unwrap_or(inner.len());
            text.push_str(inner[..end].split_once(':').map_or("", |(_, default)| default));
            rest = inner.get(end + 1..).unwrap_or("");
        } else {
            rest = rest.trim_start_matches(|digit: char| digit.is_ascii_digit());
        }
    }
    text + rest
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn a_snippet_without_its_places() {
        assert_eq!(plain("fan(${1:size}, ${2})$0"), "fan(size, )");
        assert_eq!(plain("{\n  $0\n}"), "{\n  \n}");
        assert_eq!(plain("plain"), "plain");
    }
}
