//! A step in words: who works, over whom, how the strands hang before and after, where the strand goes.

use super::HoverLook;
use crate::moments::TiedMoment;
use crate::steps::{TiedStep, came_to, kind_word, runs_of};
use crate::wording::{both, count, ordinal, quoted};
use knotwright_checker::Named;
use knotwright_grammar::tree::{Extent, Meet, Node, Run, Take};
use knotwright_numbers::ToNumber;

/// The step under the cursor: that of a `take`, of its `then`, or of a `meet`.
pub(super) fn words(look: &HoverLook) -> Vec<String> {
    let Some(moment) = moment(look) else { return Vec::new() };
    let Some(tied) = TiedStep::of(look.checked, moment) else { return Vec::new() };
    let mut text = match look.node().and_then(Node::get::<Take>) {
        Some(take) => taken(&tied, take, moment),
        None => met(&tied),
    };
    text.push(format!("Before: `{}`", tied.list(&tied.before)));
    text.push(format!("After: `{}`", tied.list(&tied.after)));
    if moment.times > 1 {
        text.push(format!(
            "Tied {} in all; this is the first, in the {}.",
            count(u64::from(moment.times), "time"),
            tied.which.word()
        ));
    }
    text
}

/// The moment under the cursor, if it is a `take` or a `meet`.
pub(super) fn moment<'c>(look: &HoverLook<'c>) -> Option<&'c TiedMoment> {
    let statement = look.site.inner()?;
    let moments = look.checked.moments();
    if statement.is::<Meet>() {
        return moments.from(statement.span.start);
    }
    statement.get::<Take>()?;
    let here = moments.at(look.token.span.start).filter(|moment| statement.span.start <= moment.span.start);
    here.or_else(|| moments.from(statement.span.start))
}

fn taken(tied: &TiedStep, take: &Take, moment: &TiedMoment) -> Vec<String> {
    let Some(hand) = tied.hand() else { return Vec::new() };
    let from = usize::from(tied.step.from);
    let began = if usize::from(hand) == from {
        String::new()
    } else {
        format!(" (it began as the {})", ordinal(u64::from(hand) + 1))
    };
    let mut text = vec![format!(
        "{} works, the {} from the left of {}{began}.",
        quoted(tied.name(hand)),
        ordinal(from.to_u64() + 1),
        tied.before.len()
    )];
    let runs = runs_of(take, moment.span.start);
    text.push(tied_knots(tied));
    text.extend(extents(runs, &came_to(tied, take, moment.span.start)));
    text.push(match tied.goal() {
        Some(goal) if goal != from => format!("It goes from place {} to place {}.", from + 1, goal + 1),
        _ => "It ends where it began.".to_owned(),
    });
    text
}

/// "Ties 4 knots: forward over foam, foam, sand; backward over kelp."
fn tied_knots(tied: &TiedStep) -> String {
    let knots = tied.knots();
    if knots.is_empty() {
        return "Ties no knot.".to_owned();
    }
    let mut facts = Vec::new();
    for run in knots.chunk_by(|one, other| one.kind == other.kind) {
        let bases: Vec<&str> = run.iter().map(|knot| tied.name(knot.base)).collect();
        facts.push(format!(
            "{} {} over {}",
            kind_word(run[0].kind),
            run.len(),
            crate::hang::short_list(&bases, 80)
        ));
    }
    let which: String = facts.join("; ");
    format!("Ties {}: `{which}`.", count(knots.len().to_u64(), "knot"))
}

/// What `over`, `until` and `to` came to.
fn extents(runs: &[Run], counts: &[Option<usize>]) -> Option<String> {
    let facts = |(run, count_of): (&Run, &Option<usize>)| {
        let word = match &run.extent {
            Extent::Over(name) => format!("over {}", name.text),
            Extent::Until(name) => format!("until {}", name.text),
            Extent::To(_) => "to".to_owned(),
            Extent::Count { .. } | Extent::Series(_) => return None,
        };
        count_of.map(|came_to| format!("`{word}` came to {}", count(came_to.to_u64(), "knot")))
    };
    let facts: Vec<String> = runs.iter().zip(counts).filter_map(facts).collect();
    (!facts.is_empty()).then(|| format!("Here {}.", both(&facts)))
}

fn met(tied: &TiedStep) -> Vec<String> {
    let Some(knot) = tied.knots().first() else { return Vec::new() };
    let threads = [knot.working, knot.base].map(|strand| quoted(tied.name(strand)));
    let gap = u64::from(knot.gap) + 1;
    let places = [ordinal(gap), ordinal(gap + 1)];
    match tied.step.named {
        Named::Meet => {
            vec![format!("One knot between the {} strand, {} and {}.", both(&places), threads[0], threads[1])]
        }
        _ => Vec::new(),
    }
}
