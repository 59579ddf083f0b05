//! What there is to say about the token under the cursor: always in words, and as a picture where one helps.

mod block;
mod chart;
mod ends;
mod face;
mod keyword;
mod name;
mod number;
mod picture;
mod plain;
mod step;

use crate::Checked;
use crate::site::{Site, token_at};
use knotwright_checker::{Known, Spot};
use knotwright_grammar::tree::Node;
use knotwright_grammar::{Span, Token, TokenKind};
use smol_str::SmolStr;

/// What is shown next to a token.
#[derive(Debug, Clone, PartialEq)]
pub struct Hover {
    /// The token.
    pub span: Span,
    /// Paragraphs; the only markup is code between backticks.
    pub text: Vec<String>,
    /// A picture that goes with it.
    pub picture: Option<Picture>,
}

/// A picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// A whole SVG document, smaller than [`LARGEST_PICTURE`] bytes.
    pub svg: String,
    /// What it shows, for those who do not see it.
    pub alt: String,
}

/// Editors cut a hover that is larger than about 100,000 characters of base64.
pub const LARGEST_PICTURE: usize = 74_000;

/// What is to be said about the token at `offset`; `None` between tokens.
pub fn hover(checked: &Checked, offset: u32) -> Option<Hover> {
    let token = token_at(checked.source(), offset)?;
    let look = HoverLook { checked, token, site: Site::at(checked.source(), token.span.start) };
    let mut text = look.words();
    if text.is_empty() {
        text.push(look.fallback());
    }
    let picture = picture::of(&look);
    Some(Hover { span: token.span, text, picture })
}

/// A token and what is around it.
struct HoverLook<'c> {
    checked: &'c Checked,
    token: Token,
    site: Site<'c>,
}

impl<'c> HoverLook<'c> {
    fn written(&self) -> &'c str {
        self.token.span.of(self.checked.text())
    }

    fn node(&self) -> Option<&'c Node> {
        self.site.inner().map(|statement| &statement.node)
    }

    fn words(&self) -> Vec<String> {
        if self.token.kind == TokenKind::Comment {
            return plain::comment(self.written());
        }
        if let Some(text) = chart::words(self).or_else(|| face::letter(self)) {
            return text;
        }
        let mut text = match self.token.kind {
            TokenKind::String => plain::string(self),
            TokenKind::Color => plain::color(self.written()),
            TokenKind::Number => number::words(self),
            TokenKind::Word => plain::language(self)
                .or_else(|| name::words(self))
                .unwrap_or_else(|| keyword::explained(self)),
            TokenKind::Unknown => vec!["This character has no meaning here.".to_owned()],
            _ => Vec::new(),
        };
        text.extend(block::words(self));
        text.extend(step::words(self));
        text
    }

    /// The first word of the statement; empty if there is none.
    fn first_word(&self) -> &'c str {
        self.site.inner().map_or("", |statement| first_word(statement.head.of(self.checked.text())))
    }

    /// For signs: what statement they belong to.
    fn fallback(&self) -> String {
        let declared = self.node().and_then(Node::declaration);
        match declared.or_else(|| knotwright_grammar::words::find_statement(self.first_word())) {
            Some(known) => format!("Part of `{}`. {}", known.word.form, known.word.help),
            None => "A symbol of the notation.".to_owned(),
        }
    }

    /// The names that stand for something at the statement under the cursor, as it is tied for the first time.
    fn names(&self) -> Vec<(SmolStr, Known)> {
        let see = |spot: Option<Spot>| self.checked.look(spot?, &[]).map(|view| view.names);
        see(self.site.spot()).unwrap_or_default()
    }

    /// The names inside the block that the statement under the cursor opens.
    fn names_inside(&self) -> Vec<(SmolStr, Known)> {
        let block = self.node().and_then(Node::block);
        let spot = block.map(|block| Spot { file: Default::default(), block: block.open.start, index: 0 });
        spot.and_then(|spot| self.checked.look(spot, &[])).map(|view| view.names).unwrap_or_default()
    }
}

fn first_word(line: &str) -> &str {
    line.split(|letter: char| letter.is_whitespace() || letter == '{').next().unwrap_or("")
}
