//! Links to the files that `use` names.

use crate::Checked;
use knotwright_grammar::Span;

/// A path that leads to a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileLink {
    /// The path, without its quotes.
    pub span: Span,
    /// The path of the file it leads to, as its source has it.
    pub target: String,
}

/// The links of a file; a path that leads nowhere is none.
pub fn document_links(checked: &Checked) -> Vec<FileLink> {
    let link = |used: &crate::UsedFile| {
        let span = Span { start: used.span.start + 1, end: used.span.end.saturating_sub(1) };
        Some(FileLink { span, target: used.source.as_ref()?.path.clone() })
    };
    checked.uses().iter().filter_map(link).collect()
}
