//! In which row of the whole band each knot lies, for the strip of the picture around a place.
//!
//! Sets that begin on the same outline are laid alike, only further down; after a while the outlines come again.

use crate::{Passage, TyingScript};
use knotwright_band::Rows;
use knotwright_numbers::ToNumber;
use serde::Serialize;
use std::collections::HashMap;

/// Rows of all parts.
#[derive(Debug, Default, Serialize)]
pub(super) struct RowsData {
    /// By way in which a passage can be laid, the row of each knot, from the row of the part on.
    laid: Vec<Vec<u32>>,
    opening: Option<LaidPlace>,
    sets: Vec<LaidPlace>,
    /// Of the sets, the first that comes again after the last, and by how many rows it is then further down.
    again: usize,
    rise: u64,
    closing: Option<LaidPlace>,
}

/// A way in which a passage is laid, and the row of the part.
type LaidPlace = (usize, u64);

impl RowsData {
    pub(super) fn of(script: &TyingScript) -> Self {
        let mut laying = RowsLaying {
            rows: Rows::new(script.strands.len()),
            known: HashMap::new(),
            data: Self::default(),
        };
        laying.data.opening = script.opening.as_ref().map(|opening| laying.part(0, opening));
        laying.sets(script);
        let last = script.run_in.len() + script.period.len() + 1;
        laying.data.closing = script.closing.as_ref().map(|closing| laying.part(last, closing));
        laying.data
    }
}

struct RowsLaying {
    rows: Rows,
    /// By passage and outline, the way.
    known: HashMap<(usize, Vec<u64>), usize>,
    data: RowsData,
}

impl RowsLaying {
    fn sets(&mut self, script: &TyingScript) {
        // By passage and way, the set that was laid so first.
        let mut seen: HashMap<(usize, usize), usize> = HashMap::new();
        let mut comes_again = false;
        let run_in = script.run_in.len();
        for number in 0..script.times {
            let Some(set) = script.set(number) else { break };
            let number = number.to_usize();
            let passage = if number < run_in {
                number
            } else {
                run_in + (number - run_in) % script.period.len().max(1)
            };
            let place = self.part(passage + 1, set);
            if comes_again {
                continue;
            }
            match seen.get(&(passage, place.0)) {
                Some(first) => {
                    comes_again = true;
                    self.data.again = *first;
                    self.data.rise = self.data.sets.get(*first).map_or(0, |before| place.1 - before.1);
                }
                None => {
                    seen.insert((passage, place.0), self.data.sets.len());
                    self.data.sets.push(place);
                }
            }
        }
    }

    /// Lays a part under all that is laid.
    fn part(&mut self, passage: usize, part: &Passage) -> LaidPlace {
        let (base, outline) = outline(self.rows.free(), part);
        let rows = self.rows.lay(&part.piece);
        let next = self.data.laid.len();
        let way = *self.known.entry((passage, outline)).or_insert(next);
        if way == next {
            let base = base.to_u32();
            self.data.laid.push(rows.into_iter().map(|row| row.saturating_sub(base)).collect());
        }
        (way, base)
    }
}

/// The row from which those of a part count, and how the gaps are filled from there on as far as that matters to its knots.
/// The row is even: bricks lie by whether row and gap are even.
fn outline(free: &[u64], part: &Passage) -> (u64, Vec<u64>) {
    let mut matters = vec![false; free.len() + 2];
    let mut is_tied = vec![false; free.len()];
    for gap in part.piece.knots().iter().map(|knot| usize::from(knot.gap)) {
        is_tied[gap] = true;
        matters[gap..gap + 3].fill(true);
    }
    let row = |gap: usize| free[gap.saturating_sub(1)..(gap + 2).min(free.len())].iter().copied().max();
    let lowest = (0..free.len()).filter(|gap| is_tied[*gap]).filter_map(row).min();
    let base = lowest.unwrap_or(0) & !1;
    let fills = free.iter().zip(&matters[1..]).filter(|(_, matters)| **matters);
    (base, fills.map(|(row, _)| row.saturating_sub(base)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{KnotSize, StrandStart};
    use knotwright_band::{Kind, Piece};

    /// A band of eight strands that ties only at the left: its sets come again though the right stays empty.
    #[test]
    fn sets_that_are_laid_alike_are_there_once() {
        let piece = Piece::tie(8, [0, 1, 2, 1, 0].map(|gap| (gap, Kind::Forward))).unwrap();
        let set = Passage {
            piece: piece.clone(),
            ranges: Vec::new(),
            steps: Vec::new(),
            events: Vec::new(),
            wish: None,
        };
        let script = TyingScript {
            title: String::new(),
            about: Vec::new(),
            authors: Vec::new(),
            license: None,
            threads: Vec::new(),
            beads: Vec::new(),
            strands: vec![0; 8],
            gauge: KnotSize::default(),
            start: StrandStart::Loose,
            made: Default::default(),
            taken: None,
            unit: Default::default(),
            opening: None,
            run_in: Vec::new(),
            period: vec![set],
            times: 1000,
            closing: None,
            materials: None,
        };
        let data = RowsData::of(&script);
        assert!(data.laid.len() < 4, "{} ways", data.laid.len());
        // What the page works out from it is what a band that is laid from its first knot has.
        let mut rows = Rows::new(8);
        for set in 0..1000 {
            let laid = rows.lay(&piece);
            let past = usize::saturating_sub(set, data.again);
            let period = data.sets.len() - data.again;
            let (at, times) =
                if set < data.sets.len() { (set, 0) } else { (data.again + past % period, past / period) };
            let (way, base) = data.sets[at];
            let base = (base + data.rise * times.to_u64()).to_u32();
            assert_eq!(data.laid[way].iter().map(|row| row + base).collect::<Vec<_>>(), laid, "set {set}");
        }
    }
}
