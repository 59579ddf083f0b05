//! Patterns within a Markdown document. Each is a snapshot of its own whose places are those of the document, so that
//! whoever answers need not know where a pattern stands.

use super::{Known, Snapshot};
use std::sync::Arc;
use tower_lsp::ls_types::{Position, Range};

impl Snapshot {
    /// The patterns in the document: one, or those that are fenced in Markdown.
    pub(crate) fn patterns(&self) -> Vec<Self> {
        if !self.text.is_markdown() {
            return vec![self.with(&self.text, &self.known)];
        }
        self.text.fenced().map(|(_, part)| self.with(&Arc::new(part), &Arc::default())).collect()
    }

    /// The pattern at a position; in Markdown there may be none.
    pub(crate) fn at(&self, position: Position) -> Option<Self> {
        if !self.text.is_markdown() {
            return Some(self.with(&self.text, &self.known));
        }
        let offset = self.offset(position) as usize;
        let mut fenced = self.text.fenced();
        // Behind its last line, where the closing fence stands, it is over.
        let here = fenced.find(|(place, part)| place.start <= offset && offset <= part.source().text.len());
        here.map(|(_, part)| self.with(&Arc::new(part), &Arc::default()))
    }

    /// The span of a range, as far as the pattern goes.
    pub(crate) fn span_within(&self, range: Range) -> knotwright_grammar::Span {
        let (span, end) = (self.span(range), self.source().text.len() as u32);
        knotwright_grammar::Span { start: span.start.min(end), end: span.end.min(end) }
    }

    fn with(&self, text: &Arc<super::Text>, known: &Arc<Known>) -> Self {
        Self { text: Arc::clone(text), known: Arc::clone(known), setting: self.setting.clone() }
    }
}
