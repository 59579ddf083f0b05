//! Rows of a chart of the right length.

use super::due::due;
use super::{CompletionKind, Here, Items, offer};
use crate::site::Site;
use crate::views;
use knotwright_grammar::Expected;
use knotwright_grammar::tree::{FaceChart, RowsChart, Zone};
use knotwright_lettering::HEIGHTS;

/// The word with which a line of a leader begins that stands for letters.
pub(super) const LETTERS: &str = "letters";

/// Whole rows, at the beginning of a line of a chart.
pub(super) fn rows(here: &Here, items: &mut Items) {
    if !here.line.tokens.is_empty() {
        return;
    }
    let width = here.view().map(views::width).filter(|_| here.line.word.is_empty());
    if let Some(width) = width {
        of_marks(here, width, items);
    }
    if here.zone == Zone::Leader {
        items.snippet(
            LETTERS,
            "letters \"${1:AHOY}\"",
            "the rows that make letters",
            CompletionKind::Statement,
        );
    }
}

/// Whole rows of a face, each in one of its letters.
pub(super) fn face(here: &Here, items: &mut Items) {
    let site = Site::at(here.checked.source(), here.line.offset);
    let Some(FaceChart { offset, keys, chart }) = site.inner().and_then(|statement| statement.get()) else {
        return;
    };
    let width = here.view().map(views::width).filter(|_| here.line.tokens.is_empty());
    let Some(width) = width.filter(|_| here.line.word.is_empty()) else { return };
    let above = chart.rows.iter().filter(|row| row.span.end <= here.line.offset).count();
    let first = (above + usize::from(offset.is_some())) % 2;
    let pairs = width.saturating_sub(1 + first).div_ceil(2);
    for key in keys {
        items.add(&row(&key.letter.text, pairs), key.thread.text.as_str(), CompletionKind::List);
    }
}

/// What may follow in a line of letters.
pub(super) fn letters(here: &Here, items: &mut Items) {
    for what in due(here.line.prefix(), here.zone) {
        match what {
            Expected::Number => heights(here, items),
            _ => offer(here, what, items),
        }
    }
}

/// The heights of capitals that the strands have room for.
fn heights(here: &Here, items: &mut Items) {
    let room = here.view().map_or(usize::MAX, |view| views::width(view) - 1);
    for height in HEIGHTS.into_iter().filter(|height| *height <= room) {
        items.add(&height.to_string(), "capitals of this height, in knots", CompletionKind::Number);
    }
}

fn of_marks(here: &Here, width: usize, items: &mut Items) {
    if here.zone == Zone::Leader {
        for (mark, detail) in [(".", "the leader shows all the way"), ("#", "all the other strands show")] {
            items.add(&row(mark, width - 1), detail, CompletionKind::List);
        }
        return;
    }
    let first = first_pair(here);
    let pairs = (width + 1 - first) / 2;
    let marks = [
        ("\\", "forward"),
        ("/", "backward"),
        (">", "forward-backward"),
        ("<", "backward-forward"),
        (".", "no knots"),
    ];
    for (mark, detail) in marks {
        items.add(
            &row(mark, pairs),
            format!("{detail}, from pair {first}–{}", first + 1),
            CompletionKind::List,
        );
    }
}

fn row(mark: &str, count: usize) -> String {
    vec![mark; count].join(" ")
}

/// Whether the row begins with strands 1 and 2 or with 2 and 3.
fn first_pair(here: &Here) -> usize {
    let site = Site::at(here.checked.source(), here.line.offset);
    let Some(RowsChart { offset, chart }) = site.inner().and_then(|statement| statement.get()) else {
        return 1;
    };
    let before = chart.rows.iter().filter(|row| row.span.end <= here.line.offset).count();
    if (before % 2 == 1) != offset.is_some() { 2 } else { 1 }
}
