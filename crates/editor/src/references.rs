//! Where a name is given, and where it stands.

use crate::world::everywhere;
use crate::{Checked, Target, World, motifs};
use knotwright_grammar::Span;

/// Where the name under the cursor is given; for a path in `use`, the beginning of that file.
pub fn definition(checked: &Checked, offset: u32) -> Option<Target> {
    if let Some(used) = checked.uses().iter().find(|used| used.span.touches(offset)) {
        return Some(Target { path: used.source.as_ref()?.path.clone(), span: Span::default() });
    }
    let names = checked.names();
    let symbol = names.symbol(names.at(offset)?);
    if symbol.from.is_some()
        && let Some(found) = motifs::find(checked, &symbol.name)
    {
        return Some(Target { path: found.source.path.clone(), span: found.motif.name.span });
    }
    Some(Target { path: checked.source().path.clone(), span: symbol.given? })
}

/// Where the name under the cursor stands, in order of file and place; where it is given only if `given` says so.
pub fn references(checked: &Checked, world: &World, offset: u32, given: bool) -> Vec<Target> {
    let Some(mention) = checked.names().at(offset) else { return Vec::new() };
    let mut found = Vec::new();
    for stands in everywhere(checked, world, mention.symbol) {
        let spans = stands.spans.iter().filter(|(_, gives)| given || !gives);
        found.extend(spans.map(|(span, _)| Target { path: stands.source.path.clone(), span: *span }));
    }
    found.sort();
    found
}

/// The same name elsewhere in this file, and whether it is given there.
pub fn highlights(checked: &Checked, offset: u32) -> Vec<(Span, bool)> {
    let names = checked.names();
    let Some(mention) = names.at(offset) else { return Vec::new() };
    names.mentions_of(mention.symbol).map(|mention| (mention.span, mention.gives)).collect()
}

/// Places that are to be edited as one while the cursor is in one of them: a label, a parameter or a counting name,
/// and where it stands. Empty if the name is written in more than one way.
pub fn linked(checked: &Checked, offset: u32) -> Vec<Span> {
    let names = checked.names();
    let Some(mention) = names.at(offset) else { return Vec::new() };
    let symbol = names.symbol(mention);
    let local = symbol.given.is_some() && symbol.reach.len() < checked.text().len();
    let spans: Vec<Span> = names.mentions_of(mention.symbol).map(|mention| mention.span).collect();
    let written = mention.span.of(checked.text());
    if local && spans.iter().all(|span| span.of(checked.text()) == written) { spans } else { Vec::new() }
}
