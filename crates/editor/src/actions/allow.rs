//! A comment that lets a warning stay.

use super::{Action, ActionKind};
use crate::{Checked, FileEdit};
use knotwright_checker::{Finding, Severity, Tag};
use knotwright_grammar::{Span, TokenKind};
use knotwright_numbers::ToNumber;
use knotwright_rewriter::line_end;

/// What comes after the colon until a person says why.
const REASON: &str = "meant so";

/// `-- allow RULE: meant so` at the end of the line, or on a line of its own above where the line has a comment.
pub(super) fn comment(checked: &Checked, finding: &Finding, number: usize) -> Option<Action> {
    if finding.rule.severity == Severity::Error || finding.rule.has(Tag::Comment) {
        return None;
    }
    let text = checked.text();
    let at = finding.place.span.start.to_usize();
    let is_end = |letter: char| letter == '\n' || letter == '\r';
    let start = text.get(..at)?.rfind(is_end).map_or(0, |end| end + 1);
    let end = text.get(at..)?.find(is_end).map_or(text.len(), |length| at + length);
    let said = format!("-- allow {}: {REASON}", finding.rule.name);
    let (span, new) = if has_comment(checked, start, end) {
        let line = text.get(start..end)?;
        let indent = &line[..line.len() - line.trim_start().len()];
        (Span::new(start, start), format!("{indent}{said}{}", line_end(text)))
    } else {
        let kept = start + text.get(start..end)?.trim_end().len();
        (Span::new(kept, end), format!("  {said}"))
    };
    let edits = vec![FileEdit { path: checked.source().path.clone(), span, text: new }];
    let title = format!("Allow `{}` here", finding.rule.name);
    Some(Action {
        title,
        kind: ActionKind::Fix,
        edits,
        finding: Some(number),
        preferred: false,
        new_name: None,
    })
}

fn has_comment(checked: &Checked, start: usize, end: usize) -> bool {
    let within = |span: Span| start <= span.start.to_usize() && span.end.to_usize() <= end;
    let comments = checked.source().parsed.tokens.iter().filter(|token| token.kind == TokenKind::Comment);
    comments.into_iter().any(|comment| within(comment.span))
}
