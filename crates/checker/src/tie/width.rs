//! The number in `motif NAME() on N` that is itself wrong: wherever the motif is worked, as many other strands hang.

use crate::resolve::{MotifRef, Script};
use crate::{FileId, PartKind};
use knotwright_grammar::tree::{Expr, Motif, OnBlock, Range, Statement, Work};
use knotwright_numbers::ToNumber;

/// If a motif is meant for a number so near to that of all strands, one of these may be missing in `strands`.
const NEAR: usize = 2;

/// Whether `motif` is worked among `width` strands everywhere in the checked file, as its text alone says: more than once, or
/// where no more strands hang at all than the motif is meant for.
pub(super) fn is_misnumbered(script: &Script, motif: MotifRef, width: usize) -> bool {
    let Some(known) = script.motif_at(motif).filter(|_| motif.file == FileId::CHECKED) else { return false };
    let Some(wanted) = known.width.map(|wanted| wanted.value.to_usize()) else { return false };
    let all = script.head.strands.as_ref().map(Vec::len);
    let mut works = Works { name: &known.name.text, among: Vec::new() };
    for statement in &script.source().parsed.tree.statements {
        let around = match statement.get::<Motif>() {
            Some(other) => {
                other.width.map(|width| Among { strands: width.value.to_usize(), is_of_band: false })
            }
            None => PartKind::of(statement).and(all).map(|strands| Among { strands, is_of_band: true }),
        };
        works.find(statement, around);
    }
    let is_far = |all: usize| wanted.abs_diff(all) > NEAR;
    let tells = |among: &Option<Among>| {
        among.is_some_and(|among| among.strands == width && (!among.is_of_band || all.is_some_and(is_far)))
    };
    let are_enough = works.among.len() > 1 || all.is_some_and(|all| wanted > all);
    are_enough && works.among.iter().all(tells)
}

/// Where a motif is worked.
struct Works<'s> {
    name: &'s str,
    /// Among which strands, if that is known.
    among: Vec<Option<Among>>,
}

/// How many strands, and whether that follows from the number of all.
#[derive(Debug, Clone, Copy)]
struct Among {
    strands: usize,
    is_of_band: bool,
}

impl Works<'_> {
    /// In the block of a statement, among such strands.
    fn find(&mut self, holder: &Statement, among: Option<Among>) {
        for statement in holder.node.block().into_iter().flat_map(|block| &block.statements) {
            if statement.get::<Work>().is_some_and(|work| work.motif.text == self.name) {
                self.among.push(among);
            }
            match statement.get::<OnBlock>() {
                Some(on) => self.find(statement, among.and_then(|among| among.within(&on.range))),
                None => self.find(statement, among),
            }
        }
    }
}

impl Among {
    /// Those of a range.
    fn within(self, range: &Range) -> Option<Self> {
        let number = |expr: &Expr| match expr {
            Expr::Number(number) => Some(number.value.to_usize()),
            _ => None,
        };
        let (strands, is_of_band) = match range {
            Range::Left(count) | Range::Right(count) | Range::Center(count) => (number(count)?, false),
            Range::Inside(edge) => (self.strands.checked_sub(2 * number(edge)?)?, self.is_of_band),
            Range::Between(first, last) => ((number(last)? + 1).checked_sub(number(first)?)?, false),
        };
        Some(Self { strands, is_of_band })
    }
}
