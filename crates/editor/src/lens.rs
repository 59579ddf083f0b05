//! What is told above opening, set, closing and motifs.

use crate::Checked;
use crate::names::Sort;
use crate::reckoning::rows;
use crate::wording::{count, length};
use knotwright_checker::Which;
use knotwright_grammar::Span;
use knotwright_grammar::tree::Node;

/// A line that is shown above a statement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lens {
    /// The statement's first line.
    pub span: Span,
    /// What is told.
    pub title: String,
    /// For a motif: where its name stands, so that its places can be shown.
    pub motif: Option<Span>,
}

/// All of them, in order of place.
pub fn lenses(checked: &Checked) -> Vec<Lens> {
    let mut lenses = Vec::new();
    for statement in checked.top() {
        let title = match &statement.node {
            Node::Opening(_) => part(checked, Which::Opening),
            Node::Set(_) => part(checked, Which::Set),
            Node::Closing(_) => part(checked, Which::Closing),
            Node::Motif(motif) => Some(worked(checked, motif.name.span)),
            _ => None,
        };
        let motif = if let Node::Motif(motif) = &statement.node { Some(motif.name.span) } else { None };
        lenses.extend(title.map(|title| Lens { span: statement.head, title, motif }));
    }
    lenses
}

fn worked(checked: &Checked, name: Span) -> String {
    let names = checked.names();
    let symbol = names.exactly(name).filter(|mention| names.symbol(mention).sort == Sort::Motif);
    let mentions = symbol.map_or(0, |mention| names.mentions_of(mention.symbol).filter(|m| !m.gives).count());
    format!("worked in {}", count(mentions as u64, "place"))
}

/// Knots, rows; of a set when it closes; of the last part how long all is.
fn part(checked: &Checked, which: Which) -> Option<String> {
    let part = checked.part(which)?;
    let mut told = Vec::new();
    if which == Which::Set {
        told.extend(closes(checked));
    }
    told.push(count(part.knots.len() as u64, "knot"));
    told.extend(rows(part).map(|rows| count(u64::from(rows), "row")));
    if which == Which::Set {
        told.extend(size(checked));
    }
    Some(told.join(" · "))
}

fn closes(checked: &Checked) -> Option<String> {
    let repeats = checked.reckoning()?.repeats?;
    Some(match (repeats.run_in, repeats.colors) {
        (0, 1) => "closes".to_owned(),
        (0, sets) => format!("closes after {}", count(sets, "set")),
        (run_in, sets) => format!("after {} closes every {}", count(run_in, "set"), count(sets, "set")),
    })
}

fn size(checked: &Checked) -> Option<String> {
    let reckoning = checked.reckoning()?;
    let times = reckoning.times?;
    let long = reckoning.length().map(|long| format!(", {}", length(long))).unwrap_or_default();
    Some(format!("{}{long}", count(times, "set")))
}
