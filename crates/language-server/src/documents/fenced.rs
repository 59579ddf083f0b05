//! Patterns within a Markdown document. Each is a snapshot of its own that reports places as those of the document, so that
//! whoever answers need not know where a pattern stands.
//!
//! An edit of the page is an edit of the patterns that it touches: a pattern counts its bytes as the page does, from its
//! first line on. All others stay as they are, with all that is known of them, wherever they stand then.

use super::text::FencedLines;
use super::version::{KnownText, Since, Version, VersionChange};
use super::{DocumentText, Setting, Snapshot, uses_others};
use crate::encoding::Encoding;
use knotwright_grammar::{Span, Splice};
use knotwright_numbers::ToNumber;
use knotwright_workspace::Fenced;
use ropey::Rope;
use std::iter::zip;
use std::sync::Arc;
use tower_lsp::ls_types::{Position, Range};

/// A pattern in a page, and what is known about it.
#[derive(Debug, Clone)]
pub(super) struct FencedPattern {
    stands: FencePlace,
    version: Version,
}

/// Where a pattern is in a page.
#[derive(Debug, Clone)]
struct FencePlace {
    /// Its first byte.
    start: usize,
    /// How many bytes long it is.
    length: usize,
    /// Which bytes of the page belong to it, in order; all others are spaces in it.
    pieces: Vec<std::ops::Range<usize>>,
}

impl Snapshot {
    /// The patterns in the document: one, or those that are fenced in Markdown.
    pub(crate) fn patterns(&self) -> Vec<Self> {
        if !self.text.is_page() {
            return vec![self.clone()];
        }
        self.blocks().iter().map(|block| self.fenced(block)).collect()
    }

    /// Those of which something is in a range.
    pub(crate) fn patterns_in(&self, range: Range) -> Vec<Self> {
        let mut patterns = self.patterns();
        patterns.retain(|pattern| pattern.text.reaches(range));
        patterns
    }

    /// The pattern at a position; in Markdown there may be none.
    pub(crate) fn at(&self, position: Position) -> Option<Self> {
        self.which(position).and_then(|which| self.nth(which))
    }

    /// Which of its patterns is at a position.
    pub(crate) fn which(&self, position: Position) -> Option<usize> {
        if !self.text.is_page() {
            return Some(0);
        }
        let offset = self.offset(position).to_usize();
        // After its last line, where the closing fence stands, it is over.
        let is_here = |block: &&FencedPattern| block.stands.start <= offset && offset <= block.stands.end();
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
        Self::new(Version { text, known: Arc::default() }, setting)
    }

    fn blocks(&self) -> &[FencedPattern] {
        self.known.blocks.get_or_init(|| {
            let markdown = String::from(&self.text.rope);
            let fenced = knotwright_workspace::fenced_patterns(&markdown);
            let (old, change) = match self.known.take_before() {
                Some(before) => (KnownText::into_blocks(before.known), before.change),
                None => (Vec::new(), VersionChange::edited(None)),
            };
            MarkdownPage { text: &self.text, markdown: &markdown, change }.blocks(old, fenced)
        })
    }

    fn fenced(&self, block: &FencedPattern) -> Self {
        let mut setting = self.setting.clone();
        setting.fenced = Some(Arc::clone(&block.version.text));
        Self::new(block.version.clone(), setting)
    }
}

impl FencePlace {
    fn of(fenced: &Fenced) -> Self {
        let pieces = fenced.pieces().iter().filter(|piece| !piece.is_empty()).cloned().collect();
        Self { start: fenced.place.start, length: fenced.text.len(), pieces }
    }

    fn end(&self) -> usize {
        self.start + self.length
    }

    /// What an edit of the page has done to the pattern that is there as `now`. What is left and right of the edit is
    /// the same text if the same of it belongs to the pattern; otherwise, as where a list begins above it, it counts as
    /// edited too.
    fn edited(&self, now: &Self, edit: Splice) -> Splice {
        let shorter = self.length.min(now.length);
        let is_same_head = self.start == now.start && self.left_of(edit.start).eq(now.left_of(edit.start));
        let head = if is_same_head { edit.start.saturating_sub(self.start).min(shorter) } else { 0 };
        let (old, new) = (self.end().saturating_sub(edit.old_end), now.end().saturating_sub(edit.new_end));
        let is_same_tail = old == new && self.right_of(edit.old_end).eq(now.right_of(edit.new_end));
        let tail = if is_same_tail { old.min(shorter - head) } else { 0 };
        Splice { start: head, old_end: self.length - tail, new_end: now.length - tail }
    }

    /// The pieces before a byte of the page.
    fn left_of(&self, end: usize) -> impl Iterator<Item = (usize, usize)> {
        let pieces = self.pieces.iter().take_while(move |piece| piece.start < end);
        pieces.map(move |piece| (piece.start, piece.end.min(end)))
    }

    /// The pieces from a byte of the page on, counted from there.
    fn right_of(&self, start: usize) -> impl Iterator<Item = (usize, usize)> {
        let pieces = self.pieces.iter().filter(move |piece| piece.end > start);
        pieces.map(move |piece| (piece.start.saturating_sub(start), piece.end - start))
    }
}

impl KnownText {
    fn into_blocks(known: Arc<Self>) -> Vec<FencedPattern> {
        let blocks = match Arc::try_unwrap(known) {
            Ok(known) => known.blocks.into_inner(),
            // Somebody is at work with the page as it was.
            Err(known) => known.blocks.get().cloned(),
        };
        blocks.unwrap_or_default()
    }

    /// Whether what is known of the patterns in a page depends on other files; it may, if nobody has looked yet.
    pub(super) fn depends(&self) -> bool {
        let uses =
            |block: &FencedPattern| block.version.known.parsed().is_none_or(|source| uses_others(source));
        self.blocks.get().is_none_or(|blocks| blocks.iter().any(uses))
    }
}

/// A page whose patterns are read.
struct MarkdownPage<'p> {
    text: &'p DocumentText,
    markdown: &'p str,
    /// What has changed since something was known of its patterns.
    change: VersionChange,
}

impl MarkdownPage<'_> {
    /// The patterns of the page, with what was known of those that were there before. Where patterns were edited, come or
    /// gone, each is taken for the one that stood in its place.
    fn blocks(&self, old: Vec<FencedPattern>, fenced: Vec<Fenced>) -> Vec<FencedPattern> {
        let same = |(old, new): &(&FencedPattern, &Fenced)| self.edit(old, new).is_empty();
        let most = old.len().min(fenced.len());
        let head = zip(&old, &fenced).take_while(same).count();
        let tail = zip(old.iter().rev(), fenced.iter().rev()).take(most - head).take_while(same).count();
        let (still, come) = (old.len() - tail, fenced.len() - tail);
        let mut old: Vec<Option<FencedPattern>> = old.into_iter().map(Some).collect();
        let mut blocks = Vec::with_capacity(fenced.len());
        for (at, new) in fenced.into_iter().enumerate() {
            let before = if at < come { (at < still).then_some(at) } else { Some(at - come + still) };
            blocks.push(self.block(before.and_then(|at| old[at].take()), &new));
        }
        blocks
    }

    /// How a pattern was edited. One whose text is the same was not, whatever was written over it.
    fn edit(&self, old: &FencedPattern, new: &Fenced) -> Splice {
        let edit = old.stands.edited(&FencePlace::of(new), self.change.edit.unwrap_or(Splice::NONE));
        if edit.is_empty() || old.version.text.rope == *new.text { Splice::NONE } else { edit }
    }

    fn block(&self, old: Option<FencedPattern>, new: &Fenced) -> FencedPattern {
        let (stands, start) = (FencePlace::of(new), new.place.start);
        let first_line = Encoding::Utf8.position(&self.text.rope, start).line;
        let is_flush = self.markdown[start..].starts_with(&new.text);
        let fence = Span::new(new.fence.start, new.fence.end);
        let text = |rope| self.text.fenced(rope, FencedLines { first_line, is_flush, fence });
        let Some(old) = old else {
            return FencedPattern { stands, version: Version::new(text(Rope::from_str(&new.text))) };
        };
        let (edit, since) = (self.edit(&old, new), self.change.since);
        if !edit.is_empty() {
            let known = KnownText::after(&old.version.known, VersionChange { edit: Some(edit), since });
            let text = Arc::new(text(Rope::from_str(&new.text)));
            return FencedPattern { stands, version: Version { text, known: Arc::new(known) } };
        }
        let holds = match since {
            Since::Text => true,
            Since::Files => !uses_others(old.version.source()),
            Since::Settings => false,
        };
        let Version { known, .. } = if holds { old.version.clone() } else { old.version.renewed(since) };
        let text = Arc::new(text(old.version.text.rope.clone()));
        FencedPattern { stands, version: Version { text, known } }
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
        let uri: Uri = "untitled:MarkdownPage".parse().unwrap();
        let mut documents = Documents::default();
        let open = |text: &str| {
            from_value(json!({ "uri": uri.as_str(), "languageId": "markdown", "version": 1, "text": text }))
                .unwrap()
        };
        documents.open(open(&[block("Pier"), block("Quay"), block("Reef")].join("\nBetween.\n\n")));
        let known = |documents: &Documents| -> Vec<(String, Arc<KnownText>)> {
            let patterns = documents.snapshot(&uri, Setting::default()).unwrap().patterns();
            let of = |pattern: Snapshot| {
                let title = pattern.checked().pattern().unwrap().title.text.clone();
                (format!("{title} {}", pattern.position(0).line), pattern.known)
            };
            patterns.into_iter().map(of).collect()
        };
        let mut edit = |text: &str| {
            let before = known(&documents);
            let document = json!({ "uri": uri.as_str(), "version": 2 });
            let change = json!({ "textDocument": document, "contentChanges": [{ "text": text }] });
            let change = from_value(change).unwrap();
            documents.change(change, Encoding::Utf8);
            let after = known(&documents);
            let stays =
                |(_, now): &(String, Arc<KnownText>)| before.iter().any(|(_, known)| Arc::ptr_eq(known, now));
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
