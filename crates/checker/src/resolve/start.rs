//! How the strands hang: loose, or two and two as one thread.

use super::{ThreadId, UNKNOWN_THREAD};
use crate::facts::Facts;
use crate::{FactKind, Place, StartForm};
use knotwright_grammar::tree::{Pairs, Start};
use knotwright_numbers::ToNumber;
use smol_str::SmolStr;

/// The strands by position and the names of their threads.
pub(super) struct Hung<'a> {
    pub(super) strands: &'a [ThreadId],
    pub(super) names: &'a dyn Fn(ThreadId) -> SmolStr,
}

/// Pairs the strands up as `start`, which is at `place`, says.
pub(super) fn pair_strands(
    start: &Start,
    loop_length: f64,
    hung: &Hung,
    place: Place,
    facts: &mut Facts,
) -> StartForm {
    match start {
        Start::Loose => StartForm::Loose,
        Start::Folded(way) => StartForm::Folded(pairs(*way, hung, place, facts)),
        Start::Loop(_, way) => StartForm::Loop(loop_length, pairs(*way, hung, place, facts)),
    }
}

fn pairs(way: Pairs, hung: &Hung, place: Place, facts: &mut Facts) -> Vec<(u8, u8)> {
    let count = hung.strands.len();
    if count % 2 == 1 {
        facts.say(place, FactKind::OddPairs { strands: count });
        return Vec::new();
    }
    let pairs: Vec<(usize, usize)> = match way {
        Pairs::SideBySide => (0..count / 2).map(|pair| (2 * pair, 2 * pair + 1)).collect(),
        Pairs::Mirrored => (0..count / 2).map(|left| (left, count - 1 - left)).collect(),
    };
    for &(left, right) in &pairs {
        let (a, b) = (hung.strands[left], hung.strands[right]);
        if a != b && a != UNKNOWN_THREAD && b != UNKNOWN_THREAD {
            let (left_thread, right_thread) = ((hung.names)(a), (hung.names)(b));
            let (left, right) = (left + 1, right + 1);
            facts.say(place, FactKind::PairsDisagree { left, right, left_thread, right_thread });
        }
    }
    pairs.into_iter().map(|(left, right)| (left.to_u8(), right.to_u8())).collect()
}
