//! What may be written where the cursor is: words of the notation, and the strands as they really hang there.

mod allowed;
mod arguments;
mod chart;
mod due;
mod hand;
mod head;
mod item;
mod lists;
mod names;
mod places;
mod ranges;
mod runs;
mod statements;
mod texts;

pub use item::{Completion, CompletionKind};

use crate::line::CursorLine;
use crate::{Checked, World};
use item::Items;
use knotwright_checker::{Spot, View, expected_words};
use knotwright_grammar::tree::Zone;
use knotwright_grammar::{Expected, NameFor, Span, TextFor};
use std::cell::OnceCell;

/// What may be written at `offset`, the likeliest first. In comments only rules that they allow, and in texts only paths.
pub fn completion(checked: &Checked, world: &World, offset: u32) -> Vec<Completion> {
    if let Some(rules) = allowed::rules(checked, world, offset) {
        return rules;
    }
    let Some(line) = CursorLine::at(checked.source(), offset) else { return Vec::new() };
    let (zone, spot) = line.place();
    let here = Here { checked, world, line, zone, spot, view: OnceCell::new() };
    let mut items = Items::new(here.line.word);
    fill(&here, &mut items);
    items.done()
}

/// The cursor and all that is known around it.
struct Here<'c> {
    checked: &'c Checked,
    world: &'c World<'c>,
    line: CursorLine<'c>,
    zone: Zone,
    spot: Option<Spot>,
    view: OnceCell<Option<View>>,
}

impl Here<'_> {
    /// The strands before the statement, if it is known how they hang.
    fn view(&self) -> Option<&View> {
        let look = || self.checked.look(self.spot?, &[]).filter(|view| !view.blind);
        self.view.get_or_init(look).as_ref()
    }

    /// What is replaced in a text: all between the quotes.
    fn inside_quotes(&self) -> Span {
        let text = self.line.word.of(self.checked.text());
        let closed = text.len() > 1 && text.ends_with('"');
        Span { start: self.line.word.start + 1, end: self.line.word.end - u32::from(closed) }
    }
}

fn fill(here: &Here, items: &mut Items) {
    if here.line.in_text {
        return texts::paths(here, items);
    }
    match here.zone {
        Zone::Leader if here.line.first() == chart::LETTERS => chart::letters(here, items),
        Zone::Rows | Zone::Leader => chart::rows(here, items),
        Zone::Face => chart::face(here, items),
        _ if here.line.tokens.is_empty() => statements::all(here, items),
        _ => {
            let mut due = due::due(here.line.prefix(), here.zone);
            // After `expect`, how the strands hang is wanted more often than how the face looks.
            due.sort_by_key(|what| *what == Expected::Word("face"));
            due.into_iter().for_each(|what| offer(here, what, items));
        }
    }
}

/// What the grammar asks for, with what is known here.
fn offer(here: &Here, what: Expected, items: &mut Items) {
    match what {
        Expected::Word(text) => word(here, text, items),
        Expected::Number if here.line.first() == "work" => arguments::all(here, items),
        Expected::Number => names::numbers(here, items),
        Expected::Thread => names::threads(here, items),
        Expected::Strand => {
            places::labels(here, items);
            places::by_color(here, items);
        }
        Expected::Bead => names::beads(here, items),
        Expected::Motif => names::motifs(here, items),
        Expected::NewName(NameFor::Thread) => head::thread_names(here, items),
        Expected::Unit => head::units(items),
        Expected::Color => head::colors(items),
        Expected::Length => head::lengths(here, items),
        Expected::Pipe => lists::pipe(here, items),
        Expected::Kind => runs::kinds(here, items),
        Expected::OpenParen => names::parenthesis(here, items),
        Expected::OpenBrace => items.snippet("{ }", "{\n  $0\n}", "a block", CompletionKind::Word),
        Expected::Language => texts::languages(here, items),
        Expected::Text(TextFor::Path) => texts::paths(here, items),
        Expected::Text(_) => {
            let detail = expected_words(what).concat();
            items.snippet("\"\"", "\"$1\"", &detail, CompletionKind::Text);
        }
        // Signs that are sooner written than chosen, and names that nobody knows yet.
        Expected::Statement
        | Expected::StatementNoBrace
        | Expected::LineEnd
        | Expected::LineEndNoThen
        | Expected::Space
        | Expected::SpaceBeforeComment
        | Expected::CloseBrace
        | Expected::CloseParen
        | Expected::Comma
        | Expected::Colon
        | Expected::FirstEdition
        | Expected::NumberNoSeries
        | Expected::NumberOfTurns
        | Expected::NewName(
            NameFor::Bead
            | NameFor::Motif
            | NameFor::Parameter
            | NameFor::Counter
            | NameFor::Label
            | NameFor::Letter,
        ) => {}
    }
}

/// A word of the notation; those of places and extents bring what they lead to.
fn word(here: &Here, word: &str, items: &mut Items) {
    let first = here.line.first();
    match (word, here.line.back(0)) {
        ("left" | "right" | "center", "take" | "leader") => places::by_word(here, word, items),
        ("left" | "right" | "center", "on" | ",") if first == "bead" => places::by_word(here, word, items),
        ("left" | "right" | "center" | "inside", "on") => ranges::by_word(here, word, items),
        ("left" | "right" | "center" | "edge", "to") if first == "take" => runs::goals(here, word, items),
        ("over" | "until" | "to", _) if first == "take" => runs::extents(here, word, items),
        ("start", "expect") => lists::start(here, items),
        ("mirror", _) => items.word("mirror", "the half before it, reflected"),
        _ => names::plain_word(here, word, items),
    }
}
