//! Lists of strands: how they really hang.

use super::{CompletionKind, Here, Items};
use crate::hang::list;
use crate::views;

/// The whole list for an `expect`, or what is left of it.
pub(super) fn rest(here: &Here, items: &mut Items) {
    if here.line.first() != "expect" {
        return;
    }
    let Some(view) = here.view() else { return };
    let names = views::names(here.checked, view);
    let Some(written) = written(here) else { return };
    let left = names.strip_prefix(written.as_slice()).unwrap_or_default();
    if !left.is_empty() && !names.contains(&"an unknown thread") {
        let text = if written.is_empty() { list(left) } else { plain(left) };
        items.add(&text, "as the strands hang here", CompletionKind::List);
    }
}

/// Without `mirror`: it would reflect what was written before, too.
fn plain(names: &[&str]) -> String {
    let runs = names.chunk_by(|one, other| one == other);
    let items: Vec<String> = runs
        .map(|run| if run.len() == 1 { run[0].to_owned() } else { format!("{} {}", run.len(), run[0]) })
        .collect();
    items.join(" ")
}

/// The strands that are listed already; `None` if it is no plain list.
fn written<'c>(here: &Here<'c>) -> Option<Vec<&'c str>> {
    let mut strands = Vec::new();
    let mut count = None;
    for token in here.line.tokens.iter().skip(1) {
        let text = token.span.of(&here.line.source.text);
        match text.parse::<usize>() {
            Ok(number) if number <= 200 => count = Some(number),
            Ok(_) => return None,
            Err(_) if text == "," => {}
            Err(_) if text.starts_with(['|', '(']) => return None,
            Err(_) => strands.extend(std::iter::repeat_n(text, count.take().unwrap_or(1))),
        }
    }
    count.is_none().then_some(strands)
}

/// `start`, if the strands hang as the part began, and `start mirrored`, if they hang as its mirror image.
pub(super) fn start(here: &Here, items: &mut Items) {
    let Some(view) = here.view() else { return items.word("start", "as this part began") };
    let began = crate::views::names(
        here.checked,
        &knotwright_checker::View { order: (0..=u8::MAX).take(view.order.len()).collect(), ..view.clone() },
    );
    let now = views::names(here.checked, view);
    let in_motif = here.line.source.parsed.tree.statements.iter().any(|statement| {
        statement.is::<knotwright_grammar::tree::Motif>() && statement.span.touches(here.line.start())
    });
    if in_motif {
        return;
    }
    if began == now {
        items.word("start", "the strands hang as at the start of this part");
    }
    if began.iter().rev().eq(now.iter()) && began != now {
        items.word("start mirrored", "the strands hang as the mirror image of the start of this part");
    }
}

/// `| mirror` after at least one strand.
pub(super) fn pipe(here: &Here, items: &mut Items) {
    let is_list = matches!(here.line.first(), "strands" | "expect") && here.line.tokens.len() > 1;
    let has_one = here.line.tokens.iter().any(|token| token.span.of(here.checked.text()) == "|");
    if is_list && !has_one {
        items.word("| mirror", "and the same from the other edge");
    }
}
