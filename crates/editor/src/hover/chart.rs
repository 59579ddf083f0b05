//! A row of a chart: its knots.

use super::Look;
use crate::steps::{Tied, kind_word};
use crate::wording::{count, quoted};
use knotwright_band::Knot;
use knotwright_grammar::tree::{Mark, Node, Sign};

/// So many knots of a row are told one by one.
const MOST: usize = 12;

/// The row under the cursor; `None` if the cursor is in no chart.
pub(super) fn words(look: &Look) -> Option<Vec<String>> {
    let (chart, leader) = match look.node()? {
        Node::Rows { chart, .. } => (chart, false),
        Node::Leader { chart, .. } => (chart, true),
        _ => return None,
    };
    let (number, row) =
        chart.rows.iter().enumerate().find(|(_, row)| row.span.touches(look.token.span.start))?;
    let mut text = vec![format!("Row {} of {}.", number + 1, chart.rows.len())];
    text.extend(
        row.marks.iter().rfind(|mark| mark.offset <= look.token.span.start).map(|mark| sign(mark, leader)),
    );
    let tied = look.checked.moments().from(row.span.start).and_then(|moment| Tied::of(look.checked, moment));
    let Some(tied) = tied else {
        text.push("It is not tied.".to_owned());
        return Some(text);
    };
    text.push(knots(&tied));
    text.push(format!("Before: `{}`", tied.list(&tied.before)));
    text.push(format!("After: `{}`", tied.list(&tied.after)));
    Some(text)
}

fn knots(tied: &Tied) -> String {
    let knots = tied.knots();
    let told: Vec<String> = knots.iter().take(MOST).map(|knot| one(tied, knot)).collect();
    let more = if knots.len() > MOST { format!("; and {} more", knots.len() - MOST) } else { String::new() };
    match knots.len() {
        0 => "No knots.".to_owned(),
        many => format!("{}: {}{more}.", count(many as u64, "knot"), told.join("; ")),
    }
}

fn one(tied: &Tied, knot: &Knot) -> String {
    let places = (knot.gap + 1, knot.gap + 2);
    let (working, base) = (quoted(tied.name(knot.working)), quoted(tied.name(knot.base)));
    format!("{}–{} {} {working} over {base}", places.0, places.1, kind_word(knot.kind))
}

fn sign(mark: &Mark, leader: bool) -> String {
    let told = match (mark.sign, leader) {
        (Sign::Forward, _) => "`\\`: a forward knot",
        (Sign::Backward, _) => "`/`: a backward knot",
        (Sign::ForwardBackward, _) => "`>`: a forward-backward knot",
        (Sign::BackwardForward, _) => "`<`: a backward-forward knot",
        (Sign::Same, _) => "`x`: a knot of two strands of one color",
        (Sign::Dot, true) => "`.`: the leader ties on the strand, and its own color shows",
        (Sign::Dot, false) => "`.`: no knot",
        (Sign::Hash, _) => "`#`: the strand ties on the leader, and the strand's color shows",
    };
    format!("{told}.")
}
