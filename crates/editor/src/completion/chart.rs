//! Rows of a chart of the right length.

use super::{CompletionKind, Here, Items};
use crate::line::Zone;
use crate::site::Site;
use crate::views;
use knotwright_grammar::tree::Node;

/// Whole rows, at the beginning of a line of a chart.
pub(super) fn rows(here: &Here, items: &mut Items) {
    let Some(width) = here.view().map(views::width) else { return };
    if !here.line.tokens.is_empty() || !here.line.word.is_empty() {
        return;
    }
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
    let Some(Node::Rows { offset, chart }) = site.inner().map(|statement| &statement.node) else { return 1 };
    let before = chart.rows.iter().filter(|row| row.span.end <= here.line.offset).count();
    if (before % 2 == 1) != offset.is_some() { 2 } else { 1 }
}
