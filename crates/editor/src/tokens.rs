//! What every token is, for coloring the text.

use crate::Checked;
use crate::names::Sort;
use crate::site::tokens_in;
use knotwright_grammar::tree::{Chart, Node};
use knotwright_grammar::words::{self, Role};
use knotwright_grammar::{Span, Token, TokenKind};
use std::collections::HashMap;

/// A token and what it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Inked {
    /// Where.
    pub span: Span,
    /// What.
    pub ink: Ink,
    /// Whether a name is given here.
    pub gives: bool,
}

/// What a token is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ink {
    /// A comment.
    Comment,
    /// A text in quotes.
    Text,
    /// A number.
    Number,
    /// A color, `#1f5d50` or a name of CSS.
    Color,
    /// A word that begins a statement.
    Statement,
    /// A kind of knot.
    Kind,
    /// A word for a place, a direction or an extent.
    Place,
    /// Another word of the notation.
    Detail,
    /// A unit of length.
    Unit,
    /// A thread.
    Thread,
    /// A motif.
    Motif,
    /// A parameter.
    Parameter,
    /// A number that counts.
    Counter,
    /// A label of a strand.
    Label,
    /// `+ - *`
    Operator,
    /// A sign of a chart.
    Mark,
    /// Something that the notation does not know.
    Unknown,
}

/// Every token of the file but punctuation, in order, each once.
pub fn tokens(checked: &Checked) -> Vec<Inked> {
    tokens_within(checked, Span::new(0, checked.text().len()))
}

/// Those that lie within `span`.
pub fn tokens_within(checked: &Checked, span: Span) -> Vec<Inked> {
    let places = Places::of(checked);
    tokens_in(checked.source(), span).iter().filter_map(|token| inked(checked, &places, token)).collect()
}

/// Words that are known by where they stand.
struct Places {
    known: HashMap<u32, Ink>,
    table: HashMap<&'static str, Role>,
    rows: Vec<Span>,
}

impl Places {
    fn of(checked: &Checked) -> Self {
        let table = words::WORDS.iter().map(|word| (word.text, word.role)).collect();
        let mut places = Self { known: HashMap::new(), table, rows: Vec::new() };
        for statement in checked.source().parsed.tree.walk() {
            places.known.insert(statement.span.start, Ink::Statement);
            match &statement.node {
                Node::Thread(thread) => drop(places.known.insert(thread.color.span.start, Ink::Color)),
                Node::Rows { chart, .. } | Node::Leader { chart, .. } => places.chart(chart),
                _ => {}
            }
        }
        places
    }

    fn chart(&mut self, chart: &Chart) {
        self.rows.extend(chart.rows.iter().map(|row| row.span));
    }

    fn in_row(&self, offset: u32) -> bool {
        let at = self.rows.partition_point(|row| row.start <= offset);
        at > 0 && offset < self.rows[at - 1].end
    }
}

fn inked(checked: &Checked, places: &Places, token: &Token) -> Option<Inked> {
    let plain = |ink| Some(Inked { span: token.span, ink, gives: false });
    match token.kind {
        TokenKind::OpenBrace
        | TokenKind::CloseBrace
        | TokenKind::OpenParen
        | TokenKind::CloseParen
        | TokenKind::Comma
        | TokenKind::Colon
        | TokenKind::Pipe
        | TokenKind::Newline => None,
        TokenKind::Comment => plain(Ink::Comment),
        TokenKind::String => plain(Ink::Text),
        TokenKind::Number => plain(Ink::Number),
        TokenKind::Color => plain(Ink::Color),
        TokenKind::Plus | TokenKind::Minus | TokenKind::Star => plain(Ink::Operator),
        TokenKind::Mark => plain(Ink::Mark),
        TokenKind::Unknown => plain(Ink::Unknown),
        TokenKind::Word if places.in_row(token.span.start) => plain(Ink::Mark),
        TokenKind::Word => Some(word(checked, places, token)),
    }
}

fn word(checked: &Checked, places: &Places, token: &Token) -> Inked {
    let names = checked.names();
    if let Some(mention) = names.exactly(token.span) {
        let ink = match names.symbol(mention).sort {
            Sort::Thread => Ink::Thread,
            Sort::Motif => Ink::Motif,
            Sort::Parameter => Ink::Parameter,
            Sort::Counter => Ink::Counter,
            Sort::Label => Ink::Label,
        };
        return Inked { span: token.span, ink, gives: mention.gives };
    }
    let text = token.span.of(checked.text());
    let ink = match places.known.get(&token.span.start) {
        Some(Ink::Statement) if words::statement(text).is_some() => Ink::Statement,
        Some(Ink::Color) => Ink::Color,
        _ => by_table(&places.table, text),
    };
    Inked { span: token.span, ink, gives: false }
}

/// What a word is by the table of words alone; of several roles the last, which is not that of a statement.
fn by_table(table: &HashMap<&'static str, Role>, text: &str) -> Ink {
    match table.get(text) {
        Some(Role::Kind) => Ink::Kind,
        Some(Role::Place) => Ink::Place,
        Some(Role::Unit) => Ink::Unit,
        Some(Role::Detail) => Ink::Detail,
        Some(Role::Head | Role::Body) => Ink::Statement,
        None if words::is_reserved(text) => Ink::Place,
        None => Ink::Unknown,
    }
}
