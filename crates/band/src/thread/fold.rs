//! Which two strands to cut as one thread, folded in the middle.

/// One thread to cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cut {
    /// One strand.
    Single {
        /// Which.
        strand: u8,
        /// How long.
        length: f64,
    },
    /// Two strands of one color: a thread folded in its middle, so each half is as long as the longer one needs.
    Folded {
        /// Which, the one that needs more first.
        strands: (u8, u8),
        /// How long the thread is, both halves together.
        length: f64,
    },
}

impl Cut {
    /// How long the thread is.
    pub fn length(self) -> f64 {
        match self {
            Self::Single { length, .. } | Self::Folded { length, .. } => length,
        }
    }
}

/// Folds strands in pairs of one color so that the least thread is cut; `needs` and `colors` by strand, cut off to the
/// shorter. Of an odd number of strands of a color, one is single. Threads are listed by color, longest need first.
///
/// Neighbors by need are paired: a pair costs twice its longer need, and exchanging partners of two pairs never makes
/// both maxima less. A single one stands first, third, fifth ..., or else its neighbors would have to be paired across
/// it; all those places are tried.
pub fn fold_strands(needs: &[f64], colors: &[u16]) -> Vec<Cut> {
    let mut strands: Vec<(u16, f64, u8)> = Vec::new();
    for ((&need, &color), strand) in needs.iter().zip(colors).zip(0..=u8::MAX) {
        strands.push((color, need, strand));
    }
    strands.sort_by(|a, b| a.0.cmp(&b.0).then(b.1.total_cmp(&a.1)).then(a.2.cmp(&b.2)));
    strands.chunk_by(|a, b| a.0 == b.0).flat_map(fold_color).collect()
}

/// Folds the strands of one color, longest need first.
fn fold_color(strands: &[(u16, f64, u8)]) -> Vec<Cut> {
    let folded = |pair: &[(u16, f64, u8)]| match *pair {
        [(_, need, strand), (_, _, other)] => Cut::Folded { strands: (strand, other), length: 2.0 * need },
        _ => Cut::Single { strand: pair[0].2, length: pair[0].1 },
    };
    if strands.len().is_multiple_of(2) {
        return strands.chunks(2).map(folded).collect();
    }
    let with_single = |at: usize| -> Vec<Cut> {
        let (before, rest) = strands.split_at(at);
        let (single, after) = rest.split_at(1);
        before.chunks(2).chain(single.chunks(1)).chain(after.chunks(2)).map(folded).collect()
    };
    let total = |cuts: &Vec<Cut>| cuts.iter().map(|cut| cut.length()).sum::<f64>();
    let all = (0..strands.len()).step_by(2).map(with_single);
    all.min_by(|a, b| total(a).total_cmp(&total(b))).unwrap_or_default()
}

/// What cutting every strand as long as the longest needs takes beyond what all need together.
pub fn cut_alike(needs: &[f64]) -> f64 {
    let longest = needs.iter().copied().fold(0.0, f64::max);
    needs.iter().map(|need| longest - need).sum()
}
