//! Strands by place, by color and by label, each with the color that hangs there.

use super::{CompletionKind, Here, Items};
use crate::hang::thread_name;
use crate::names::NameSort;
use crate::views;
use crate::wording::ordinal;
use knotwright_checker::{Known, View};
use knotwright_numbers::ToNumber;

/// More places than this from one side are not listed.
const MOST: usize = 32;

/// `left 3`, `right 3` or `center left`, with and without the color as a promise.
pub(super) fn by_word(here: &Here, word: &str, items: &mut Items) {
    let Some(view) = here.view() else { return super::names::plain_word(here, word, items) };
    let width = views::width(view);
    let places: Vec<(String, usize)> = match (word, width % 2) {
        ("left", _) => (1..=width.min(MOST)).map(|at| (format!("left {at}"), at)).collect(),
        ("right", _) => (1..=width.min(MOST)).map(|at| (format!("right {at}"), width + 1 - at)).collect(),
        (_, 0) => vec![("center left".to_owned(), width / 2), ("center right".to_owned(), width / 2 + 1)],
        _ => vec![("center".to_owned(), width / 2 + 1)],
    };
    let leads = here.line.first() == "leader";
    for (label, at) in places.into_iter().filter(|(_, at)| !leads || *at == 1 || *at == width) {
        let color = color(here, view, at);
        items.add(&label, color, CompletionKind::Place);
        if views::thread(view, at) != u16::MAX && here.line.first() != "bead" {
            items.add(&format!("{label} ({color})"), "with the color as a promise", CompletionKind::Place);
        }
    }
}

fn color<'c>(here: &Here<'c>, view: &View, at: usize) -> &'c str {
    let thread = views::thread(view, at);
    here.checked.pattern().map_or("", |pattern| thread_name(pattern, thread))
}

/// The numbers after `left` and `right`, with the color at each place.
pub(super) fn numbers(here: &Here, items: &mut Items) {
    let Some(view) = here.view() else { return };
    let width = views::width(view);
    for number in 1..=width.min(2 * MOST) {
        let at = if here.line.back(0) == "left" { number } else { width + 1 - number };
        items.add(&number.to_string(), color(here, view, at), CompletionKind::Number);
    }
}

/// `foam 2 from left`: each color once from either side.
pub(super) fn by_color(here: &Here, items: &mut Items) {
    let Some((view, pattern)) = here.view().zip(here.checked.pattern()) else {
        return super::names::threads(here, items);
    };
    let is_bead = here.line.first() == "bead" && matches!(here.line.back(0), "on" | ",");
    if !is_bead && !matches!(here.line.back(0), "take" | "leader") {
        return;
    }
    let width = views::width(view);
    for (number, thread) in pattern.threads.iter().enumerate() {
        let hangs = |at: &usize| usize::from(views::thread(view, *at)) == number;
        let Some(first) = (1..=width).find(hangs) else { continue };
        let last = (1..=width).rev().find(hangs).unwrap_or(first);
        for (side, at) in [("left", first), ("right", last)] {
            let place = format!("the {} from the left", ordinal(at.to_u64()));
            items.add(&format!("{} 1 from {side}", thread.name), place, CompletionKind::Place);
        }
    }
}

/// How many strands of the color before the cursor there are to be counted.
pub(super) fn nth(here: &Here, items: &mut Items) {
    let Some((view, pattern)) = here.view().zip(here.checked.pattern()) else { return };
    let name = here.line.back(0);
    let Some(number) = pattern.threads.iter().position(|thread| thread.name == name) else { return };
    let there = (1..=views::width(view)).filter(|&at| usize::from(views::thread(view, at)) == number).count();
    for nth in 1..=there.min(MOST) {
        items.add(&nth.to_string(), format!("of {there} {name}"), CompletionKind::Number);
    }
}

/// The labels that are known here.
pub(super) fn labels(here: &Here, items: &mut Items) {
    let position = |name: &str| {
        let view = here.view()?;
        let (_, value) = view.names.iter().rev().find(|(known, _)| known == name)?;
        match value {
            Known::Position(at) => Some(ordinal(u64::from(*at) + 1)),
            _ => None,
        }
    };
    let labels =
        here.checked.names().known_at(here.line.start()).filter(|symbol| symbol.sort == NameSort::Label);
    for label in labels.filter(|label| label.given.is_some_and(|given| given.start < here.line.start())) {
        let detail = position(&label.name)
            .map_or("a label".to_owned(), |place| format!("the {place} from the left now"));
        items.add(&label.name, detail, CompletionKind::Label);
    }
}
