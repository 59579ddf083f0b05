//! A count instead of `over`, `until` and `to`, and the other way about.

use super::Proposal;
use crate::site::Site;
use crate::steps::{Tied, came_to, kinds, runs_of};
use crate::{Checked, TextEdit};
use knotwright_band::Knot;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Expr, Extent, Node, Run};

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
            extents(&tied, knots, before).into_iter().map(proposal).collect()
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

/// What the count could be called: to the edge or the middle, over one color, until another.
fn extents(tied: &Tied, knots: &[Knot], before: usize) -> Vec<String> {
    let mut found = vec![
        "to edge".to_owned(),
        "to center left".to_owned(),
        "to center right".to_owned(),
        "to center".to_owned(),
    ];
    if let Some(first) = knots.first() {
        found.push(format!("over {}", tied.name(first.base)));
    }
    found.extend(next(tied, knots, before).map(|strand| format!("until {}", tied.name(strand))));
    found
}

/// The strand that the run stops at.
fn next(tied: &Tied, knots: &[Knot], before: usize) -> Option<u8> {
    let last = knots.last()?;
    let mut order = tied.before.clone();
    tied.knots().get(..before + knots.len())?.iter().for_each(|knot| crate::hang::follow(&mut order, knot));
    let hand = order.iter().position(|&strand| strand == last.working)?;
    if last.kind.left_works() {
        order.get(hand + 1).copied()
    } else {
        order.get(hand.checked_sub(1)?).copied()
    }
}
