//! What a motif is given where it is worked: threads where its parameter is a thread, numbers otherwise.

use super::{CompletionKind, Here, Items, names};
use crate::motifs;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Due, Gives, Name};
use knotwright_grammar::tree::{Motif, NameVisitor, Statement, visit_names};

/// The argument under the cursor.
pub(super) fn all(here: &Here, items: &mut Items) {
    let words: Vec<&str> = here.line.tokens.iter().map(|token| token.span.of(here.checked.text())).collect();
    let Some(found) = words.get(1).and_then(|name| motifs::find(here.checked, name)) else { return };
    // Parentheses within an argument hold no comma.
    let number = words.iter().filter(|word| **word == ",").count();
    let Some(param) = found.motif.params.get(number) else { return };
    if is_thread(found.motif, found.statement, &param.text) {
        return names::all_threads(here, items);
    }
    names::variables(here, items);
    for number in ["1", "2", "3", "4"] {
        items.add(number, param.text.as_str(), CompletionKind::Number);
    }
}

/// Whether a motif calls this parameter where a thread is due.
fn is_thread(motif: &Motif, statement: &Statement, param: &str) -> bool {
    let mut calls = Calls { param, as_thread: false };
    visit_names(statement, motif.block.open, &mut calls);
    calls.as_thread
}

struct Calls<'p> {
    param: &'p str,
    as_thread: bool,
}

impl<'t> NameVisitor<'t> for Calls<'_> {
    fn calls(&mut self, due: Due, name: &'t Name) {
        self.as_thread |= due == Due::Thread && name.text == self.param;
    }

    fn gives(&mut self, _what: Gives, _name: &'t Name, _reach: Span) {}

    fn mark(&self) -> usize {
        0
    }

    fn forget(&mut self, _mark: usize) {}

    fn said(&mut self, _statement: &'t Statement) -> bool {
        true
    }
}
