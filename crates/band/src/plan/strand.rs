//! One strand, and how far its series can go.

use crate::Knot;

/// What must be known of a strand to say whether its series can go on.
///
/// By side, how many bases it tied still lie stacked there: a knot tied over one that lies on a side where others are
/// stacked can belong to the series only if the strand itself tied that base last, for else another strand has tied
/// it since, and waits, through what is stacked, for an earlier knot of the series. Counters are needed, not flags: a
/// strand that goes back over its bases takes them off the stack one by one.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Stacked {
    sides: [u32; 2],
}

impl Stacked {
    /// Whether a series can go on with this knot; `own`: its base was last in a knot of the series.
    pub(super) fn allows(self, knot: &Knot, own: bool) -> bool {
        own || self.sides[base_side(knot)] == 0
    }

    /// Adds a knot of the series.
    pub(super) fn tie(&mut self, knot: &Knot) {
        let side = base_side(knot);
        if knot.kind.swaps() {
            self.sides[side] = self.sides[side].saturating_sub(1);
            self.sides[1 - side] += 1;
        } else {
            self.sides[side] = self.sides[side].max(1);
        }
    }
}

/// On which side of the working strand the base lies before the knot: 0 left, 1 right.
pub(super) fn base_side(knot: &Knot) -> usize {
    usize::from(knot.kind.left_works())
}
