//! A text before it is set: headings, paragraphs, lists, steps.

use knotwright_band::Kind;

use crate::knot_drawing;

/// Instructions, ready to be set as Markdown or as plain text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ProseDocument {
    pub(super) blocks: Vec<ProseBlock>,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum ProseBlock {
    /// Level 1 to 3.
    Heading(u8, String),
    Text(String),
    List(Vec<String>),
    /// The first row is the head.
    Table(Vec<Vec<String>>),
    /// Something to do, numbered among those of its depth.
    Step {
        depth: usize,
        number: u64,
        text: String,
    },
    /// How a kind of knot is tied.
    Drawing {
        kind: Kind,
        /// What the drawing shows.
        title: String,
        /// What the kind is called.
        name: String,
    },
    /// Something said between steps.
    Aside {
        depth: usize,
        text: String,
        loud: bool,
    },
}

impl ProseDocument {
    /// Nothing said yet.
    pub(crate) fn new() -> Self {
        Self { blocks: Vec::new() }
    }

    pub(super) fn push(&mut self, block: ProseBlock) {
        self.blocks.push(block);
    }

    pub(super) fn text(&mut self, text: impl Into<String>) {
        self.blocks.push(ProseBlock::Text(text.into()));
    }

    /// As Markdown (CommonMark, with tables as GitHub writes them). What comes from the pattern is escaped: it is read as
    /// letters, never as markup.
    pub fn markdown(&self) -> String {
        super::markdown::write_markdown(&self.blocks, None)
    }

    /// The same with drawings of the knots, which are in other files; `file` names the one of a kind, with nothing in the
    /// name that a link could not have.
    pub fn markdown_with_drawings(&self, file: &dyn Fn(Kind) -> String) -> String {
        super::markdown::write_markdown(&self.blocks, Some(file))
    }

    /// The drawings that belong to it, each an SVG document.
    pub fn drawings(&self) -> Vec<(Kind, String)> {
        let drawing = |block: &ProseBlock| match block {
            ProseBlock::Drawing { kind, title, .. } => Some((*kind, knot_drawing(*kind, title))),
            _ => None,
        };
        self.blocks.iter().filter_map(drawing).collect()
    }

    /// As elements of HTML, its headings `deeper` levels further down. What comes from the pattern is escaped.
    pub(crate) fn html(&self, deeper: u8) -> String {
        super::html::write_html(&self.blocks, deeper)
    }

    /// As plain text in lines of at most `columns` columns, except where a single word is longer.
    pub fn plain(&self, columns: usize) -> String {
        super::plain::write_plain(&self.blocks, columns)
    }
}
