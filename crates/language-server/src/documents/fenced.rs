//! Patterns within a Markdown document. Each is a snapshot of its own that tells places as those of the document, so that
//! whoever answers need not know where a pattern stands. What is known of one holds as long as its text is the same,
//! whatever is written around it.

use super::Text;
use super::document::uses_others;
use super::snapshot::{Known, Setting, Since, Snapshot};
use crate::encoding::Encoding;
use knotwright_workspace::Fenced;
use ropey::Rope;
use std::iter::zip;
use std::sync::Arc;
use tower_lsp::ls_types::{Position, Range};

/// A pattern in a page, and what is known about it.
#[derive(Debug, Clone)]
pub(super) struct Block {
    /// Its first byte in the page.
    start: usize,
    text: Arc<Text>,
    known: Arc<Known>,
}

impl Snapshot {
    /// The patterns in the document: one, or those that are fenced in Markdown.
    pub(crate) fn patterns(&self) -> Vec<Self> {
        if !self.text.is_page() {
            return vec![self.clone()];
        }
        self.blocks().iter().map(|block| self.fenced(block)).collect()
    }

    /// Those of which something stands in a range.
    pub(crate) fn patterns_in(&self, range: Range) -> Vec<Self> {
        let mut patterns = self.patterns();
        patterns.retain(|pattern| pattern.text.reaches(range));
        patterns
    }

    /// The pattern at a position; in Markdown there may be none.
    pub(crate) fn at(&self, position: Position) -> Option<Self> {
        self.which(position).and_then(|which| self.nth(which))
    }

    /// Which of its patterns stands at a position.
    pub(crate) fn which(&self, position: Position) -> Option<usize> {
        if !self.text.is_page() {
            return Some(0);
        }
        let offset = self.offset(position) as usize;
        // Behind its last line, where the closing fence stands, it is over.
        let is_here =
            |block: &&Block| block.start <= offset && offset <= block.start + block.text.rope.len_bytes();
        self.blocks().iter().position(|block| is_here(&block))
    }

    /// One of its patterns.
    pub(crate) fn nth(&self, which: usize) -> Option<Self> {
        if !self.text.is_page() {
            return Some(self.clone());
        }
        self.blocks().get(which).map(|block| self.fenced(block))
    }

    /// A pattern for those who count lines themselves: with an empty line for every one that stands before it.
    pub(crate) fn in_place(self) -> Self {
        if !self.text.is_fenced() {
            return self;
        }
        let text = Arc::new(self.text.in_place());
        let setting = Setting { fenced: Some(Arc::clone(&text)), ..self.setting };
        Self { text, known: Arc::default(), setting }
    }

    fn blocks(&self) -> &[Block] {
        self.known.blocks.get_or_init(|| {
            let markdown = String::from(&self.text.rope);
            let fenced = knotwright_workspace::patterns(&markdown);
            let (old, since) = match self.known.before() {
                Some(before) => (Known::into_blocks(before.known), before.since),
                None => (Vec::new(), Since::Text),
            };
            Page { text: &self.text, markdown: &markdown, since }.blocks(old, fenced)
        })
    }

    fn fenced(&self, block: &Block) -> Self {
        let (text, known) = (Arc::clone(&block.text), Arc::clone(&block.known));
        let mut setting = self.setting.clone();
        setting.fenced = Some(Arc::clone(&text));
        Self { text, known, setting }
    }
}

impl Known {
    fn into_blocks(known: Arc<Self>) -> Vec<Block> {
        let blocks = match Arc::try_unwrap(known) {
            Ok(known) => known.blocks.into_inner(),
            Err(known) => known.blocks.get().cloned(),
        };
        blocks.unwrap_or_default()
    }

    /// Whether what is known of the patterns in a page depends on other files; it may, if nobody has looked yet.
    pub(super) fn depends(&self) -> bool {
        let uses = |block: &Block| block.text.parsed().is_none_or(|source| uses_others(source));
        self.blocks.get().is_none_or(|blocks| blocks.iter().any(uses))
    }
}

/// A page whose patterns are read.
struct Page<'p> {
    text: &'p Text,
    markdown: &'p str,
    /// What has changed since something was known of its patterns.
    since: Since,
}

impl Page<'_> {
    /// The patterns of the page, with what was known of those that were there before. Where patterns were edited, come or
    /// gone, each is taken for the one that stood in its place.
    fn blocks(&self, old: Vec<Block>, fenced: Vec<Fenced>) -> Vec<Block> {
        let same = |(old, new): &(&Block, &Fenced)| old.text.rope == *new.text;
        let most = old.len().min(fenced.len());
        let head = zip(&old, &fenced).take_while(same).count();
        let tail = zip(old.iter().rev(), fenced.iter().rev()).take(most - head).take_while(same).count();
        let (still, come) = (old.len() - tail, fenced.len() - tail);
        let mut old: Vec<Option<Block>> = old.into_iter().map(Some).collect();
        let mut blocks = Vec::with_capacity(fenced.len());
        for (at, new) in fenced.into_iter().enumerate() {
            let before = if at < come { (at < still).then_some(at) } else { Some(at - come + still) };
            blocks.push(self.block(before.and_then(|at| old[at].take()), new));
        }
        blocks
    }

    fn block(&self, old: Option<Block>, new: Fenced) -> Block {
        let start = new.place.start;
        let first_line = Encoding::Utf8.position(&self.text.rope, start).line;
        let is_flush = self.markdown[start..].starts_with(&new.text);
        let text = |rope| self.text.fenced(rope, first_line, is_flush);
        let Some(old) = old else {
            return Block { start, text: Arc::new(text(Rope::from_str(&new.text))), known: Arc::default() };
        };
        if old.text.rope == *new.text {
            let text = text(old.text.rope.clone());
            text.share(&old.text);
            let holds =
                self.since == Since::Text || self.since == Since::Files && !uses_others(text.source());
            let known = if holds { old.known } else { Arc::new(Known::after(old.known, self.since)) };
            return Block { start, text: Arc::new(text), known };
        }
        let text = text(Rope::from_str(&new.text));
        Text::hand_on(old.text, &text);
        Block { start, text: Arc::new(text), known: Arc::new(Known::after(old.known, self.since)) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::Documents;
    use serde_json::{from_value, json};
    use tower_lsp::ls_types::Uri;

    fn block(title: &str) -> String {
        format!("```knot\npattern \"{title}\"\nthread rope white\nstrands 2 rope\n```\n")
    }

    #[test]
    fn what_is_known_of_a_pattern_holds_while_others_are_edited() {
        let uri: Uri = "untitled:Page".parse().unwrap();
        let mut documents = Documents::default();
        let open = |text: &str| {
            from_value(json!({ "uri": uri.as_str(), "languageId": "markdown", "version": 1, "text": text }))
                .unwrap()
        };
        documents.open(open(&[block("Pier"), block("Quay"), block("Reef")].join("\nBetween.\n\n")));
        let known = |documents: &Documents| -> Vec<(String, Arc<Known>)> {
            let patterns = documents.snapshot(&uri, Setting::default()).unwrap().patterns();
            let of = |pattern: Snapshot| {
                let title = pattern.report().pattern.as_ref().unwrap().title.clone();
                (format!("{title} {}", pattern.position(0).line), pattern.known)
            };
            patterns.into_iter().map(of).collect()
        };
        let mut edit = |text: &str| {
            let before = known(&documents);
            let change = from_value(json!([{ "text": text }])).unwrap();
            documents.change((&uri, 2), change, Encoding::Utf8);
            let after = known(&documents);
            let stays =
                |(_, now): &(String, Arc<Known>)| before.iter().any(|(_, known)| Arc::ptr_eq(known, now));
            after.iter().map(|now| (now.0.clone(), stays(now))).collect::<Vec<_>>()
        };
        let named = |name: &str, stays| (name.to_owned(), stays);
        assert_eq!(
            edit(
                &["More.\n".to_owned(), block("Pier"), block("Quay"), block("Reef")]
                    .join("\nOther prose.\n\n")
            ),
            [named("Pier 5", true), named("Quay 13", true), named("Reef 21", true)]
        );
        assert_eq!(
            edit(&[block("Pier"), block("Tide"), block("Reef")].join("\n")),
            [named("Pier 1", true), named("Tide 7", false), named("Reef 13", true)]
        );
        assert_eq!(
            edit(&[block("Pier"), block("Reef")].join("\n")),
            [named("Pier 1", true), named("Reef 7", true)]
        );
        assert_eq!(
            edit(&[block("Dune"), block("Pier"), block("Reef")].join("\n")),
            [named("Dune 1", false), named("Pier 7", true), named("Reef 13", true)]
        );
    }
}
