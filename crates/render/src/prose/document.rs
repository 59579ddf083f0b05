//! A text before it is set: headings, paragraphs, lists, steps.

/// Instructions, ready to be set as Markdown or as plain text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Document {
    pub(super) blocks: Vec<Block>,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Block {
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
    /// Something said between steps.
    Aside {
        depth: usize,
        text: String,
        loud: bool,
    },
}

impl Document {
    /// Nothing said yet.
    pub(crate) fn new() -> Self {
        Self { blocks: Vec::new() }
    }

    pub(super) fn push(&mut self, block: Block) {
        self.blocks.push(block);
    }

    pub(super) fn text(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Text(text.into()));
    }

    /// As Markdown (CommonMark, with tables as GitHub writes them). What comes from the pattern is escaped: it is read as
    /// letters, never as markup.
    pub fn markdown(&self) -> String {
        super::markdown::write(&self.blocks)
    }

    /// As elements of HTML, its headings so many levels deeper. What comes from the pattern is escaped.
    pub(crate) fn html(&self, deeper: u8) -> String {
        super::html::write(&self.blocks, deeper)
    }

    /// As plain text in lines of at most so many columns, as long as its words are not longer.
    pub fn plain(&self, columns: usize) -> String {
        super::plain::write(&self.blocks, columns)
    }
}
