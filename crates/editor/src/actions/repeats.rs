//! The same steps several times as one `repeat`, and the other way about.

use super::Proposal;
use super::inline::in_braces;
use super::pieces::{Siblings, begins_line, dedented, indent};
use crate::exprs::value;
use crate::site::{Site, tokens_in};
use crate::{Checked, TextEdit};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{RepeatBlock, Statement};
use knotwright_rewriter::line_end;

/// A longer text is no help.
const MOST_STATEMENTS: usize = 60;

/// Statements that say the same several times in turn as `repeat N { ... }`: those that are selected, or for a cursor those
/// around it.
pub(super) fn roll_up(checked: &Checked, range: Span) -> Option<Proposal> {
    let siblings = Siblings::of(checked, range)?;
    let (rolled, period) = if range.is_empty() {
        around(checked, siblings)?
    } else {
        (siblings, period(checked, siblings.statements())?)
    };
    let span = rolled.span();
    if rolled.has_comments(checked) || !begins_line(checked.text(), span.start) {
        return None;
    }
    let times = rolled.statements().len() / period;
    let text = checked.text();
    let (end, here) = (line_end(text), indent(text, span.start));
    let group = rolled.statements()[0].span.to(rolled.statements()[period - 1].span).of(text);
    let lines: Vec<String> = group.lines().map(|line| dedented(line, here).to_owned()).collect();
    let written = match lines.as_slice() {
        [only] => format!("repeat {times} {{ {only} }}"),
        _ => in_braces(&format!("repeat {times}"), &lines).join(&format!("{end}{here}")),
    };
    Some(Proposal::new(format!("Write it as `repeat {times}`"), vec![TextEdit { span, text: written }]))
}

/// What a statement says, however it is laid out.
fn words<'c>(checked: &'c Checked, statement: &Statement) -> Vec<&'c str> {
    let tokens = tokens_in(checked.source(), statement.span).iter();
    tokens.map(|token| token.span.of(checked.text())).filter(|word| !word.trim().is_empty()).collect()
}

/// After how many of these statements they begin again, if they do so to their end.
fn period(checked: &Checked, statements: &[Statement]) -> Option<usize> {
    let said: Vec<_> = statements.iter().map(|statement| words(checked, statement)).collect();
    let repeats = |period: &usize| {
        said.len() % period == 0 && (*period..said.len()).all(|at| said[at] == said[at - period])
    };
    (1..=said.len() / 2).find(repeats)
}

/// The longest stretch of repeated statements around the cursor that saves at least two lines, and its period.
fn around<'c>(checked: &'c Checked, cursor: Siblings<'c>) -> Option<(Siblings<'c>, usize)> {
    let all = &cursor.block.statements;
    let first = cursor.first.saturating_sub(MOST_STATEMENTS);
    let last = all.len().min(cursor.first + MOST_STATEMENTS);
    let said: Vec<_> = all[first..last].iter().map(|statement| words(checked, statement)).collect();
    let at = cursor.first - first;
    let stretch = |period: usize| {
        let alike = |one: usize| said.get(one) == said.get(one + period) && one + period < said.len();
        let begin = (0..=at).rev().find(|&one| one == 0 || !alike(one - 1))?;
        let count = (begin..said.len()).take_while(|&one| alike(one)).count() + period;
        let whole = count / period * period;
        let holds = begin <= at && at < begin + whole;
        let siblings = Siblings { first: first + begin, last: first + begin + whole, ..cursor };
        (holds && whole >= period + 2).then_some((siblings, period))
    };
    (1..=said.len() / 2).find_map(stretch)
}

/// `repeat N { ... }` under the cursor as its statements, N times.
pub(super) fn unroll(checked: &Checked, range: Span) -> Option<Proposal> {
    let site = Site::at(checked.source(), range.start);
    let statement = site.inner().filter(|statement| statement.head.touches(range.start))?;
    let repeat = statement.get::<RepeatBlock>()?;
    let times = usize::try_from(value(&repeat.times, &[])?).ok()?;
    let statements = &repeat.block.statements;
    let siblings = Siblings { block: &repeat.block, first: 0, last: statements.len() };
    let text = checked.text();
    if !(1..=MOST_STATEMENTS).contains(&(times * repeat.block.walk().count()))
        || siblings.has_comments(checked)
        || !begins_line(text, statement.span.start)
    {
        return None;
    }
    let (end, here) = (line_end(text), indent(text, statement.span.start));
    let inner = siblings.span();
    let own = indent(text, inner.start);
    let once: Vec<&str> = inner.of(text).lines().map(|line| dedented(line, own)).collect();
    let all: Vec<&str> = std::iter::repeat_n(once, times).flatten().collect();
    let edit = TextEdit { span: statement.span, text: all.join(&format!("{end}{here}")) };
    Some(Proposal::new("Write the `repeat` out", vec![edit]))
}
