//! The statement being written: its words before the cursor, the word under it, and what block it is in.

use crate::site::{Site, holds};
use knotwright_checker::{FileId, Source, Spot};
use knotwright_grammar::tree::{Block, Node, Statement, Zone};
use knotwright_grammar::{Span, Token, TokenKind, words};

/// A statement up to the cursor.
#[derive(Debug, Clone)]
pub(crate) struct CursorLine<'c> {
    pub(crate) source: &'c Source,
    /// Its tokens before the word under the cursor; no comments, no line's ends.
    pub(crate) tokens: Vec<Token>,
    /// The word under the cursor, all of it; empty between words.
    pub(crate) word: Span,
    /// Whether the cursor is in a text in quotes.
    pub(crate) in_text: bool,
    /// The cursor.
    pub(crate) offset: u32,
}

impl<'c> CursorLine<'c> {
    /// The line around `offset`; `None` in a comment, and after a `}`, where no statement can begin.
    pub(crate) fn at(source: &'c Source, offset: u32) -> Option<Self> {
        let tokens = &source.parsed.tokens;
        let offset = offset.min(knotwright_grammar::to_offset(source.text.len()));
        let next = tokens.partition_point(|token| token.span.start < offset);
        let under =
            next.checked_sub(1).filter(|&at| tokens[at].span.end >= offset && is_word(source, &tokens[at]));
        if under.is_some_and(|at| tokens[at].kind == TokenKind::Comment) {
            return None;
        }
        let in_text = under.is_some_and(|at| is_text(source, &tokens[at], offset));
        // After a closing quote a new word begins.
        let under = under.filter(|&at| in_text || !tokens[at].span.of(&source.text).starts_with('"'));
        let word = under.map_or(Span { start: offset, end: offset }, |at| tokens[at].span);
        let before = under.unwrap_or(next);
        let after = tokens[..before].last().is_some_and(|last| last.kind == TokenKind::CloseBrace);
        if after {
            return None;
        }
        let gathered = gather(source, &tokens[..before], word.of(&source.text));
        Some(Self { source, tokens: gathered, word, in_text, offset })
    }

    /// Where the statement begins.
    pub(crate) fn start(&self) -> u32 {
        self.tokens.first().map_or(self.word.start, |token| token.span.start)
    }

    /// What is before the word under the cursor.
    pub(crate) fn prefix(&self) -> &'c str {
        Span { start: self.start(), end: self.word.start }.of(&self.source.text).trim_end()
    }

    /// A token before the word under the cursor, the last one first.
    pub(crate) fn back(&self, number: usize) -> &'c str {
        let at = self.tokens.len().checked_sub(number + 1);
        at.map_or("", |at| self.tokens[at].span.of(&self.source.text))
    }

    /// Whether that word stands in it before the cursor, behind the first.
    pub(crate) fn has(&self, word: &str) -> bool {
        self.tokens.iter().skip(1).any(|token| token.span.of(&self.source.text) == word)
    }

    /// The first word of the statement.
    pub(crate) fn first(&self) -> &'c str {
        self.tokens.first().map_or("", |token| token.span.of(&self.source.text))
    }

    /// What may be here, and the spot before the statement.
    pub(crate) fn place(&self) -> (Zone, Option<Spot>) {
        let site = Site::at(self.source, self.start());
        for statement in site.path.iter().rev() {
            if let Some(chart) = statement.node.chart()
                && chart.open.end <= self.offset
                && chart.close.is_none_or(|close| self.offset <= close.start)
            {
                return (zone(&statement.node), site.spot());
            }
            let Some(block) = statement.node.block().filter(|block| holds(block, statement, self.start()))
            else {
                continue;
            };
            return (zone(&statement.node), Some(self.spot(block)));
        }
        (Zone::Top, None)
    }

    /// The statement before this one in its block.
    pub(crate) fn before(&self) -> Option<&'c Statement> {
        let site = Site::at(self.source, self.start());
        let blocks =
            site.path.iter().rev().filter_map(|statement| Some((statement, statement.node.block()?)));
        let (_, block) =
            blocks.into_iter().find(|(statement, block)| holds(block, statement, self.start()))?;
        block.statements.iter().rev().find(|statement| statement.span.end <= self.start())
    }

    fn spot(&self, block: &Block) -> Spot {
        let index = block.statements.partition_point(|statement| statement.span.start < self.start());
        Spot { file: FileId::CHECKED, block: block.open.start, index }
    }
}

fn zone(node: &Node) -> Zone {
    node.declaration().and_then(|known| known.holds).unwrap_or(Zone::Body)
}

/// Whether a cursor at its end is still in it.
fn is_word(source: &Source, token: &Token) -> bool {
    use TokenKind::{Color, Comment, Number, String, Unknown, Word};
    match token.kind {
        Word | Number | Color | Comment | String | Unknown => true,
        TokenKind::Mark => token.span.of(&source.text) == "#",
        _ => false,
    }
}

fn is_text(source: &Source, token: &Token, offset: u32) -> bool {
    let text = token.span.of(&source.text);
    match token.kind {
        TokenKind::String => token.span.start < offset && offset < token.span.end,
        TokenKind::Unknown => text.starts_with('"'),
        _ => false,
    }
}

/// The tokens of the statement that goes on after `tokens`, in order.
fn gather<'s>(source: &'s Source, tokens: &[Token], mut next: &'s str) -> Vec<Token> {
    let text = |token: &Token| token.span.of(&source.text);
    let counts = |token: &&Token| !matches!(token.kind, TokenKind::Newline | TokenKind::Comment);
    let mut gathered: Vec<Token> = Vec::new();
    for (at, token) in tokens.iter().enumerate().rev() {
        match token.kind {
            TokenKind::OpenBrace | TokenKind::CloseBrace => break,
            TokenKind::Comment => {}
            TokenKind::Newline => {
                let last = tokens[..at].iter().rev().find(counts);
                if !last.is_some_and(|last| runs_on(last.kind, next)) {
                    break;
                }
            }
            _ => {
                next = text(token);
                gathered.push(*token);
            }
        }
    }
    gathered.reverse();
    gathered
}

/// Whether a statement goes on after the end of a line.
fn runs_on(last: TokenKind, next: &str) -> bool {
    next == "then"
        || (matches!(last, TokenKind::Comma | TokenKind::Pipe) && words::find_statement(next).is_none())
}
