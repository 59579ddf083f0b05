//! Two texts, one band: the changed text is checked and tied, and its band is compared with the one before.

use crate::hang::thread_name;
use crate::{Checked, TextEdit, World, apply_text_edits};
use knotwright_band::{Cell, JoinMark, normal_form};
use knotwright_checker::{Part, PartKind, Pattern, Severity, Source, analyze};
use knotwright_numbers::ToNumber;
use std::sync::Arc;

/// Whether the text as it is can be compared at all: it ties, and nothing is wrong with it.
pub(super) fn is_sound(checked: &Checked, world: &World) -> bool {
    let mut findings = checked.findings(world.library).iter();
    checked.pattern().is_some()
        && checked.source().parsed.problems.is_empty()
        && findings.all(|finding| finding.rule.severity == Severity::Warning)
}

/// Whether the text with these edits ties the same band, without any error. A change that changes nothing is none.
pub(super) fn same_band(checked: &Checked, world: &World, edits: &[TextEdit]) -> bool {
    let text = apply_text_edits(checked.text(), edits);
    if text == checked.text() {
        return false;
    }
    let source = Arc::new(Source::new(checked.source().path.clone(), text));
    if !source.parsed.problems.is_empty() {
        return false;
    }
    let tied = analyze(source, world.library);
    match (checked.pattern(), tied.pattern()) {
        (Some(before), Some(after)) => tied.errors().is_empty() && alike(before, after),
        _ => false,
    }
}

/// Whether two patterns are one band in all their sets.
fn alike(before: &Pattern, after: &Pattern) -> bool {
    names(before) == names(after)
        && hung(before) == hung(after)
        && steady(before)
        && steady(after)
        && band(before.opening.as_ref()) == band(after.opening.as_ref())
        && band(before.set.as_ref()) == band(after.set.as_ref())
        && band(before.closing.as_ref()) == band(after.closing.as_ref())
}

/// The names of the threads, in whatever order they are declared.
fn names(pattern: &Pattern) -> Vec<&str> {
    let mut names: Vec<&str> = pattern.threads.iter().map(|thread| thread.name.as_str()).collect();
    names.sort_unstable();
    names
}

/// By strand, the name of its thread.
fn hung(pattern: &Pattern) -> Vec<&str> {
    pattern.strands.iter().map(|&thread| thread_name(pattern, thread)).collect()
}

/// A part, however it is written.
type PartForm = (Vec<Cell>, Vec<u8>, usize, Vec<JoinMark>);

/// The knots of a part in normal form, how the strands hang afterwards, which knots are in straight rows, and where strands
/// are joined.
fn band(part: Option<&Part>) -> Option<PartForm> {
    let piece = &part?.piece;
    let straight = piece.straight().iter().map(|range| (range.end - range.start).to_usize()).sum();
    Some((normal_form(piece), piece.order().to_vec(), straight, piece.join_marks()))
}

/// Whether every set is tied like the first: strands are picked by place, or the colors hang again as they did.
fn steady(pattern: &Pattern) -> bool {
    if !pattern.picks_by_color {
        return true;
    }
    pattern.threads_before(PartKind::Set) == pattern.threads_before(PartKind::Closing)
}
