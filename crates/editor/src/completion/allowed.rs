//! The rules that a comment `-- allow` may name.

use super::{CompletionKind, Items};
use crate::site::token_at;
use crate::{Checked, Completion, World};
use knotwright_checker::{Severity, rules};
use knotwright_grammar::{Span, TokenKind, to_offset};

/// The warnings that can be allowed, those that are given in the file first; `None` where no such comment is.
pub(super) fn rules(checked: &Checked, world: &World, at: u32) -> Option<Vec<Completion>> {
    let comment = token_at(checked.source(), at).filter(|token| token.kind == TokenKind::Comment)?;
    let before = Span { end: at, ..comment.span }.of(checked.text());
    let list = before.strip_prefix("--")?.trim_start().strip_prefix("allow")?;
    if !list.starts_with(' ') || list.contains(':') {
        return None;
    }
    let written = list.rsplit([',', ' ']).next().unwrap_or_default();
    let rest = Span { start: at, ..comment.span }.of(checked.text());
    let more = rest.find([',', ' ', ':']).unwrap_or(rest.len());
    let word = Span { start: at - to_offset(written.len()), end: at + to_offset(more) };
    let mut items = Items::new(word);
    let here = checked.findings(world.library).iter().map(|finding| finding.rule);
    for rule in here.chain(rules::all().iter().copied()) {
        if rule.severity == Severity::Warning {
            items.add(rule.name, rule.summary, CompletionKind::Text);
        }
    }
    Some(items.done())
}
