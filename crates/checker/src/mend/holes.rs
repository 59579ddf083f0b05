//! Steps near a hole of the band, and knots that would fill it.

use super::candidates::{Candidate, What};
use super::in_hand::{spots, ways_of};
use super::structure::is_open;
use crate::resolve::Script;
use crate::tie::{Added, Change, InHand, Overlay, Passing, StatementEdit, Studied};
use crate::{FileId, PartKind, Place};
use knotwright_band::Hole;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{KnotKind, Statement};
use knotwright_numbers::ToNumber;

/// The slip that left a hole is not farther from it, in statements, than this.
const NEAR: u32 = 60;

/// How many statements before the one that closes a hole are near it, and of how many the blocks are looked into.
const NEAR_BESIDE: usize = 8;
const NEAR_ABOVE: usize = 4;

/// Of how many statements of a block the places before them are tried.
const MOST_PLACES: usize = 30;

/// How far a statement is from the one at `place`, by the number of statements begun before; `None` if too far. The set
/// goes on below with its first statement.
pub(super) fn is_near(
    script: &Script,
    studied: &Studied,
    place: Place,
) -> impl Fn(u32) -> Option<u32> + use<> {
    let at = closing(script, studied, place).map(|(_, begun)| begun.nth);
    let set = studied.parts[PartKind::Set as usize].begun.values().flatten().map(|begun| begun.nth).max();
    move |nth| {
        let Some(at) = at else { return Some(0) };
        let far = nth.abs_diff(at);
        let around = set.map_or(far, |set| set.saturating_sub(far));
        Some(far.min(around)).filter(|&far| far <= NEAR)
    }
}

/// Whether it is known which step closes the hole.
pub(super) fn is_somewhere(script: &Script, studied: &Studied, place: Place) -> bool {
    closing(script, studied, place).is_some()
}

/// The innermost statement that was tied at `place`, with the first time it was.
fn closing(script: &Script, studied: &Studied, place: Place) -> Option<(Span, Passing)> {
    let mut found = None;
    for statement in script.source().parsed.tree.walk() {
        if statement.span.start <= place.span.start && place.span.end <= statement.span.end {
            let begun = studied.parts.iter().find_map(|part| part.begun.get(&statement.span.start)?.first());
            found = begun.map(|&begun| (statement.span, begun)).or(found);
        }
    }
    found.filter(|_| place.file == FileId::CHECKED)
}

/// A step put in before the one that closes the hole, or before one that stands near it: one knot, or what a strand in hand
/// ties elsewhere in the file, if that fills a hole. `torn`: the holes that are closed there, if any are known.
pub(super) fn fill_hole(script: &Script, studied: &Studied, place: Place, torn: &[Hole]) -> Vec<Candidate> {
    let Some((span, begun)) = closing(script, studied, place) else { return everywhere(script, studied) };
    let mut found = Vec::new();
    let torn = unlike(torn);
    let several = runs_for(script, &torn);
    for (statement, is_last) in places_near(script, span) {
        let part = studied.parts.iter().find_map(|part| part.begun.get(&statement.span.start)?.first());
        let Some(here) = part else { continue };
        let width = here.width();
        let age = begun.nth.abs_diff(here.nth);
        let passes = ranges_of(studied, statement);
        let lies_in = |spot: u8| {
            let mut own = passes.iter().map(|pass| gap_of(pass, spot));
            torn.is_empty()
                || own.any(|gap| torn.iter().any(|hole| (hole.first_gap..=hole.last_gap).contains(&gap)))
        };
        let fills = |added: &Added| {
            let spots = spots(*added).unwrap_or_default();
            torn.iter().any(|hole| passes.iter().any(|pass| is_filled(hole, pass, &spots)))
        };
        let mut add = |added: Added| {
            found.push(candidate(statement.span, added, age));
            let after = candidate(statement.span, added, age).after();
            found.extend(is_last.then_some(after));
        };
        for at in (1..width).filter(|&at| lies_in(at)) {
            let knots = [
                (at, KnotKind::ForwardBackward, false),
                (at, KnotKind::Forward, 2 * at == width),
                (at + 1, KnotKind::Backward, false),
                (at + 1, KnotKind::BackwardForward, false),
            ];
            for (at, kind, meets) in knots {
                add(Added { at, width: Some(width), runs: InHand::one(kind, 1), meets, both: false });
            }
        }
        for runs in &several {
            let added = |at: u8| Added { at, width: Some(width), runs: *runs, meets: false, both: false };
            (1..=width).map(added).filter(fills).for_each(&mut add);
        }
    }
    found
}

/// Those of several holes that a step would fill otherwise: one comes again in every pass and every set.
fn unlike(torn: &[Hole]) -> Vec<Hole> {
    let shape = |hole: &Hole| (hole.first_gap, hole.last_gap, hole.knots);
    let mut unlike: Vec<Hole> = Vec::new();
    for hole in torn {
        if unlike.iter().all(|other| shape(other) != shape(hole)) {
            unlike.push(*hole);
        }
    }
    unlike
}

/// The passes of a statement, one for each range of strands in which it is tied.
fn ranges_of(studied: &Studied, statement: &Statement) -> Vec<Passing> {
    let passes = studied.parts.iter().filter_map(|part| part.begun.get(&statement.span.start)).flatten();
    let mut ranges: Vec<Passing> = Vec::new();
    for pass in passes {
        if ranges.iter().all(|range| (range.within, range.mirrored) != (pass.within, pass.mirrored)) {
            ranges.push(*pass);
        }
    }
    ranges
}

/// The statements near the one at `span`, before it or after it in its blocks, and those in the blocks of the ones before it;
/// whether each is the last of its block.
fn places_near(script: &Script, span: Span) -> Vec<(&Statement, bool)> {
    let source = script.source();
    let open = |holder: &'_ Statement| holder.node.block().is_some_and(|block| is_open(source, block));
    let mut found: Vec<(&Statement, bool)> = Vec::new();
    for block in
        source.parsed.tree.walk().filter(|holder| open(holder)).filter_map(|holder| holder.node.block())
    {
        let holds =
            |statement: &Statement| statement.span.start <= span.start && span.end <= statement.span.end;
        let Some(index) = block.statements.iter().position(holds) else { continue };
        let count = block.statements.len();
        let near = index.saturating_sub(NEAR_BESIDE)..(index + 2).min(count);
        found.extend(near.map(|at| (&block.statements[at], at + 1 == count)));
        let above = &block.statements[index.saturating_sub(NEAR_ABOVE)..index];
        for inner in above.iter().filter(|above| open(above)).filter_map(|above| above.node.block()) {
            let count = inner.statements.len();
            found.extend(
                inner.statements.iter().enumerate().map(|(at, statement)| (statement, at + 1 == count)),
            );
        }
    }
    found
}

/// What a strand in hand may tie to fill one of the holes that several knots are missing in: one run, or several as steps of
/// the file have them.
fn runs_for(script: &Script, torn: &[Hole]) -> Vec<InHand> {
    let ways = ways_of(script);
    let runs = torn
        .iter()
        .filter(|hole| hole.first_gap < hole.last_gap)
        .filter_map(|hole| u8::try_from(hole.knots).ok());
    let across = |count: u8| [KnotKind::Forward, KnotKind::Backward].map(|kind| InHand::one(kind, count));
    let mut found: Vec<InHand> = runs.flat_map(across).collect();
    for (way, hole) in ways.iter().flat_map(|way| torn.iter().map(move |hole| (way, hole))) {
        let across =
            hole.knots.checked_sub(way.turns()).filter(|&across| (across > 0) == way.across().is_some());
        let runs = across.and_then(|across| way.over(u8::try_from(across).ok()?));
        found.extend(runs.filter(|runs| !found.contains(runs)));
    }
    found
}

/// Whether knots between these strands fill a hole.
fn is_filled(hole: &Hole, pass: &Passing, spots: &[u8]) -> bool {
    if spots.len() != hole.knots.to_usize() {
        return false;
    }
    let gap = |spot: Option<&u8>| spot.map(|&spot| gap_of(pass, spot));
    let mut ends = [gap(spots.iter().min()), gap(spots.iter().max())];
    // In a mirror the last one is the first.
    ends.sort_unstable();
    ends == [Some(hole.first_gap), Some(hole.last_gap)]
}

/// The gap of the band between the strand at `at`, counted from 1 in the range, and the next one.
pub(super) fn gap_of(Passing { within: (low, high), mirrored, .. }: &Passing, at: u8) -> u8 {
    if *mirrored { high - at } else { low + at - 1 }
}

/// A strip that is joined nowhere may be joined anywhere: one knot before every statement.
fn everywhere(script: &Script, studied: &Studied) -> Vec<Candidate> {
    let source = script.source();
    let blocks = source.parsed.tree.walk().filter_map(|holder| holder.node.block());
    let mut found = Vec::new();
    for block in blocks.filter(|block| is_open(source, block)) {
        let last = block.statements.last().map(|last| last.span);
        for statement in block.statements.iter().take(MOST_PLACES) {
            let begun = studied.parts.iter().find_map(|part| part.begun.get(&statement.span.start)?.first());
            let Some(begun) = begun else { continue };
            let width = begun.width();
            let runs = InHand::one(KnotKind::Forward, 1);
            let middle = |meets| Added { at: width / 2, width: Some(width), runs, meets, both: false };
            if width.is_multiple_of(2) {
                found.push(candidate(statement.span, middle(true), 0));
                let after = candidate(statement.span, middle(true), 0).after();
                found.extend((last == Some(statement.span)).then_some(after));
            }
            let turning = InHand::one(KnotKind::ForwardBackward, 1);
            let turns =
                |at: u8, both: bool| Added { at, width: Some(width), runs: turning, meets: false, both };
            found.extend((1..width).map(|at| candidate(statement.span, turns(at, false), 0)));
            found.extend((1..=width / 2).map(|at| candidate(statement.span, turns(at, true), 0)));
        }
    }
    found
}

fn candidate(span: Span, added: Added, age: u32) -> Candidate {
    Candidate {
        overlay: Overlay {
            place: Place { file: FileId::CHECKED, span },
            change: Change::Statement(StatementEdit::Before(added)),
        },
        what: What::Statement { above: None },
        statement: span.start,
        from_above: false,
        age,
        size: if added.meets { 1 } else { 4 },
    }
}
