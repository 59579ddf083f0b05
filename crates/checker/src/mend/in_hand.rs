//! What strands in hand tie elsewhere in the file: a step that was forgotten is mostly like another one.

use super::candidates::is_crossing;
use crate::resolve::Script;
use crate::tie::{Added, InHand};
use knotwright_grammar::tree::{Expr, Extent, KnotKind, Run, Take};

/// The most ways that are tried.
const MOST_WAYS: usize = 16;

/// Several runs, one of them at most across others: the kinds, and how often a turning knot is tied.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct HandWay(Vec<(KnotKind, u8)>);

/// The ways in which steps of the file have several runs, each once.
pub(super) fn ways_of(script: &Script) -> Vec<HandWay> {
    let mut ways: Vec<HandWay> = Vec::new();
    for take in script.source().parsed.tree.walk().filter_map(|statement| statement.get::<Take>()) {
        let way = HandWay::of(&take.runs).filter(|way| !ways.contains(way));
        ways.extend(way.filter(|_| ways.len() < MOST_WAYS));
    }
    ways
}

impl HandWay {
    /// `None` if it is one run, or has more than can be put in.
    fn of(runs: &[Run]) -> Option<Self> {
        let run = |run: &Run| {
            let (kind, _) = run.kind?;
            let count = match &run.extent {
                _ if is_crossing(kind) => 0,
                Extent::Count { count: Expr::Number(count), .. } => u8::try_from(count.value).ok()?,
                _ => return None,
            };
            Some((kind, count))
        };
        let all: Vec<(KnotKind, u8)> = runs.iter().map(run).collect::<Option<_>>()?;
        let across = all.iter().filter(|run| is_crossing(run.0)).count();
        ((2..=InHand::MOST).contains(&all.len()) && across < 2).then_some(Self(all))
    }

    /// The kind of the run across others, if there is one.
    pub(super) fn across(&self) -> Option<KnotKind> {
        self.0.iter().map(|run| run.0).find(|&kind| is_crossing(kind))
    }

    /// How many turning knots it ties.
    pub(super) fn turns(&self) -> u32 {
        self.0.iter().map(|run| u32::from(run.1)).sum()
    }

    /// The runs, if the one across others goes over `count` of them.
    pub(super) fn over(&self, count: u8) -> Option<InHand> {
        let run = |&(kind, turns): &(KnotKind, u8)| (kind, if is_crossing(kind) { count } else { turns });
        InHand::of(&self.0.iter().map(run).collect::<Vec<_>>())
    }
}

/// Between which strands the knots of a step lie: by the left one of each two, counted from 1. `None` if it goes past an edge,
/// or if it is not known where that is.
pub(super) fn spots(added: Added) -> Option<Vec<u8>> {
    let Added { mut at, width, runs, .. } = added;
    let knots = runs.runs().map(|run| usize::from(run.1)).sum();
    let (mut spots, width) = (Vec::with_capacity(knots), width?);
    for (kind, count) in runs.runs() {
        let is_right = matches!(kind, KnotKind::Forward | KnotKind::ForwardBackward);
        for _ in 0..count {
            let spot = if is_right { at } else { at.checked_sub(1)? };
            if spot == 0 || spot >= width {
                return None;
            }
            spots.push(spot);
            match kind {
                KnotKind::Forward => at += 1,
                KnotKind::Backward => at -= 1,
                KnotKind::ForwardBackward | KnotKind::BackwardForward => {}
            }
        }
    }
    Some(spots)
}
