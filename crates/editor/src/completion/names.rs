//! Names: threads, motifs, parameters, and numbers by what they are for.

use super::{CompletionKind, Here, Items, lists, places, ranges, runs};
use crate::hang::thread_name;
use crate::names::{NameSort, NamedSymbol};
use crate::wording::length;
use crate::{motifs, views};
use knotwright_grammar::tree::{Bead, Motif, Thread, Zone};
use knotwright_grammar::words;

/// A word of the notation with its help.
pub(super) fn plain_word(here: &Here, word: &str, items: &mut Items) {
    let Some(entry) = words::find_within(word, here.line.first()) else { return };
    items.word(word, entry.form);
    items.document(entry.help);
}

/// A number, by what stands before it.
pub(super) fn numbers(here: &Here, items: &mut Items) {
    let line = &here.line;
    match (line.back(0), line.back(1)) {
        ("left" | "right", _) if line.first() == "bead" => places::numbers(here, items),
        ("left" | "right", "take" | "leader") => places::numbers(here, items),
        ("left" | "right", "to") => runs::goal_numbers(here, items),
        ("left" | "right" | "center" | "inside", "on") => ranges::numbers(here, items),
        ("plait", _) => few(items, &[("3", "bundles"), ("4", "bundles"), ("6", "bundles")]),
        ("split", _) => few(items, &[("2", "parts"), ("3", "parts")]),
        (_, "wrap" | "slide") | ("slide", _) => {
            few(items, &[("6", "turns"), ("8", "turns"), ("12", "turns")])
        }
        (kind, _) if super::hand::kind(kind).is_some() => runs::counts(here, items),
        (_, "take" | "leader") => places::nth(here, items),
        _ => {}
    }
    variables(here, items);
}

/// Numbers that are usual there; common practice, no source.
fn few(items: &mut Items, usual: &[(&str, &str)]) {
    usual.iter().for_each(|(number, detail)| items.add(number, *detail, CompletionKind::Number));
}

fn known<'h>(here: &'h Here, sort: NameSort) -> impl Iterator<Item = &'h NamedSymbol> {
    let at = here.line.start();
    // A counter is not yet known in the line that gives it.
    let before = move |symbol: &&NamedSymbol| {
        symbol.sort == NameSort::Thread || symbol.given.is_some_and(|given| given.end < at)
    };
    here.checked.names().known_at(at).filter(move |symbol| symbol.sort == sort).filter(before)
}

/// Parameters and numbers that count.
pub(super) fn variables(here: &Here, items: &mut Items) {
    if here.zone != Zone::Body || here.line.first() == "strands" {
        return;
    }
    for sort in [NameSort::Counter, NameSort::Parameter] {
        for symbol in known(here, sort) {
            items.add(&symbol.name, sort.word(), CompletionKind::Variable);
        }
    }
}

/// Threads, the likeliest first: the promised one, those ahead, those of a list.
pub(super) fn threads(here: &Here, items: &mut Items) {
    match (here.line.first(), here.line.back(0)) {
        ("expect", _) => lists::rest(here, items),
        ("take", "over" | "until") => return runs::colors_ahead_or(here, items, all_threads),
        ("take" | "leader", "(") => promised(here, items),
        _ => {}
    }
    all_threads(here, items);
}

pub(super) fn all_threads(here: &Here, items: &mut Items) {
    for symbol in known(here, NameSort::Thread) {
        items.add(&symbol.name, color_of(here, &symbol.name), CompletionKind::Thread);
    }
    if here.zone == Zone::Body {
        for symbol in known(here, NameSort::Parameter) {
            items.add(&symbol.name, symbol.sort.word(), CompletionKind::Variable);
        }
    }
}

/// Beads, with their size.
pub(super) fn beads(here: &Here, items: &mut Items) {
    for bead in here.checked.top().iter().filter_map(|statement| statement.get::<Bead>()) {
        let size = length(bead.size.across.millimeters);
        let detail = format!("a bead, {}, {size}", bead.color.value);
        items.add(&bead.name.text, detail, CompletionKind::Thread);
    }
}

fn color_of(here: &Here, name: &str) -> String {
    let mut threads = here.checked.top().iter().filter_map(|statement| statement.get::<Thread>());
    threads
        .find(|thread| thread.name.text == name)
        .map(|thread| thread.colors().map(|(color, _)| color.value.as_str()).collect::<Vec<_>>().join(", "))
        .unwrap_or_default()
}

/// The color of the strand that is taken.
fn promised(here: &Here, items: &mut Items) {
    if let Some(name) = taken_color(here) {
        items.add(&name, "the strand there", CompletionKind::Thread);
    }
}

fn taken_color(here: &Here) -> Option<String> {
    let text = here.line.prefix().trim_end_matches(['(', ' ']);
    let take = text.strip_prefix("leader").map_or_else(|| text.to_owned(), |rest| format!("take{rest}"));
    let more = super::hand::statements(&format!("{take}: forward 0"));
    let view = here.checked.look(here.spot?, &more).filter(|view| !view.blind && view.fits)?;
    let pattern = here.checked.pattern()?;
    let at = views::local(&view, usize::from(view.held?));
    let thread = views::thread(&view, at);
    (thread != u16::MAX).then(|| thread_name(pattern, thread).to_owned())
}

/// `(kelp)`: the color of the strand as a promise.
pub(super) fn parenthesis(here: &Here, items: &mut Items) {
    if !matches!(here.line.first(), "take" | "leader") {
        return;
    }
    if let Some(name) = taken_color(here) {
        items.add(
            &format!("({name})"),
            "the color of the strand there, as a promise",
            CompletionKind::Thread,
        );
    }
}

/// Motifs: in `work` those that fit, in `use` those of other files.
pub(super) fn motifs(here: &Here, items: &mut Items) {
    if here.line.first() == "use" {
        return super::texts::motifs_elsewhere(here, items);
    }
    let width = here.view().map(views::width);
    let around = here.checked.top().iter().find(|statement| statement.span.touches(here.line.start()));
    let own = around.and_then(|statement| Some(statement.get::<Motif>()?.name.text.clone()));
    let fits = |motif: &Motif| {
        motif.width.zip(width).is_none_or(|(wanted, width)| usize::try_from(wanted.value) == Ok(width))
    };
    for found in motifs::all(here.checked) {
        if Some(&found.motif.name.text) == own.as_ref() || !fits(found.motif) {
            continue;
        }
        let params = found.motif.params.iter().enumerate();
        let places: Vec<String> =
            params.map(|(at, param)| format!("${{{}:{}}}", at + 1, param.text)).collect();
        let snippet = format!("{}({})", found.motif.name.text, places.join(", "));
        items.snippet(
            &found.motif.name.text,
            &snippet,
            &motifs::signature(found.motif),
            CompletionKind::Motif,
        );
        items.document(crate::docs::above(found.source, found.statement.span.start).unwrap_or_default());
    }
}
