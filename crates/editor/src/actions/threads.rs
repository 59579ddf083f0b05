//! The threads of the head: two that exchange their colors, and all in the order in which they hang.

use super::Proposal;
use super::pieces::line_of;
use crate::{Checked, TextEdit};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Statement, Thread};
use knotwright_rewriter::line_end;

/// The colors and labels of two selected threads, each in the other's place: the knots stay, the picture changes.
pub(super) fn exchange(checked: &Checked, range: Span) -> Option<Proposal> {
    let touched: Vec<&Statement> = checked.top().iter().filter(|one| is_touched(one, range)).collect();
    let [one, other] = touched.as_slice() else { return None };
    let (first, second) = (one.get::<Thread>()?, other.get::<Thread>()?);
    let (before, after) = (look(first).of(checked.text()), look(second).of(checked.text()));
    let edits = vec![
        TextEdit { span: look(first), text: after.to_owned() },
        TextEdit { span: look(second), text: before.to_owned() },
    ];
    let title = format!("Exchange the colors of `{}` and `{}`", first.name.text, second.name.text);
    Some(Proposal::new(title, edits))
}

fn is_touched(statement: &Statement, range: Span) -> bool {
    statement.span.meets(range)
}

/// A thread's colors, with its label.
fn look(thread: &Thread) -> Span {
    let colors = thread.colors().map(|(color, length)| length.map_or(color.span, |length| length.span));
    let label = thread.others.last().map(|other| &other.text).or(thread.label.as_deref());
    let end = label.map(|label| label.span).or(colors.last());
    thread.color.span.to(end.unwrap_or(thread.color.span))
}

/// The threads around the cursor in the order in which they hang from left to right; those that never hang come last.
pub(super) fn sort(checked: &Checked, range: Span) -> Option<Proposal> {
    let top = checked.top();
    let here = top.iter().position(|one| is_touched(one, range) && one.is::<Thread>())?;
    let first = here - top[..here].iter().rev().take_while(|one| one.is::<Thread>()).count();
    let threads: Vec<&Statement> = top[first..].iter().take_while(|one| one.is::<Thread>()).collect();
    let text = checked.text();
    let lines: Vec<&str> =
        Span { end: threads.last()?.span.end, ..threads.first()?.span }.of(text).lines().collect();
    // A comment on a line of its own belongs to one of them, but nobody knows to which.
    if lines.len() != threads.len() {
        return None;
    }
    let pattern = checked.pattern()?;
    let hangs = |statement: &Statement| {
        let name = &statement.get::<Thread>()?.name.text;
        let number = pattern.threads.iter().position(|thread| thread.name == *name)?;
        pattern.strands.iter().position(|&strand| usize::from(strand) == number)
    };
    let mut sorted: Vec<(usize, String)> = threads
        .iter()
        .map(|statement| (hangs(statement).unwrap_or(usize::MAX), whole_line(text, statement)))
        .collect();
    sorted.sort_by_key(|(place, _)| *place);
    let span = threads.first()?.span.to(whole_line_span(text, threads.last()?));
    let sorted: Vec<String> = sorted.into_iter().map(|(_, line)| line).collect();
    let edit = TextEdit { span, text: sorted.join(line_end(text)) };
    Some(Proposal::new("Sort the threads as they hang", vec![edit]))
}

/// A statement with the comment at the end of its line.
fn whole_line_span(text: &str, statement: &Statement) -> Span {
    Span { end: line_of(text, statement.span.end).end, ..statement.span }
}

fn whole_line(text: &str, statement: &Statement) -> String {
    whole_line_span(text, statement).of(text).trim_end().to_owned()
}
