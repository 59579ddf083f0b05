//! Colors, units, lengths, and the threads of a colorway.

use super::{CompletionKind, Here, Items};
use crate::line::Zone;
use crate::names::Sort;
use knotwright_color::Rgb;
use knotwright_grammar::tree::Node;

/// The colors of CSS by name, and a place for digits.
pub(super) fn colors(items: &mut Items) {
    items.snippet("#rrggbb", "#${1:808080}", "red, green and blue, two digits each", CompletionKind::Color);
    for name in knotwright_color::names() {
        let color = name.parse::<Rgb>().map(|rgb| rgb.to_string()).unwrap_or_default();
        items.add(name, color, CompletionKind::Color);
    }
}

/// The units of length.
pub(super) fn units(items: &mut Items) {
    for (unit, detail) in
        [("mm", "millimeters"), ("cm", "centimeters"), ("m", "meters"), ("in", "inches of 25.4 mm")]
    {
        items.add(unit, detail, CompletionKind::Unit);
    }
}

/// A length to fill in.
pub(super) fn lengths(items: &mut Items) {
    for (example, detail) in [("15 cm", "a length"), ("0.9 mm", "a thickness"), ("6 in", "a length")] {
        items.add(example, detail, CompletionKind::Number);
    }
}

/// In a colorway: the threads that it does not have yet.
pub(super) fn thread_names(here: &Here, items: &mut Items) {
    if here.zone != Zone::Colorway {
        return;
    }
    let around = here.checked.top().iter().find(|statement| statement.span.touches(here.line.start()));
    let has = |name: &str| {
        let block = around.and_then(|statement| statement.node.block());
        block.is_some_and(|block| {
            block.statements.iter().any(|statement| {
                statement.span.start != here.line.start()
                    && matches!(&statement.node, Node::Thread(thread) if thread.name.text == name)
            })
        })
    };
    for symbol in here.checked.names().symbols() {
        if symbol.sort == Sort::Thread && symbol.given.is_some() && !has(&symbol.name) {
            items.add(&symbol.name, "another color for it", CompletionKind::Thread);
        }
    }
}
