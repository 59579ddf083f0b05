//! What every token is, for coloring the text.

use crate::names::{NameIndex, NameSort};
use crate::site::tokens_in;
use knotwright_checker::Source;
use knotwright_grammar::tree::{Bead, Chart, FaceChart, Join, Statement, Thread};
use knotwright_grammar::words::{self, Role};
use knotwright_grammar::{Span, Token, TokenKind};
use knotwright_numbers::ToNumber;
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

/// Every token of the file but punctuation, in order, each once. Nothing needs to be tied for it.
pub fn semantic_tokens(source: &Source) -> Vec<Inked> {
    tokens_within(source, Span::new(0, source.text.len()))
}

/// Those that are within `span`; only there names are looked up.
pub fn tokens_within(source: &Source, span: Span) -> Vec<Inked> {
    let places = TokenPlaces::of(source, span);
    tokens_in(source, span).iter().filter_map(|token| places.inked(token)).collect()
}

/// Words that are known by where they stand.
struct TokenPlaces<'s> {
    text: &'s str,
    names: NameIndex,
    known: HashMap<u32, Ink>,
    table: HashMap<&'static str, Role>,
    rows: Vec<Span>,
}

impl<'s> TokenPlaces<'s> {
    /// Those of the statements that touch `span`.
    fn of(source: &'s Source, span: Span) -> Self {
        let table = words::WORDS.iter().map(|word| (word.text, word.role)).collect();
        let names = NameIndex::within(source, span);
        let mut places = Self { text: &source.text, names, known: HashMap::new(), table, rows: Vec::new() };
        let touches = |statement: &&Statement| statement.span.meets(span);
        for statement in source.parsed.tree.walk().filter(touches) {
            places.known.insert(statement.span.start, Ink::Statement);
            if let Some(thread) = statement.get::<Thread>() {
                places.known.extend(thread.colors().map(|(color, _)| (color.span.start, Ink::Color)));
            }
            if let Some(bead) = statement.get::<Bead>() {
                places.known.insert(bead.color.span.start, Ink::Color);
            }
            if let Some(set) = statement.get::<Join>().and_then(|join| join.set.as_ref()) {
                // `in set N`; anywhere else the word is inches.
                let before = Span { start: statement.span.start, end: set.span().start };
                let at = before.of(&source.text).rfind("in").unwrap_or_default();
                places.known.insert(before.start + at.to_u32(), Ink::Detail);
            }
            if let Some(face) = statement.get::<FaceChart>() {
                places.known.extend(face.keys.iter().map(|key| (key.letter.span.start, Ink::Mark)));
            }
            for translation in statement.node.translations() {
                places.known.insert(translation.language.span.start, Ink::Label);
            }
            statement.node.chart().into_iter().for_each(|chart| places.chart(chart));
        }
        places
    }

    fn chart(&mut self, chart: &Chart) {
        self.rows.extend(chart.rows.iter().filter(|row| row.letters.is_none()).map(|row| row.span));
    }

    fn in_row(&self, offset: u32) -> bool {
        let at = self.rows.partition_point(|row| row.start <= offset);
        at > 0 && offset < self.rows[at - 1].end
    }

    fn inked(&self, token: &Token) -> Option<Inked> {
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
            TokenKind::Word | TokenKind::Unknown if self.in_row(token.span.start) => plain(Ink::Mark),
            TokenKind::Unknown => plain(Ink::Unknown),
            TokenKind::Word => Some(self.word(token.span)),
        }
    }

    fn word(&self, span: Span) -> Inked {
        if let Some(mention) = self.names.exactly(span) {
            let ink = match self.names.symbol(mention).sort {
                NameSort::Thread | NameSort::Bead => Ink::Thread,
                NameSort::Motif => Ink::Motif,
                NameSort::Parameter => Ink::Parameter,
                NameSort::Counter => Ink::Counter,
                NameSort::Label => Ink::Label,
            };
            return Inked { span, ink, gives: mention.gives };
        }
        let text = span.of(self.text);
        let ink = match self.known.get(&span.start) {
            Some(Ink::Statement) if begins_statement(text) => Ink::Statement,
            Some(&ink @ (Ink::Color | Ink::Label | Ink::Mark | Ink::Detail)) => ink,
            _ => by_table(&self.table, text),
        };
        Inked { span, ink, gives: false }
    }
}

/// Whether a word begins a statement somewhere.
fn begins_statement(word: &str) -> bool {
    words::find_statement(word).or_else(|| words::find_end_piece(word)).is_some()
}

/// What a word is by the table of words alone; of several roles the last, which is not that of a statement.
fn by_table(table: &HashMap<&'static str, Role>, text: &str) -> Ink {
    match table.get(text) {
        Some(Role::Kind) => Ink::Kind,
        Some(Role::Place) => Ink::Place,
        Some(Role::Unit) => Ink::Unit,
        Some(Role::Detail) => Ink::Detail,
        Some(Role::Head | Role::Body | Role::EndPiece) => Ink::Statement,
        None if words::is_reserved(text) => Ink::Place,
        None => Ink::Unknown,
    }
}
