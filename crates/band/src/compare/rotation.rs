//! One set begun elsewhere.
//!
//! A set that is tied over and over can be said to begin anywhere: some knots that wait for nothing are tied before,
//! and come at its end instead. In the endless words of every two neighboring gaps the other set's word is found at
//! some places. How many knots of one gap lie before such a place says how many of the other do, as both gaps come in
//! each period of the word. So the places of all gaps of a strip follow from that of its first gap.

use super::Colored;
use crate::orders::tied_over;
use crate::{Kind, Piece, Rows, Sets, Tying, find_repeats};
use knotwright_numbers::ToNumber;

/// Where in a set, tied over and over, another begins.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turned {
    /// After how many whole sets (it can differ from 0 because of the colors).
    pub sets: u64,
    /// By gap, how many knots of the sets that follow are tied before it begins.
    pub knots: Vec<u32>,
    /// The topmost row, of the sets that follow, in which one of its knots lies.
    pub row: u32,
}

/// How many sets, and how many ways to begin the strips of a band, are looked at.
const MOST_SETS: u64 = 1_000;
const MOST_WAYS: usize = 1_000;

/// The first place where one set begins with the knots of the other and `fits` says yes to the colors there.
pub(super) fn find_rotation<T>(
    one: Colored<'_>,
    other: &Piece,
    fits: impl Fn(&[u16]) -> Option<T>,
) -> Option<(Turned, T)> {
    let words = [Words::new(one.piece), Words::new(other)];
    let each = words[0].lengths();
    if each != words[1].lengths() {
        return None;
    }
    let sets = find_repeats(&Sets::alike(one.piece.clone()), one.colors).colors.min(MOST_SETS);
    for knots in ways(&words, &each) {
        let begun = Begun::new(one.piece, &knots, &each);
        for before in 0..sets {
            let there = tied_over(one.piece.order(), before);
            let hang: Vec<u16> =
                begun.order.iter().map(|&place| one.color(there[usize::from(place)])).collect();
            if let Some(found) = fits(&hang) {
                return Some((Turned { sets: before, knots, row: begun.row }, found));
            }
        }
    }
    None
}

/// By gap, its knots' numbers and kinds.
struct Words {
    gaps: Vec<Vec<(usize, Kind)>>,
}

impl Words {
    fn new(piece: &Piece) -> Self {
        let mut gaps = vec![Vec::new(); piece.gaps()];
        for (number, knot) in piece.knots().iter().enumerate() {
            gaps[usize::from(knot.gap)].push((number, knot.kind));
        }
        Self { gaps }
    }

    fn lengths(&self) -> Vec<u32> {
        self.gaps.iter().map(|gap| gap.len().to_u32()).collect()
    }

    /// The word of a gap and, unless it is the strip's last, the next: whether each knot is in the first, its kind.
    fn word(&self, gap: usize, alone: bool) -> Vec<(bool, Kind)> {
        let mut word: Vec<_> = self.gaps[gap].iter().map(|&(number, kind)| (number, true, kind)).collect();
        if !alone {
            word.extend(self.gaps[gap + 1].iter().map(|&(number, kind)| (number, false, kind)));
        }
        word.sort_unstable_by_key(|letter| letter.0);
        word.into_iter().map(|(_, first, kind)| (first, kind)).collect()
    }
}

/// By gap, how many knots can be tied before the other set begins: all ways, each strip by itself.
fn ways(words: &[Words; 2], each: &[u32]) -> Vec<Vec<u32>> {
    let mut all = vec![Vec::new()];
    let mut gap = 0;
    while gap < each.len() {
        let end = (gap..each.len()).find(|&gap| each[gap] == 0).unwrap_or(each.len());
        let of_strip = if end == gap { vec![vec![0]] } else { ways_of_strip(words, each, gap..end) };
        let longer =
            |way: &Vec<u32>| of_strip.iter().map(|more| [&way[..], more].concat()).collect::<Vec<_>>();
        all = all.iter().flat_map(longer).take(MOST_WAYS).collect();
        gap = end.max(gap + 1);
    }
    all
}

fn ways_of_strip(words: &[Words; 2], each: &[u32], strip: std::ops::Range<usize>) -> Vec<Vec<u32>> {
    let alone = strip.len() == 1;
    let mut ways: Vec<Vec<i64>> = (0..i64::from(each[strip.start])).map(|first| vec![first]).collect();
    for gap in strip.start..(strip.end - 1).max(strip.start + 1) {
        let next = beside(words, each, gap, alone);
        let (own, of_next) = (i64::from(each[gap]), each.get(gap + 1).copied().map_or(0, i64::from));
        ways.retain_mut(|way| {
            let last = way[way.len() - 1];
            let found = next[last.rem_euclid(own).to_usize()];
            way.extend(found.filter(|_| !alone).map(|found| found + last.div_euclid(own) * of_next));
            found.is_some()
        });
    }
    ways.iter().map(|way| from_zero(way, &each[strip.clone()])).collect()
}

/// By how many knots of a gap lie before: how many of the next gap do, if the other set begins there.
fn beside(words: &[Words; 2], each: &[u32], gap: usize, alone: bool) -> Vec<Option<i64>> {
    let [one, other] = [0, 1].map(|band: usize| words[band].word(gap, alone));
    let mut next = vec![None; each[gap].to_usize()];
    let mut before = [0_i64; 2];
    let mut at = 0;
    for place in places(&one, &other) {
        one[at..place].iter().for_each(|&(first, _)| before[usize::from(!first)] += 1);
        at = place;
        // All of this gap and some of the next is none of this gap, and fewer of the next, a set further on.
        let whole = before[0] == i64::from(each[gap]);
        let carry = if whole && !alone { i64::from(each[gap + 1]) } else { 0 };
        next[if whole { 0 } else { before[0].to_usize() }] = Some(before[1] - carry);
    }
    next
}

/// The places in a round word at which it reads like another of its length.
fn places<T: PartialEq>(round: &[T], other: &[T]) -> Vec<usize> {
    let length = round.len();
    let mut back = vec![0; length];
    let mut same = 0;
    for at in 1..length {
        while same > 0 && other[at] != other[same] {
            same = back[same - 1];
        }
        same += usize::from(other[at] == other[same]);
        back[at] = same;
    }
    let mut places = Vec::new();
    same = 0;
    for at in 0..2 * length - 1 {
        while same > 0 && (same == length || round[at % length] != other[same]) {
            same = back[same - 1];
        }
        same += usize::from(round[at % length] == other[same]);
        if same == length {
            places.push(at + 1 - length);
        }
    }
    places
}

/// A way, begun as many whole sets later as it takes to have no count below zero.
fn from_zero(way: &[i64], each: &[u32]) -> Vec<u32> {
    let sets = |(&knots, &each): (&i64, &u32)| (i64::from(each) - 1 - knots).div_euclid(i64::from(each));
    let later = way.iter().zip(each).map(sets).max();
    let later = later.unwrap_or(0).max(0);
    way.iter().zip(each).map(|(&knots, &each)| (knots + later * i64::from(each)).to_u32()).collect()
}

/// The state in which the other set begins.
struct Begun {
    order: Vec<u8>,
    row: u32,
}

impl Begun {
    /// Ties `knots` knots of each gap of a set that is tied over and over.
    fn new(set: &Piece, knots: &[u32], each: &[u32]) -> Self {
        let sets =
            knots.iter().zip(each).map(|(knots, each)| knots.checked_div(*each).unwrap_or(0) + 1).max();
        let mut tying = Tying::new(set.strands());
        let mut left = knots.to_vec();
        let mut rows = Rows::new(set.strands());
        let mut first = u32::MAX;
        for _ in 0..sets.unwrap_or(0) {
            for (knot, row) in set.knots().iter().zip(rows.lay(set)) {
                let left = &mut left[usize::from(knot.gap)];
                if *left > 0 {
                    *left -= 1;
                    tying.tie(knot.gap, knot.kind);
                } else {
                    first = first.min(row);
                }
            }
        }
        Self { order: tying.order().to_vec(), row: if first == u32::MAX { 0 } else { first } }
    }
}
