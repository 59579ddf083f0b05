//! How a band looks on the whole: the fewer blemishes, the likelier it is the one that was meant.

use crate::{Checked, Part, Pattern, rules};
use knotwright_band::{Cell, Piece, normal_form};
use std::collections::HashSet;

/// Warnings about the band that a single slip brings about.
const HOLES: [&str; 4] = ["missing-brick", "never-joined", "idle-strand", "ragged-start"];

/// Whether a rule tells of holes in the band.
pub(crate) fn is_hole(rule: &str) -> bool {
    HOLES.contains(&rule)
}

/// What is not as it would be in most bands. Compared in this order; less is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Blemishes {
    /// All warnings.
    pub(super) warnings: usize,
    /// Places in the rows of the band where no knot lies.
    pub(super) empty: usize,
    /// Knots whose mirror image is not there.
    pub(super) lopsided: usize,
    /// Warnings of holes; they are among the warnings.
    pub(super) holes: usize,
}

impl Blemishes {
    /// Those of a pattern that was tied.
    pub(super) fn of(pattern: &Pattern, checked: &Checked) -> Self {
        let warnings = rules::warnings(checked);
        let holes = warnings.iter().filter(|warning| is_hole(warning.rule.name)).count();
        let mut found = Self { warnings: warnings.len(), empty: 0, lopsided: 0, holes };
        for part in [&pattern.opening, &pattern.set, &pattern.closing].into_iter().flatten() {
            found.look(part);
        }
        found
    }

    fn look(&mut self, part: &Part) {
        let tied = Piece::from_tied(part.knots.clone(), part.order.clone(), part.straight.clone());
        let (Ok(piece), Some(gaps)) = (tied, part.order.len().checked_sub(1)) else { return };
        let cells = normal_form(&piece);
        let rows = cells.iter().map(|cell| cell.row as usize + 1).max().unwrap_or(0);
        // Every second place of a row is a brick.
        self.empty += (rows * gaps).div_ceil(2).saturating_sub(cells.len());
        let there: HashSet<Cell> = cells.iter().copied().collect();
        let image =
            |cell: &Cell| Cell { gap: (gaps - 1) as u8 - cell.gap, kind: cell.kind.mirrored(), ..*cell };
        let alone = |cell: &&Cell| image(cell).gap != cell.gap && !there.contains(&image(cell));
        self.lopsided += cells.iter().filter(alone).count();
    }
}
