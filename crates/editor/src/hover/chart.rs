//! A row of a chart: its knots.

use super::HoverLook;
use crate::letters::{laid, marks};
use crate::steps::{TiedStep, kind_word};
use crate::wording::{count, quoted};
use knotwright_band::Knot;
use knotwright_grammar::tree::{ChartRow, FaceChart, FaceKey, LeaderChart, Letters, Mark, Sign};
use knotwright_numbers::ToNumber;

/// At most this many knots of a row are listed one by one.
const MOST: usize = 12;

/// The row under the cursor; `None` if the cursor is in no chart.
pub(super) fn words(look: &HoverLook) -> Option<Vec<String>> {
    let (chart, leader) = (look.node()?.chart()?, look.node()?.is::<LeaderChart>());
    let (number, row) =
        chart.rows.iter().enumerate().find(|(_, row)| row.span.touches(look.token.span.start))?;
    if let Some(letters) = &row.letters {
        return Some(lettered(look, row, letters));
    }
    let mut text = vec![format!("Row {} of {}.", number + 1, chart.rows.len())];
    if let Some(face) = look.node()?.get::<FaceChart>() {
        text.extend(wished(look, row, face));
        return Some(text);
    }
    text.extend(
        row.marks.iter().rfind(|mark| mark.offset <= look.token.span.start).map(|mark| sign(mark, leader)),
    );
    let tied =
        look.checked.moments().from(row.span.start).and_then(|moment| TiedStep::of(look.checked, moment));
    let Some(tied) = tied else {
        text.push("It is not tied.".to_owned());
        return Some(text);
    };
    text.push(knots(&tied));
    text.push(format!("Before: `{}`", tied.list(&tied.before)));
    text.push(format!("After: `{}`", tied.list(&tied.after)));
    Some(text)
}

/// What is to be seen at the mark under the cursor.
fn wished(look: &HoverLook, row: &ChartRow, face: &FaceChart) -> Option<String> {
    let mark = row.marks.iter().rfind(|mark| mark.offset <= look.token.span.start)?;
    let Sign::Letter(letter) = mark.sign else { return Some(sign(mark, false)) };
    let is_its = |key: &&FaceKey| key.letter.text.chars().eq([letter]);
    let thread = face.keys.iter().find(is_its)?;
    Some(format!("`{letter}`: this knot is to show {}.", quoted(&thread.thread.text)))
}

/// Of letters: how high they are, how many rows they take, and how they look, as the band hangs.
fn lettered(look: &HoverLook, row: &ChartRow, letters: &Letters) -> Vec<String> {
    let laid = look.checked.moments().from(row.span.start).and_then(|moment| {
        let (low, high) = TiedStep::of(look.checked, moment)?.step.within;
        laid(letters, usize::from(high - low))
    });
    let Some(laid) = laid else { return vec!["These letters are not tied.".to_owned()] };
    let rows: Vec<&Vec<bool>> = laid.letters.iter().flat_map(|letter| &letter.rows).collect();
    let facts = format!(
        "{} in letters of height {}, in {}; the leader comes back.",
        quoted(&letters.text.value),
        laid.height,
        count(rows.len().to_u64(), "row")
    );
    vec![facts, format!("```text\n{}\n```", marks(&rows, "\n"))]
}

fn knots(tied: &TiedStep) -> String {
    let knots = tied.knots();
    let facts: Vec<String> = knots.iter().take(MOST).map(|knot| one(tied, knot)).collect();
    let more = if knots.len() > MOST { format!("; and {} more", knots.len() - MOST) } else { String::new() };
    match knots.len() {
        0 => "No knots.".to_owned(),
        many => format!("{}: {}{more}.", count(many.to_u64(), "knot"), facts.join("; ")),
    }
}

fn one(tied: &TiedStep, knot: &Knot) -> String {
    let places = (knot.gap + 1, knot.gap + 2);
    let (working, base) = (quoted(tied.name(knot.working)), quoted(tied.name(knot.base)));
    format!("{}–{} {} {working} over {base}", places.0, places.1, kind_word(knot.kind))
}

fn sign(mark: &Mark, leader: bool) -> String {
    let facts = match (mark.sign, leader) {
        (Sign::Forward, _) => "`\\`: a forward knot",
        (Sign::Backward, _) => "`/`: a backward knot",
        (Sign::ForwardBackward, _) => "`>`: a forward-backward knot",
        (Sign::BackwardForward, _) => "`<`: a backward-forward knot",
        (Sign::Same, _) => "`x`: a knot of two strands of one color",
        (Sign::Dot, true) => "`.`: the leader ties on the strand, and its own color shows",
        (Sign::Dot, false) => "`.`: no knot",
        (Sign::Any, _) => "`?`: a knot of whatever color",
        (Sign::Letter(_), _) => "a knot of this color",
        (Sign::Hash, _) => "`#`: the strand ties on the leader, and the strand's color shows",
    };
    format!("{facts}.")
}
