//! Few edits, if not the fewest, of bands that are very different.
//!
//! The way out when the search gives up: in time that grows with the knots and with how much differs, two words at
//! a time. It may leave out more than it must, as the words of one pair of gaps know nothing of those of the next;
//! what it keeps is one band all the same, and the caller learns that there may be fewer.

use super::by_gap::{Letter, Pair, TiedByGap};
use super::search::SearchEdit;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};
use similar::{Algorithm, DiffOp, capture_diff_slices};

/// The knots to leave out of either band so that the rest is equal.
///
/// The words of every two neighboring gaps are compared (Myers), and a knot is kept if both words that it is in match
/// it with the same one. What is kept then comes in the same order in all words, and so is one band.
pub(super) fn few_edits(pair: &Pair, start: &[u32]) -> Vec<SearchEdit> {
    let tied = [start.to_vec(), start.to_vec()];
    let gaps = start.len();
    // The match of a knot of the first band in the word that its gap begins, and in the word that it ends.
    let mut matched: [HashMap<u32, u32>; 2] = Default::default();
    for gap in 0..gaps {
        for (letter, like) in matches(pair, &tied, gap) {
            matched[usize::from(letter.0 != gap)].insert(letter.2, like);
        }
    }
    let mut edits = Vec::new();
    let mut kept_of_other = HashSet::default();
    for (gap, number) in rest(pair, &tied, 0) {
        let in_first = matched[0].get(&number);
        let agree = in_first.filter(|like| gap == 0 || matched[1].get(&number) == Some(*like));
        match agree {
            Some(&like) => _ = kept_of_other.insert(like),
            None => edits.push((0, number)),
        }
    }
    let others = rest(pair, &tied, 1).map(|(_, number)| number);
    edits.extend(others.filter(|number| !kept_of_other.contains(number)).map(|number| (1, number)));
    edits
}

/// The knots of a band that are left, each with its gap.
fn rest(pair: &Pair, tied: &TiedByGap, band: usize) -> impl Iterator<Item = (usize, u32)> {
    (0..tied[band].len()).flat_map(move |gap| pair.rest(band, gap, tied).iter().map(move |b| (gap, b.number)))
}

/// In the words of a gap and the next: knots of the first band and the number of the knot each matches in the other.
fn matches(pair: &Pair, tied: &TiedByGap, gap: usize) -> Vec<(Letter, u32)> {
    let end = (gap + 2).min(tied[0].len());
    let words = [0, 1].map(|band| pair.word(band, gap..end, tied));
    let plain = [0, 1].map(|band: usize| words[band].iter().map(|l| (l.0, l.1)).collect::<Vec<_>>());
    let mut found = Vec::new();
    for op in capture_diff_slices(Algorithm::Myers, &plain[0], &plain[1]) {
        if let DiffOp::Equal { old_index, new_index, len } = op {
            let same = words[0][old_index..old_index + len].iter().zip(&words[1][new_index..new_index + len]);
            found.extend(same.map(|(one, other)| (*one, other.2)));
        }
    }
    found
}
