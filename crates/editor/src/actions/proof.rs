//! Two texts, one band: the changed text is checked and tied, and its band is compared with the one before.

use crate::reckoning::piece;
use crate::{Checked, TextEdit, World, edited};
use knotwright_band::{Cell, normal_form};
use knotwright_checker::{Part, Pattern, Report, Severity, Source, tie};
use std::sync::Arc;

/// Whether the text as it is can be compared at all: it ties, and nothing is wrong with it.
pub(super) fn is_sound(checked: &Checked) -> bool {
    checked.pattern().is_some() && no_errors(checked.report()) && checked.source().parsed.problems.is_empty()
}

fn no_errors(report: &Report) -> bool {
    report.findings.iter().all(|finding| finding.rule.severity == Severity::Warning)
}

/// Whether the text with these edits ties the same band, without any error. A change that changes nothing is none.
pub(super) fn same_band(checked: &Checked, world: &World, edits: &[TextEdit]) -> bool {
    let text = edited(checked.text(), edits);
    if text == checked.text() {
        return false;
    }
    let source = Arc::new(Source::new(checked.source().path.clone(), text));
    if !source.parsed.problems.is_empty() {
        return false;
    }
    let tied = tie(source, world.library);
    match (checked.pattern(), &tied.pattern) {
        (Some(before), Some(after)) => tied.errors.is_empty() && alike(before, after),
        _ => false,
    }
}

/// Whether two patterns are one band in all their sets.
fn alike(before: &Pattern, after: &Pattern) -> bool {
    before.strands == after.strands
        && names(before) == names(after)
        && steady(before)
        && steady(after)
        && band(before.opening.as_ref()) == band(after.opening.as_ref())
        && band(before.set.as_ref()) == band(after.set.as_ref())
        && band(before.closing.as_ref()) == band(after.closing.as_ref())
}

fn names(pattern: &Pattern) -> Vec<&str> {
    pattern.threads.iter().map(|thread| thread.name.as_str()).collect()
}

/// The knots of a part in normal form, how the strands hang afterwards, and which knots lie in straight rows.
fn band(part: Option<&Part>) -> Option<(Vec<Cell>, Vec<u8>, usize)> {
    let part = part?;
    let piece = piece(part)?;
    let straight = piece.straight().iter().map(|range| (range.end - range.start) as usize).sum();
    Some((normal_form(&piece), part.order.clone(), straight))
}

/// Whether every set is tied like the first: strands are picked by place, or the colors hang again as they did.
fn steady(pattern: &Pattern) -> bool {
    let Some(set) = pattern.set.as_ref().filter(|_| pattern.picks_by_color) else { return true };
    let begin: Vec<u16> = match &pattern.opening {
        Some(opening) => through(&pattern.strands, &opening.order),
        None => pattern.strands.clone(),
    };
    through(&begin, &set.order) == begin
}

fn through(threads: &[u16], order: &[u8]) -> Vec<u16> {
    order.iter().filter_map(|&strand| threads.get(usize::from(strand)).copied()).collect()
}
