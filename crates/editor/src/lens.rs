//! What is shown above opening, set, closing and motifs.

use crate::Checked;
use crate::names::NameSort;
use crate::wording::{count, length};
use knotwright_checker::PartKind;
use knotwright_grammar::Span;
use knotwright_grammar::tree::Motif;
use knotwright_numbers::ToNumber;

/// A line that is shown above a statement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lens {
    /// The statement's first line.
    pub span: Span,
    /// What is shown.
    pub title: String,
    /// For a motif: where its name stands, so that its places can be shown.
    pub motif: Option<Span>,
}

/// All of them, in order of place.
pub fn code_lenses(checked: &Checked) -> Vec<Lens> {
    let mut lenses = Vec::new();
    for statement in checked.top() {
        let motif = statement.get().map(|motif: &Motif| motif.name.span);
        let title = match motif {
            Some(name) => Some(worked(checked, name)),
            None => PartKind::of(statement).and_then(|which| part(checked, which)),
        };
        lenses.extend(title.map(|title| Lens { span: statement.head, title, motif }));
    }
    lenses
}

fn worked(checked: &Checked, name: Span) -> String {
    let names = checked.names();
    let symbol = names.exactly(name).filter(|mention| names.symbol(mention).sort == NameSort::Motif);
    let mentions = symbol.map_or(0, |mention| names.mentions_of(mention.symbol).filter(|m| !m.gives).count());
    format!("worked in {}", count(mentions.to_u64(), "place"))
}

/// Knots, rows; of a set when it closes; of the last part how long all is.
fn part(checked: &Checked, which: PartKind) -> Option<String> {
    let part = checked.part(which)?;
    let mut facts = Vec::new();
    if which == PartKind::Set {
        facts.extend(closes(checked));
    }
    facts.push(count(part.piece.knots().len().to_u64(), "knot"));
    facts.extend(checked.rows(which).map(|rows| count(u64::from(rows), "row")));
    if which == PartKind::Set {
        facts.extend(size(checked));
    }
    Some(facts.join(" · "))
}

fn closes(checked: &Checked) -> Option<String> {
    let repeats = checked.whole_band()?.repeats?;
    Some(match (repeats.run_in, repeats.colors) {
        (0, 1) => "closes".to_owned(),
        (0, sets) => format!("closes after {}", count(sets, "set")),
        (run_in, sets) => format!("after {} closes every {}", count(run_in, "set"), count(sets, "set")),
    })
}

fn size(checked: &Checked) -> Option<String> {
    let whole = checked.whole_band()?;
    let times = whole.times?;
    let long = whole.length().map(|long| format!(", {}", length(long))).unwrap_or_default();
    Some(format!("{}{long}", count(times, "set")))
}
