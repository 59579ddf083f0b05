//! An `expect` that is itself wrong: it stands a step too early or too late, `mirrored` is missing or too much, or it lists the
//! strands otherwise than they hang.

use super::lines::{begin_of_line, line};
use super::reread::Rereader;
use super::search::{Goal, Mended};
use crate::tie::{Failing, PartStudy, Studied};
use crate::{Edit, Fact, FactKind, FileId, Mend, Place, Source};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, ClosingBlock, Expect, ListShape, OpeningBlock, Statement};
use knotwright_numbers::ToNumber;
use smol_str::SmolStr;

/// How many statements farther up or down it is tried.
const FAR: usize = 3;

/// Edits of the first `expect` that fails, after which nothing is wrong.
#[derive(Debug, Default)]
pub(crate) struct MendedExpect {
    /// It lists the strands as they hang.
    pub(crate) lists: Vec<Mend>,
    /// It says the same in another place, or of the mirror.
    pub(crate) others: Vec<Mend>,
}

/// `mended`: what else was found.
pub(crate) fn mend_expects(goal: &Goal, rereader: &Rereader, mended: &Mended) -> MendedExpect {
    let fails = |fact: &&Fact| {
        matches!(fact.kind, FactKind::ExpectFails { .. }) && fact.place.file == FileId::CHECKED
    };
    let source = rereader.source();
    let none = MendedExpect::default();
    let Some(fact) = goal.facts.iter().find(fails) else { return none };
    let Some((block, at)) = find(source, fact.place.span) else { return none };
    if mended.studied(goal).is_some_and(|studied| !is_alone(&studied, block.statements[at].span.start)) {
        return none;
    }
    let expect = &block.statements[at];
    let others = mirror(source, expect).into_iter().chain(moves(source, block, at));
    let holds = |mend: &Mend| rereader.after(&mend.edits).is_some_and(|reread| reread.holds());
    let lists = lists(source, expect, &fact.kind).into_iter().filter(holds).collect();
    MendedExpect { lists, others: others.filter(holds).collect() }
}

/// Whether nothing else is wrong but the `expect` that starts there, as far as is known: it moves no strand, wherever it stands.
fn is_alone(studied: &Studied, start: u32) -> bool {
    let is_only = |part: &PartStudy| {
        let passes = part.begun.get(&start).map_or(&[][..], Vec::as_slice);
        // It asks no more than once of each strand.
        let is_own = |failing: &Failing| {
            let begun = passes.partition_point(|pass| pass.time <= failing.time);
            passes[..begun].last().is_some_and(|pass| failing.time < pass.time + u32::from(pass.width()))
        };
        part.walls.is_empty() && part.failing.iter().all(is_own)
    };
    studied.is_blind() || studied.parts.iter().all(is_only)
}

/// The block of the `expect` that starts there, and its number.
fn find(source: &Source, span: Span) -> Option<(&Block, usize)> {
    source.parsed.tree.walk().filter_map(|holder| holder.node.block()).find_map(|block| {
        let at = block.statements.iter().position(|inner| {
            inner.is::<Expect>() && inner.span.start <= span.start && span.end <= inner.span.end
        })?;
        Some((block, at))
    })
}

fn place(span: Span) -> Place {
    Place { file: FileId::CHECKED, span }
}

fn mirror(source: &Source, expect: &Statement) -> Option<Mend> {
    let Some(Expect::Start { mirrored }) = expect.get() else { return None };
    let (says, span, text) = match mirrored {
        None => {
            let end = expect.span.end;
            ("write `expect start mirrored`", Span { start: end, end }, " mirrored")
        }
        Some(word) => {
            let before = source.text[..word.start.to_usize()].trim_end().len().to_u32();
            ("leave out `mirrored`", Span { start: before, end: word.end }, "")
        }
    };
    let edits = vec![Edit { place: place(span), text: text.to_owned() }];
    Some(Mend::new(format!("{says}: every promise holds then"), edits, false))
}

/// The strands as they hang. That the set closes then says that they hang rightly, so it is asked of a set alone.
fn lists(source: &Source, expect: &Statement, kind: &FactKind) -> Vec<Mend> {
    let (Some(Expect::List(list)), FactKind::ExpectFails { orders, .. }) = (expect.get(), kind) else {
        return Vec::new();
    };
    let is_once = |part: &Statement| part.is::<OpeningBlock>() || part.is::<ClosingBlock>();
    let is_around = |part: &Statement| part.span.start < expect.span.start && expect.span.end < part.span.end;
    if source.parsed.tree.statements.iter().any(|part| is_once(part) && is_around(part)) {
        return Vec::new();
    }
    let is_mirror = matches!(list.shape, ListShape::Mirror(_) | ListShape::MirrorAround(..));
    let from_left: Vec<&str> = orders.hung.iter().map(SmolStr::as_str).collect();
    // In a mirror, they are listed from the other side.
    let from_right: Vec<&str> = from_left.iter().rev().copied().collect();
    let mut orders = vec![from_left, from_right];
    orders.dedup();
    let write = |order: Vec<&str>| {
        let text = written(&order, is_mirror);
        let edits = vec![Edit { place: place(list.span), text: text.clone() }];
        Mend::new(format!("write `expect {text}`: every promise holds then and the set closes"), edits, false)
    };
    orders.into_iter().map(write).collect()
}

/// A list of strands; its half alone if that says it, and it is to be written so.
fn written(order: &[&str], is_mirror: bool) -> String {
    let (half, odd) = (order.len() / 2, order.len() % 2);
    let is_symmetric = order.iter().eq(order.iter().rev());
    match (is_mirror && is_symmetric, odd) {
        (false, _) => counted(order),
        (true, 0) => format!("{} | mirror", counted(&order[..half])),
        (true, _) => format!("{} | {} | mirror", counted(&order[..half]), order[half]),
    }
}

/// `3 kelp foam`
fn counted(order: &[&str]) -> String {
    let same = order.chunk_by(|one, other| one == other);
    let item = |same: &[&str]| match same.len() {
        1 => same[0].to_owned(),
        many => format!("{many} {}", same[0]),
    };
    same.map(item).collect::<Vec<_>>().join(" ")
}

/// The line of the `expect`, put before or after others, the nearest first.
fn moves(source: &Source, block: &Block, at: usize) -> Vec<Mend> {
    let text = |statement: &Statement| statement.span.of(&source.text);
    let expect = &block.statements[at];
    let own = line(source, expect.span);
    let is_alone = own.of(&source.text).trim() == text(expect);
    let steps = |numbers: Vec<usize>| {
        numbers.into_iter().filter(|&other| block.statements[other].is_step()).take(FAR)
    };
    let up = steps((0..at).rev().collect()).map(|other| {
        let before = begin_of_line(source, block.statements[other].span).0;
        (other, "before", before)
    });
    let down = steps((at + 1..block.statements.len()).collect()).map(|other| {
        let after = line(source, block.statements[other].span).end;
        (other, "after", after)
    });
    let mend = |(other, side, to): (usize, &str, u32)| {
        let shown = text(&block.statements[other]).lines().next().unwrap_or_default().to_owned();
        let to = Span { start: to, end: to };
        let mut edits = vec![
            Edit { place: place(own), text: String::new() },
            Edit { place: place(to), text: own.of(&source.text).to_owned() },
        ];
        edits.sort_by_key(|edit| edit.place);
        let title = format!("put `{}` {side} `{shown}`: every promise holds then", text(expect));
        Mend::new(title, edits, false)
    };
    let mut moves: Vec<_> = up.chain(down).filter(|_| is_alone).collect();
    moves.sort_by_key(|&(other, ..)| other.abs_diff(at));
    moves.into_iter().map(mend).collect()
}
