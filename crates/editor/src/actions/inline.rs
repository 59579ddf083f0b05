//! What a motif ties, in place of the line that works it.

use super::Proposal;
use super::pieces::{begins_line, dedented, indent};
use crate::site::Site;
use crate::{Checked, TextEdit, apply_text_edits};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, Expr, Motif, Statement, Work};
use knotwright_numbers::ToNumber;
use knotwright_rewriter::line_end;

/// The body of the motif that is worked under the cursor, with the arguments in place of its parameters. If it is worked nowhere
/// else, the motif itself goes.
pub(super) fn motif(checked: &Checked, range: Span) -> Option<Proposal> {
    let site = Site::at(checked.source(), range.start);
    let statement = site.inner()?;
    let work = statement.get::<Work>()?;
    let name = &work.motif.text;
    let (declared, motif) = checked
        .top()
        .iter()
        .find_map(|top| Some((top, top.get::<Motif>().filter(|motif| motif.name.text == *name)?)))?;
    let lines = body(checked, motif, &work.args)?;
    let mut edits = vec![in_place(checked, site.path.iter().rev().nth(1)?, statement, work, &lines)?];
    if uses(checked, name) == 1 {
        edits.push(TextEdit { span: with_line_end(checked.text(), declared.span), text: String::new() });
    }
    Some(Proposal::new(format!("Write out the motif `{name}`"), edits))
}

/// The lines of a motif's body without their common indent; `None` if it is empty or has other parameters.
fn body(checked: &Checked, motif: &Motif, args: &[Expr]) -> Option<Vec<String>> {
    let first = motif.block.statements.first()?;
    let end = motif.block.close?.start;
    if motif.params.len() != args.len() {
        return None;
    }
    let (text, names) = (checked.text(), checked.names());
    let inner = Span { start: first.span.start, end };
    let mut edits = Vec::new();
    for (param, arg) in motif.params.iter().zip(args) {
        let symbol = names.exactly(param.span)?.symbol;
        let written = argument(text, arg);
        let mentions = names.mentions_of(symbol).filter(|mention| inner.touches(mention.span.start));
        edits.extend(mentions.map(|mention| TextEdit {
            span: Span { start: mention.span.start - inner.start, end: mention.span.end - inner.start },
            text: written.clone(),
        }));
    }
    let here = indent(text, first.span.start);
    let filled = apply_text_edits(inner.of(text), &edits);
    Some(filled.trim_end().lines().map(|line| dedented(line, here).to_owned()).collect())
}

/// An argument as it may stand anywhere in a sum.
fn argument(text: &str, arg: &Expr) -> String {
    let written = arg.span().of(text);
    match arg {
        Expr::Operation(_) => format!("({written})"),
        Expr::Number(_) | Expr::Name(_) | Expr::Group(_) => written.to_owned(),
    }
}

/// The lines in place of `statement`; if it shares its line with the braces around it, in place of all between them.
fn in_place(
    checked: &Checked,
    around: &Statement,
    statement: &Statement,
    work: &Work,
    lines: &[String],
) -> Option<TextEdit> {
    let text = checked.text();
    let (end, here) = (line_end(text), indent(text, statement.span.start));
    let lines = if work.mirrored.is_some() { in_braces("mirrored", lines) } else { lines.to_vec() };
    if begins_line(text, statement.span.start) {
        return Some(TextEdit { span: statement.span, text: lines.join(&format!("{end}{here}")) });
    }
    let Block { open, close, .. } = around.node.block()?;
    let span = Span { start: open.end, end: (*close)?.start };
    let lines: Vec<String> = lines.iter().map(|line| format!("{end}{here}  {line}")).collect();
    Some(TextEdit { span, text: format!("{}{end}{here}", lines.concat()) })
}

/// `WORD {`, the lines, `}`
pub(super) fn in_braces(word: &str, lines: &[String]) -> Vec<String> {
    let inner = lines.iter().map(|line| if line.is_empty() { String::new() } else { format!("  {line}") });
    std::iter::once(format!("{word} {{")).chain(inner).chain(["}".to_owned()]).collect()
}

/// How many lines of this file work the motif.
fn uses(checked: &Checked, name: &str) -> usize {
    let works = |statement: &&Statement| statement.get::<Work>().is_some_and(|work| work.motif.text == name);
    checked.source().parsed.tree.walk().filter(works).count()
}

/// The statement with the rest of its line, and the empty lines after it.
fn with_line_end(text: &str, span: Span) -> Span {
    let rest = text.get(span.end.to_usize()..).unwrap_or_default();
    let blank = rest.len() - rest.trim_start_matches([' ', '\t', '\r', '\n']).len();
    // What begins the next line keeps its indent; at the top of a file there is none.
    Span { end: span.end + knotwright_grammar::to_offset(blank), ..span }
}
