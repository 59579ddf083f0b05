//! Colors, units, lengths, and the threads of a colorway.

use super::{CompletionKind, Here, Items};
use crate::names::NameSort;
use knotwright_color::Rgb;
use knotwright_grammar::tree::{Thread, Zone};

/// The colors of CSS by name, and a place for digits.
pub(super) fn colors(items: &mut Items) {
    items.snippet("#rrggbb", "#${1:808080}", "red, green and blue, two digits each", CompletionKind::Color);
    for name in knotwright_color::color_names() {
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

/// Lengths as they are usual there; common practice, no source.
pub(super) fn lengths(here: &Here, items: &mut Items) {
    let usual: [(&str, &str); 3] = match (here.line.first(), here.line.back(0)) {
        ("thickness", _) => [("0.9 mm", "a usual thread"), ("0.5 mm", "a thin one"), ("2 mm", "a cord")],
        (_, "use") => [("105 mm", "of thread"), ("10 cm", "of thread"), ("4 in", "of thread")],
        (_, "measure") => {
            [("32 mm", "along the band"), ("3 cm", "along the band"), ("1.25 in", "along the band")]
        }
        ("hole", _) => {
            [("1.5 mm", "for a thin thread"), ("2 mm", "for a usual one"), ("4 mm", "for several")]
        }
        (_, "bead") | ("bead", _) => {
            [("4 mm", "a small one"), ("6 mm", "a middling one"), ("10 mm", "a large one")]
        }
        ("ends", _) => {
            [("10 cm", "left free at each end"), ("15 cm", "to plait"), ("4 in", "left free at each end")]
        }
        ("plait" | "twist", _) => [("6 cm", "as a strap"), ("8 cm", "to tie with"), ("3 in", "to tie with")],
        ("tassel", _) => [("2 cm", "a short one"), ("4 cm", "a long one"), ("10 cm", "to tie with")],
        ("start" | "loop", _) => {
            [("2 cm", "of the loop"), ("15 mm", "of the loop"), ("0.75 in", "of the loop")]
        }
        _ => [("15 cm", "around a wrist"), ("6 in", "around a wrist"), ("25 cm", "around an ankle")],
    };
    usual.iter().for_each(|(length, detail)| items.add(length, *detail, CompletionKind::Number));
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
                    && statement.get().is_some_and(|thread: &Thread| thread.name.text == name)
            })
        })
    };
    for symbol in here.checked.names().symbols() {
        if symbol.sort == NameSort::Thread && symbol.given.is_some() && !has(&symbol.name) {
            items.add(&symbol.name, "another color for it", CompletionKind::Thread);
        }
    }
}
