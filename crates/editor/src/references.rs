//! Where a name is given, and where it stands.

use crate::world::{NameStands, everywhere};
use crate::{Checked, FilePlace, World, motifs};
use knotwright_grammar::Span;

/// Where the name under the cursor is given; for a path in `use`, the beginning of that file.
pub fn find_definition(checked: &Checked, offset: u32) -> Option<FilePlace> {
    if let Some(used) = checked.uses().iter().find(|used| used.span.touches(offset)) {
        return Some(FilePlace { path: used.source.as_ref()?.path.clone(), span: Span::default() });
    }
    let names = checked.names();
    let symbol = names.symbol(names.at(offset)?);
    if symbol.from.is_some()
        && let Some(found) = motifs::find(checked, &symbol.name)
    {
        return Some(FilePlace { path: found.source.path.clone(), span: found.motif.name.span });
    }
    Some(FilePlace { path: checked.source().path.clone(), span: symbol.given? })
}

/// Where the name under the cursor stands, in order of file and place; where it is given only if `given` says so.
pub fn find_references(checked: &Checked, world: &World, offset: u32, given: bool) -> Vec<FilePlace> {
    let Some(mention) = checked.names().at(offset) else { return Vec::new() };
    let mut found = Vec::new();
    for stands in everywhere(checked, world, mention.symbol) {
        let spans = stands.spans.iter().filter(|(_, gives)| given || !gives);
        found.extend(spans.map(|(span, _)| FilePlace { path: stands.source.path.clone(), span: *span }));
    }
    found.sort();
    found
}

/// The same name elsewhere in this file, and whether it is given there.
pub fn document_highlights(checked: &Checked, offset: u32) -> Vec<(Span, bool)> {
    let names = checked.names();
    let Some(mention) = names.at(offset) else { return Vec::new() };
    names.mentions_of(mention.symbol).map(|mention| (mention.span, mention.gives)).collect()
}

/// Places that are to be edited as one while the cursor is in one of them: a name that this file gives, and where it stands.
/// Empty if the name is written in more than one way, or is that of a motif that another file uses or has.
pub fn linked_editing_ranges(checked: &Checked, world: &World, offset: u32) -> Vec<Span> {
    let names = checked.names();
    let Some(mention) = names.at(offset) else { return Vec::new() };
    let symbol = names.symbol(mention);
    let is_here = |file: &NameStands| file.source.path == checked.source().path;
    let is_alone = || symbol.from.is_none() && everywhere(checked, world, mention.symbol).iter().all(is_here);
    let spans: Vec<Span> = names.mentions_of(mention.symbol).map(|mention| mention.span).collect();
    let written = mention.span.of(checked.text());
    let is_one_word = spans.iter().all(|span| span.of(checked.text()) == written);
    if symbol.given.is_some() && is_one_word && is_alone() { spans } else { Vec::new() }
}
