//! A count instead of `over`, `until` and `to`, and the other way about.

use super::Proposal;
use crate::hang::follow;
use crate::site::Site;
use crate::steps::{Tied, came_to, is_mirrored, kinds, runs_of};
use crate::{Checked, TextEdit};
use knotwright_band::Knot;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Expr, Extent, Node, Run, Take};

/// Other extents for the run under the cursor.
pub(super) fn otherwise(checked: &Checked, range: Span) -> Vec<Proposal> {
    found(checked, range).unwrap_or_default()
}

fn found(checked: &Checked, range: Span) -> Option<Vec<Proposal>> {
    let site = Site::at(checked.source(), range.start);
    let Node::Take(take) = &site.inner()?.node else { return None };
    let moment = checked.moments().at(range.start)?;
    let runs = runs_of(take, moment.span.start);
    let number = runs.iter().position(|run| run.span.touches(range.start))?;
    let tied = Tied::of(checked, moment)?;
    let counts = came_to(&tied, take, moment.span.start);
    let count = counts.get(number).copied().flatten()?;
    let before: usize = counts[..number].iter().map(|count| count.unwrap_or_default()).sum();
    let knots = tied.knots().get(before..before + count)?;
    let run = &runs[number];
    let kind = *kinds(take, moment.span.start).get(number)?;
    let span = extent_span(checked, run)?;
    let proposal = |text: String| {
        Proposal::new(
            format!("Write `{text}` instead of `{}`", span.of(checked.text())),
            vec![TextEdit { span, text }],
        )
    };
    Some(match &run.extent {
        Extent::Count { count: Expr::Number(_), over: None } if kind.swaps() => {
            extents(&tied, take, moment.span.start, (knots, before)).into_iter().map(proposal).collect()
        }
        Extent::Over(_) | Extent::Until(_) | Extent::To(_) => vec![proposal(count.to_string())],
        _ => Vec::new(),
    })
}

/// The run without its kind.
fn extent_span(checked: &Checked, run: &Run) -> Option<Span> {
    let Some((_, kind)) = run.kind else { return Some(run.span) };
    let rest = Span { start: kind.end, end: run.span.end };
    let written = rest.of(checked.text());
    let start = rest.start + (written.len() - written.trim_start().len()) as u32;
    (start < rest.end).then_some(Span { start, ..rest })
}

/// What the count could be called as it comes out here: to the edge or the middle, over one color, until another.
fn extents(tied: &Tied, take: &Take, start: u32, (knots, before): (&[Knot], usize)) -> Vec<String> {
    let Some((hand, next)) = stops(tied, knots, before) else { return Vec::new() };
    let (low, high) = (usize::from(tied.step.within.0), usize::from(tied.step.within.1));
    let local = if is_mirrored(tied, take, &kinds(take, start)) {
        (high + 1).saturating_sub(hand)
    } else {
        (hand + 1).saturating_sub(low)
    };
    let width = high + 1 - low;
    let mut found = Vec::new();
    if next.is_none() {
        found.push("to edge".to_owned());
    }
    match (2 * local, width % 2) {
        (twice, 0) if twice == width => found.push("to center left".to_owned()),
        (twice, 0) if twice == width + 2 => found.push("to center right".to_owned()),
        (twice, 1) if twice == width + 1 => found.push("to center".to_owned()),
        _ => {}
    }
    let color = knots.first().map(|first| tied.name(first.base)).unwrap_or_default();
    if knots.iter().all(|knot| tied.name(knot.base) == color) && next != Some(color) {
        found.push(format!("over {color}"));
    }
    let until = next.filter(|next| knots.iter().all(|knot| tied.name(knot.base) != *next));
    found.extend(until.map(|until| format!("until {until}")));
    found
}

/// Where the strand in hand hangs after the run, and the thread that it would tie over next, if the range goes on.
fn stops<'c>(tied: &Tied<'c>, knots: &[Knot], before: usize) -> Option<(usize, Option<&'c str>)> {
    let last = knots.last()?;
    let mut order = tied.before.clone();
    tied.knots().get(..before + knots.len())?.iter().for_each(|knot| follow(&mut order, knot));
    let hand = order.iter().position(|&strand| strand == last.working)?;
    let next = if last.kind.left_works() { Some(hand + 1) } else { hand.checked_sub(1) };
    let (low, high) = (usize::from(tied.step.within.0), usize::from(tied.step.within.1));
    let next = next.filter(|next| (low..=high).contains(next)).and_then(|next| order.get(next));
    Some((hand, next.map(|&strand| tied.name(strand))))
}
