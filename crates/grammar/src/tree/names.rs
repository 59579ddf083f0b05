//! Goes through the names of statements with what is in scope, for all who ask what a name stands for.
//!
//! A name that a statement with a block gives reaches over that block; one that a statement without gives reaches from
//! there to the end of the block around it. Threads and motifs reach over the whole file, before their statements too:
//! who goes through a file gathers them first. In a colorway the name of a thread calls a thread of the file.

use super::{Block, Child, Due, Gives, Name, Node, Statement, Zone};
use crate::Span;

/// What is met while going through names. Of a statement: first the names that it calls, then those that it gives, then
/// [`said`](Self::said), then what its block holds.
pub trait NameVisitor<'t> {
    /// A name is called that must stand for this.
    fn calls(&mut self, due: Due, name: &'t Name);
    /// A name is given, to be known within `reach`.
    fn gives(&mut self, what: Gives, name: &'t Name, reach: Span);
    /// How many names are in scope.
    fn mark(&self) -> usize;
    /// All names that were given since that mark go out of scope.
    fn forget(&mut self, mark: usize);
    /// The names of a statement were met. Whether its block is gone through.
    fn said(&mut self, statement: &'t Statement) -> bool;
}

/// Goes through the names of `statement`, which is in a block that covers `around`.
pub fn visit_names<'t>(statement: &'t Statement, around: Span, names: &mut impl NameVisitor<'t>) {
    visit(statement, Around { span: around, zone: Zone::Top }, names);
}

/// The block around a statement.
#[derive(Clone, Copy)]
struct Around {
    span: Span,
    zone: Zone,
}

fn visit<'t>(statement: &'t Statement, around: Around, names: &mut impl NameVisitor<'t>) {
    let mark = names.mark();
    let block = statement.node.block();
    let end = if block.is_some() { statement.span.end } else { around.span.end };
    let reach = Span { start: statement.span.start, end };
    statement.node.children(&mut |child| match child {
        Child::Calls(due, name) => names.calls(due, name),
        Child::Gives(Gives::Thread, name) if around.zone == Zone::Colorway => names.calls(Due::Thread, name),
        Child::Gives(what, name) => names.gives(what, name, reach),
        Child::Number(..)
        | Child::Text(_)
        | Child::Strand(_)
        | Child::Runs(_)
        | Child::Run(_)
        | Child::Then(_)
        | Child::List(_)
        | Child::Block(_)
        | Child::Chart(_) => {}
    });
    let goes_on = names.said(statement);
    if let Some(block) = block {
        if goes_on {
            let within = Around { span: statement.span, zone: holds(&statement.node) };
            in_block(block, within, names);
        }
        names.forget(mark);
    }
}

fn in_block<'t>(block: &'t Block, within: Around, names: &mut impl NameVisitor<'t>) {
    let mark = names.mark();
    block.statements.iter().for_each(|statement| visit(statement, within, names));
    names.forget(mark);
}

/// What the block of a statement holds; anything, if it does not parse.
fn holds(node: &Node) -> Zone {
    node.declaration().and_then(|declaration| declaration.holds).unwrap_or(Zone::Any)
}
