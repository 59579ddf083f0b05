//! A count instead of `over`, `until` and `to`, and the other way about.

use super::Proposal;
use crate::hang::follow;
use crate::site::Site;
use crate::steps::{TiedStep, came_to, is_mirrored, kinds, runs_of};
use crate::{Checked, TextEdit};
use knotwright_band::Knot;
use knotwright_grammar::tree::{Expr, Extent, Run, Take};
use knotwright_grammar::{Span, to_offset};

/// A run as it was tied: its knots, and how many the step ties before it.
struct TiedRun<'a> {
    knots: &'a [Knot],
    before: usize,
}

/// Other extents for the run under the cursor.
pub(super) fn otherwise(checked: &Checked, range: Span) -> Vec<Proposal> {
    found(checked, range).unwrap_or_default()
}

fn found(checked: &Checked, range: Span) -> Option<Vec<Proposal>> {
    let site = Site::at(checked.source(), range.start);
    let take = site.inner()?.get::<Take>()?;
    let moment = checked.moments().at(range.start)?;
    let runs = runs_of(take, moment.span.start);
    let number = runs.iter().position(|run| run.span.touches(range.start))?;
    let tied = TiedStep::of(checked, moment)?;
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
            extents(&tied, take, moment.span.start, &TiedRun { knots, before })
                .into_iter()
                .map(proposal)
                .collect()
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
    let start = rest.start + to_offset(written.len() - written.trim_start().len());
    (start < rest.end).then_some(Span { start, ..rest })
}

/// What the count could be called as it comes out here: to the edge or the middle, over one color, until another.
fn extents(tied: &TiedStep, take: &Take, start: u32, run: &TiedRun<'_>) -> Vec<String> {
    let Some((hand, next)) = stops(tied, run) else { return Vec::new() };
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
    let color = run.knots.first().map(|first| tied.name(first.base)).unwrap_or_default();
    if run.knots.iter().all(|knot| tied.name(knot.base) == color) && next != Some(color) {
        found.push(format!("over {color}"));
    }
    let until = next.filter(|next| run.knots.iter().all(|knot| tied.name(knot.base) != *next));
    found.extend(until.map(|until| format!("until {until}")));
    found
}

/// Where the strand in hand hangs after the run, and the thread that it would tie over next, if the range goes on.
fn stops<'c>(tied: &TiedStep<'c>, run: &TiedRun<'_>) -> Option<(usize, Option<&'c str>)> {
    let last = run.knots.last()?;
    let mut order = tied.before.clone();
    tied.knots().get(..run.before + run.knots.len())?.iter().for_each(|knot| follow(&mut order, knot));
    let hand = order.iter().position(|&strand| strand == last.working)?;
    let next = if last.kind.left_works() { Some(hand + 1) } else { hand.checked_sub(1) };
    let (low, high) = (usize::from(tied.step.within.0), usize::from(tied.step.within.1));
    let next = next.filter(|next| (low..=high).contains(next)).and_then(|next| order.get(next));
    Some((hand, next.map(|&strand| tied.name(strand))))
}
