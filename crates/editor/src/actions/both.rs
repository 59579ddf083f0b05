//! Two pieces that mirror each other become one `both`.

use super::Proposal;
use super::pieces::{Siblings, begins_line, indent};
use crate::{Checked, TextEdit};
use knotwright_band::normal_form;
use knotwright_grammar::Span;
use knotwright_grammar::tree::Statement;
use knotwright_rewriter::line_end;

/// The first half of the selected statements in `both`, in place of all; for a cursor, the statement and the next.
pub(super) fn fold(checked: &Checked, range: Span) -> Option<Proposal> {
    let mut siblings = Siblings::of(checked, range)?;
    if range.is_empty() && siblings.statements().len() == 1 {
        siblings.last = (siblings.last + 1).min(siblings.block.statements.len());
    }
    let all = siblings.statements();
    let (half, other) = all.split_at(all.len() / 2);
    if all.len() % 2 == 1 || !half.iter().zip(other).all(|(one, other)| alike(one, other)) {
        return None;
    }
    let span = siblings.span();
    let text = checked.text();
    if half.is_empty() || siblings.has_comments(checked) || !begins_line(text, span.start) {
        return None;
    }
    let middle = siblings.first + half.len();
    let (_, one) = Siblings { last: middle, ..siblings }.piece(checked)?;
    let (_, other) = Siblings { first: middle, ..siblings }.piece(checked)?;
    if normal_form(&one.mirrored()) != normal_form(&other) {
        return None;
    }
    let first = half.first()?.span.to(half.last()?.span);
    let new = written(first.of(text), half.len(), indent(text, span.start), line_end(text));
    Some(Proposal::new("Write both halves as one `both`", vec![TextEdit { span, text: new }]))
}

/// Whether two statements can be mirror images: they begin alike.
fn alike(one: &Statement, other: &Statement) -> bool {
    std::mem::discriminant(&one.node) == std::mem::discriminant(&other.node)
}

fn written(half: &str, count: usize, indent: &str, end: &str) -> String {
    if count == 1 && !half.contains(['\n', '\r']) {
        return format!("both {{ {half} }}");
    }
    let lines: Vec<String> = half.lines().map(|line| format!("  {line}")).collect();
    format!("both {{{end}{indent}{}{end}{indent}}}", lines.join(end))
}
