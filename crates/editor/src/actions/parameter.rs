//! A number or a thread in a motif becomes a parameter of it.

use super::{ActionKind, Proposal};
use crate::names::NameSort;
use crate::site::{Site, token_at};
use crate::world::everywhere;
use crate::{Checked, TextEdit, World};
use knotwright_grammar::tree::{Motif, Work};
use knotwright_grammar::{Span, TokenKind};
use knotwright_numbers::ToNumber;

/// What stands under the cursor in a motif as a parameter; the lines that work the motif get it as an argument.
pub(super) fn of_value(checked: &Checked, world: &World, range: Span) -> Option<Proposal> {
    let site = Site::at(checked.source(), range.start);
    let motif = site.path.first()?.get::<Motif>()?;
    let body = Span { start: motif.block.open.end, end: motif.block.close?.start };
    if !body.touches(range.start) || is_used_elsewhere(checked, world, motif) {
        return None;
    }
    let token = token_at(checked.source(), range.start)?;
    let written = token.span.of(checked.text());
    let (spans, wish) = match (token.kind, checked.names().exactly(token.span)) {
        (TokenKind::Number, _) => (vec![token.span], "count"),
        (_, Some(mention)) if checked.names().symbol(mention).sort == NameSort::Thread => {
            let all = checked.names().mentions_of(mention.symbol).map(|mention| mention.span);
            (all.filter(|span| body.touches(span.start)).collect(), "shade")
        }
        _ => return None,
    };
    let name = free_name(checked, wish);
    let mut edits: Vec<TextEdit> =
        spans.into_iter().map(|span| TextEdit { span, text: name.clone() }).collect();
    edits.push(params(checked, motif, &name)?);
    for statement in checked.source().parsed.tree.walk() {
        let Some(work) = statement.get::<Work>().filter(|work| work.motif.text == motif.name.text) else {
            continue;
        };
        let after = work.args.last().map(|arg| arg.span().end);
        edits.push(listed(checked, work.motif.span.end, after, written)?);
    }
    let title = format!("Make `{written}` a parameter of `{}`", motif.name.text);
    Some(Proposal { kind: ActionKind::Extract, ..Proposal::new(title, edits) })
}

/// Whether other files work the motif: those cannot be changed along.
fn is_used_elsewhere(checked: &Checked, world: &World, motif: &Motif) -> bool {
    let Some(mention) = checked.names().exactly(motif.name.span) else { return true };
    everywhere(checked, world, mention.symbol).iter().any(|file| file.source.path != checked.source().path)
}

fn params(checked: &Checked, motif: &Motif, name: &str) -> Option<TextEdit> {
    listed(checked, motif.name.span.end, motif.params.last().map(|param| param.span.end), name)
}

/// `new` at the end of a list in parentheses: after what ends at `last`, or as the only one after a name that ends at `name`.
fn listed(checked: &Checked, name: u32, last: Option<u32>, new: &str) -> Option<TextEdit> {
    let (at, text) = match last {
        Some(last) => (last, format!(", {new}")),
        None => {
            let rest = checked.text().get(name.to_usize()..)?;
            let open = rest.find('(')?;
            (name + knotwright_grammar::to_offset(open + 1), new.to_owned())
        }
    };
    Some(TextEdit { span: Span { start: at, end: at }, text })
}

/// The name itself, or with a number after it, if something in the file is called so.
fn free_name(checked: &Checked, wish: &str) -> String {
    let taken = |name: &str| checked.names().symbols().iter().any(|symbol| symbol.name == name);
    let numbered = (2..).map(|number| format!("{wish}-{number}"));
    std::iter::once(wish.to_owned()).chain(numbered).find(|name| !taken(name)).unwrap_or_default()
}
