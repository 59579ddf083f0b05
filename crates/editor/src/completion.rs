//! What may be written where the cursor is: words of the notation, and the strands as they really hang there.

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

use crate::line::{Line, Zone};
use crate::{Checked, World};
use item::Items;
use knotwright_checker::{Spot, View};
use knotwright_grammar::Span;
use std::cell::OnceCell;

/// What may be written at `offset`, the likeliest first. Nothing in comments, and in texts only paths.
pub fn completion(checked: &Checked, world: &World, offset: u32) -> Vec<Completion> {
    let Some(line) = Line::at(checked.source(), offset) else { return Vec::new() };
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
    line: Line<'c>,
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
        Zone::Rows | Zone::Leader => chart::rows(here, items),
        _ if here.line.tokens.is_empty() => statements::all(here, items),
        _ => {
            for what in due::due(here.line.prefix(), here.zone) {
                offer(here, what, items);
            }
        }
    }
}

/// What the grammar asks for, with what is known here.
fn offer(here: &Here, what: &'static str, items: &mut Items) {
    match what {
        "a number" => names::numbers(here, items),
        "a thread" => names::threads(here, items),
        "a thread or a label" => {
            places::labels(here, items);
            places::by_color(here, items);
        }
        "the name of a motif" => names::motifs(here, items),
        "a name for the thread" => head::thread_names(here, items),
        "`mm`, `cm`, `m` or `in`" => head::units(items),
        "a path in quotes" => texts::paths(here, items),
        "`(`" => names::parenthesis(here, items),
        "`{`" => items.snippet("{ }", "{\n  $0\n}", "a block", CompletionKind::Word),
        what if what.starts_with("a color") => head::colors(items),
        what if what.starts_with("a length") => head::lengths(items),
        what if what.starts_with("a kind of knot") => runs::kinds(here, items),
        what if what.ends_with("in quotes") => items.snippet("\"\"", "\"$1\"", what, CompletionKind::Text),
        what => word(here, what.trim_matches('`'), items),
    }
}

/// A word of the notation; those of places and extents bring what they lead to.
fn word(here: &Here, word: &str, items: &mut Items) {
    let first = here.line.first();
    match (word, here.line.back(0)) {
        ("left" | "right" | "center", "take" | "leader") => places::by_word(here, word, items),
        ("left" | "right" | "center" | "inside", "on") => ranges::by_word(here, word, items),
        ("left" | "right" | "center" | "edge", "to") if first == "take" => runs::goals(here, word, items),
        ("over" | "until" | "to", _) if first == "take" => runs::extents(here, word, items),
        ("start", "expect") => lists::start(here, items),
        ("mirror", _) => items.word("mirror", "the half before it, reflected"),
        _ => names::plain_word(word, items),
    }
}
