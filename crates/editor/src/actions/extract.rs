//! Selected statements become a motif.

use super::pieces::{Siblings, begins_line, dedented, indent};
use super::{ActionKind, Proposal};
use crate::names::{Mention, NameSort};
use crate::site::Site;
use crate::{Checked, TextEdit, views};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Expect, Statement};
use knotwright_rewriter::line_end;

/// The selected statements as a motif above, worked where they stood. Names from outside come in as parameters.
pub(super) fn motif(checked: &Checked, range: Span) -> Option<Proposal> {
    let siblings = Siblings::of(checked, range).filter(|_| !range.is_empty())?;
    let (view, _) = siblings.piece(checked)?;
    let (span, text) = (siblings.span(), checked.text());
    if !begins_line(text, span.start) || has_start(&siblings) {
        return None;
    }
    let params = params(checked, span)?;
    let name = free_name(checked);
    let (end, here) = (line_end(text), indent(text, span.start));
    let body: Vec<String> = span.of(text).lines().map(|line| format!("  {}", dedented(line, here))).collect();
    let list = params.join(", ");
    let above = Site::at(checked.source(), span.start).path.first()?.span.start;
    let width = views::width(&view);
    let motif = format!("motif {name}({list}) on {width} {{{end}{}{end}}}{end}{end}", body.join(end));
    let edits = vec![
        TextEdit { span: Span { start: above, end: above }, text: motif },
        TextEdit { span, text: format!("work {name}({list})") },
    ];
    let proposal = Proposal::new("Extract a motif", edits);
    Some(Proposal {
        kind: ActionKind::Extract,
        new_name: Some(knotwright_grammar::to_offset("motif ".len())),
        ..proposal
    })
}

/// `expect start` does not belong in motifs.
fn has_start(siblings: &Siblings) -> bool {
    let starts = |statement: &Statement| matches!(statement.get(), Some(Expect::Start { .. }));
    siblings.statements().iter().any(|statement| {
        starts(statement) || statement.node.block().is_some_and(|block| block.walk().any(starts))
    })
}

/// The parameters and counting names that come from outside; `None` if a label does, or if one from inside is named
/// outside.
fn params(checked: &Checked, span: Span) -> Option<Vec<String>> {
    let names = checked.names();
    let inside = |at: Span| span.start <= at.start && at.end <= span.end;
    let mut params: Vec<String> = Vec::new();
    for mention in names.mentions() {
        let symbol = names.symbol(mention);
        let given_inside = symbol.given.is_some_and(inside);
        match (inside(mention.span), given_inside, symbol.sort) {
            (true, false, NameSort::Label) | (false, true, _) => return None,
            (true, false, NameSort::Parameter | NameSort::Counter) => add(&mut params, mention, checked),
            _ => {}
        }
    }
    Some(params)
}

fn add(params: &mut Vec<String>, mention: &Mention, checked: &Checked) {
    let name = mention.span.of(checked.text()).to_owned();
    if !params.contains(&name) {
        params.push(name);
    }
}

/// `piece`, or `piece-2` ... if that is taken.
fn free_name(checked: &Checked) -> String {
    let taken = |name: &str| checked.names().symbols().iter().any(|symbol| symbol.name == name);
    let numbered = (2..).map(|number| format!("piece-{number}"));
    std::iter::once("piece".to_owned()).chain(numbered).find(|name| !taken(name)).unwrap_or_default()
}
