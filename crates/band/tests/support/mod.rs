//! What the tests of this folder share: random bands and slow, sure ways.

#![allow(dead_code, reason = "each test file uses a part")]

use knotwright_band::{Kind, Piece};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;

pub(crate) const KINDS: [Kind; 4] =
    [Kind::Forward, Kind::Backward, Kind::ForwardBackward, Kind::BackwardForward];

/// A piece of `strands` strands from gaps, all forward knots.
pub(crate) fn forward(strands: usize, gaps: &[u8]) -> Piece {
    Piece::tie(strands, gaps.iter().map(|&gap| (gap, Kind::Forward))).unwrap()
}

/// A piece from gaps and kinds.
pub(crate) fn piece(strands: usize, steps: &[(u8, Kind)]) -> Piece {
    Piece::tie(strands, steps.iter().copied()).unwrap()
}

/// A random knot for `strands` strands.
pub(crate) fn any_step(strands: usize) -> impl Strategy<Value = (u8, Kind)> {
    (0..strands.to_u8() - 1, prop::sample::select(&KINDS[..]))
}

/// Random knots for `strands` strands.
pub(crate) fn any_steps(
    strands: usize,
    knots: impl Into<prop::collection::SizeRange>,
) -> impl Strategy<Value = Vec<(u8, Kind)>> {
    prop::collection::vec(any_step(strands), knots)
}

/// A random piece of 2 to `strands` strands.
pub(crate) fn any_piece(strands: usize, knots: std::ops::Range<usize>) -> impl Strategy<Value = Piece> {
    (2..=strands).prop_flat_map(move |n| any_steps(n, knots.clone()).prop_map(move |steps| piece(n, &steps)))
}

/// All words of `length` letters out of `alphabet`.
pub(crate) fn words<T: Clone>(alphabet: &[T], length: usize) -> Vec<Vec<T>> {
    let mut words = vec![Vec::new()];
    for _ in 0..length {
        words = words
            .into_iter()
            .flat_map(|word| {
                alphabet.iter().map(move |letter| [&word[..], std::slice::from_ref(letter)].concat())
            })
            .collect();
    }
    words
}

/// A piece of forward knots that leaves the strands in `order`: each strand in turn is brought to its place.
pub(crate) fn piece_for(order: &[u8]) -> Piece {
    let mut now: Vec<u8> = (0..order.len().to_u8()).collect();
    let mut gaps = Vec::new();
    for (position, strand) in order.iter().enumerate() {
        let at = now.iter().position(|s| s == strand).unwrap();
        for gap in (position..at).rev() {
            now.swap(gap, gap + 1);
            gaps.push(gap.to_u8());
        }
    }
    forward(order.len(), &gaps)
}

/// The same band tied in another way: neighbors in the script that share no strand change places now and then.
pub(crate) fn shuffled(steps: &[(u8, Kind)], choices: &[prop::sample::Index]) -> Vec<(u8, Kind)> {
    let mut steps = steps.to_vec();
    for choice in choices {
        if steps.len() > 1 {
            let at = choice.index(steps.len() - 1);
            if steps[at].0.abs_diff(steps[at + 1].0) > 1 {
                steps.swap(at, at + 1);
            }
        }
    }
    steps
}
