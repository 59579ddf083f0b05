//! Promises where there are none: the colors of the strands that are taken, and how all strands hang.

use super::Proposal;
use super::pieces::{Siblings, begins_line, indent, line_of};
use crate::hang::list;
use crate::{Checked, TextEdit, views};
use knotwright_checker::{FileId, PartKind, Spot};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Expect, Meet, Statement, StrandBy, Take};
use knotwright_rewriter::line_end;
use std::collections::BTreeMap;

/// More strands than this are not promised in one go.
const MOST: usize = 400;

/// The color after the strand in each `take` of the range that is taken by its place, if it is the same every time.
pub(super) fn colors(checked: &Checked, range: Span) -> Option<Proposal> {
    let siblings = Siblings::of(checked, range)?;
    let inside = |statement: &'_ Statement| {
        if range.is_empty() {
            statement.head.touches(range.start)
        } else {
            range.touches(statement.span.start)
        }
    };
    let mut places: BTreeMap<u32, u32> = BTreeMap::new();
    let blocks = siblings.statements().iter().filter_map(|statement| statement.node.block());
    for statement in siblings.statements().iter().chain(blocks.flat_map(|block| block.walk())) {
        let take = statement.get::<Take>().filter(|take| take.promise.is_none() && inside(statement));
        places.extend(
            take.filter(|take| by_place(take)).map(|take| (statement.span.start, take.strand.span.end)),
        );
    }
    if places.is_empty() || places.len() > MOST {
        return None;
    }
    let edits: Vec<TextEdit> = hands(checked, &places)
        .into_iter()
        .filter_map(|(start, name)| {
            let end = *places.get(&start)?;
            Some(TextEdit { span: Span { start: end, end }, text: format!(" ({})", name?) })
        })
        .collect();
    let title = match edits.len() {
        0 => return None,
        1 => "Promise the color of this strand".to_owned(),
        count => format!("Promise the colors of {count} strands"),
    };
    Some(Proposal::new(title, edits))
}

fn by_place(take: &Take) -> bool {
    !matches!(take.strand.by, StrandBy::Color { .. } | StrandBy::Label(_))
}

/// By the start of a `take`, the thread that it takes; `None` if that is not always the same.
fn hands<'c>(checked: &'c Checked, places: &BTreeMap<u32, u32>) -> BTreeMap<u32, Option<&'c str>> {
    let mut hands: BTreeMap<u32, Option<&str>> = BTreeMap::new();
    let Some(pattern) = checked.pattern() else { return hands };
    for (which, part) in pattern.parts() {
        for step in &part.steps {
            let start = step.place.span.start;
            if step.place.file != FileId::CHECKED || !places.contains_key(&start) {
                continue;
            }
            let order = checked.order(which, step.knots.start);
            let threads = checked.threads_at(which, part, step.knots.start);
            let strand = order.get(usize::from(step.from)).copied().unwrap_or(u8::MAX);
            let thread = threads.get(usize::from(strand)).copied().unwrap_or(u16::MAX);
            let name = pattern.threads.get(usize::from(thread)).map(|thread| thread.name.as_str());
            hands
                .entry(start)
                .and_modify(|known| *known = known.filter(|known| Some(*known) == name))
                .or_insert(name);
        }
    }
    hands
}

/// `expect` below the statement under the cursor, with the strands as they hang there.
pub(super) fn order(checked: &Checked, range: Span) -> Option<Proposal> {
    let siblings = Siblings::of(checked, range).filter(|_| range.is_empty())?;
    let [statement] = siblings.statements() else { return None };
    let next = siblings.block.statements.get(siblings.last);
    let is_step = statement.is::<Take>() || statement.is::<Meet>();
    let has_promise = next.is_some_and(|next| next.is::<Expect>());
    let text = checked.text();
    if !is_step || has_promise || !begins_line(text, statement.span.start) {
        return None;
    }
    let spot = Spot { file: FileId::CHECKED, block: siblings.block.open.start, index: siblings.last };
    let view = checked.look(spot, &[]).filter(|view| !view.blind)?;
    let names = views::names(checked, &view);
    let said = if next.is_none() && hangs_as_begun(checked, view.part, &names) {
        "start".to_owned()
    } else {
        list(&names)
    };
    // A comment stays where it is.
    let at = line_of(text, statement.span.end).end;
    let line = format!("{}{}expect {said}", line_end(text), indent(text, statement.span.start));
    let edit = TextEdit { span: Span { start: at, end: at }, text: line };
    Some(Proposal::new("Promise how the strands hang here", vec![edit]))
}

/// Whether the strands hang as they did when the part began.
fn hangs_as_begun(checked: &Checked, part: PartKind, names: &[&str]) -> bool {
    let Some(pattern) = checked.pattern() else { return false };
    let begun = checked.threads(part);
    begun.len() == names.len()
        && begun.iter().zip(names).all(|(&thread, name)| crate::hang::thread_name(pattern, thread) == *name)
}
