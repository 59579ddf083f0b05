//! PartKind motif is worked from where.

use crate::motifs::{self, FoundMotif, signature};
use crate::names::NameSort;
use crate::world::everywhere;
use crate::{Checked, World};
use knotwright_checker::{PartKind, Source};
use knotwright_grammar::tree::{Motif, Statement, Work};
use knotwright_grammar::{Span, to_offset};
use std::sync::Arc;

/// A motif or a part, as one end of a call.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CallItem {
    /// Its name.
    pub name: String,
    /// Its signature.
    pub detail: String,
    /// Its file.
    pub path: String,
    /// All of it.
    pub span: Span,
    /// Where its name stands.
    pub name_span: Span,
}

/// The other end of calls, and where in the text they stand: in the file of the one who works.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Call {
    /// The other end.
    pub item: CallItem,
    /// The names in `work` statements.
    pub spans: Vec<Span>,
}

/// The motif whose name is under the cursor, else the motif or part around it.
pub fn call_item(checked: &Checked, offset: u32) -> Option<CallItem> {
    let names = checked.names();
    if let Some(mention) = names.at(offset)
        && names.symbol(mention).sort == NameSort::Motif
    {
        return motifs::find(checked, &names.symbol(mention).name).map(motif_item);
    }
    let source = checked.source();
    let around = checked.top().iter().find(|statement| statement.span.touches(offset))?;
    item(source, around)
}

/// Who works the motif whose name or block is under the cursor, in all files.
pub fn incoming_calls(checked: &Checked, world: &World, offset: u32) -> Vec<Call> {
    let names = checked.names();
    let named = names.at(offset).filter(|mention| names.symbol(mention).sort == NameSort::Motif);
    let symbol = named.map(|mention| mention.symbol).or_else(|| {
        let around = checked.top().iter().find(|statement| statement.span.touches(offset))?;
        let motif = around.get::<Motif>()?;
        names.exactly(motif.name.span).map(|mention| mention.symbol)
    });
    let Some(symbol) = symbol else { return Vec::new() };
    let mut calls = Vec::new();
    for stands in everywhere(checked, world, symbol) {
        for statement in &stands.source.parsed.tree.statements {
            let within = |span: &Span| statement.span.start <= span.start && span.end <= statement.span.end;
            let worked = stands.spans.iter().filter(|(_, gives)| !gives).map(|(span, _)| *span);
            let spans: Vec<Span> = worked.filter(within).collect();
            if let (false, Some(item)) = (spans.is_empty(), item(&stands.source, statement)) {
                calls.push(Call { item, spans });
            }
        }
    }
    calls
}

/// What the motif or part around the cursor works.
pub fn outgoing_calls(checked: &Checked, offset: u32) -> Vec<Call> {
    let Some(around) = checked.top().iter().find(|statement| statement.span.touches(offset)) else {
        return Vec::new();
    };
    let mut calls: Vec<Call> = Vec::new();
    for statement in around.node.block().into_iter().flat_map(|block| block.walk()) {
        let Some(work) = statement.get::<Work>() else { continue };
        let Some(found) = motifs::find(checked, &work.motif.text) else { continue };
        let item = motif_item(found);
        match calls.iter_mut().find(|call| call.item == item) {
            Some(call) => call.spans.push(work.motif.span),
            None => calls.push(Call { item, spans: vec![work.motif.span] }),
        }
    }
    calls
}

fn motif_item(found: FoundMotif) -> CallItem {
    CallItem {
        name: found.motif.name.text.to_string(),
        detail: signature(found.motif),
        path: found.source.path.clone(),
        span: found.statement.span,
        name_span: found.motif.name.span,
    }
}

fn item(source: &Arc<Source>, statement: &Statement) -> Option<CallItem> {
    if let Some(motif) = statement.get() {
        return Some(motif_item(FoundMotif { motif, statement, source }));
    }
    let word = statement.node.word().filter(|_| PartKind::of(statement).is_some())?;
    let name_span = Span { end: statement.span.start + to_offset(word.len()), ..statement.span };
    let (name, path) = (word.to_owned(), source.path.clone());
    Some(CallItem { name, detail: String::new(), path, span: statement.span, name_span })
}
