//! What a step asks of two hands, without words.

use crate::{Named, Passage, Step};
use knotwright_band::{Kind, Knot};
use knotwright_numbers::ToNumber;

/// What is done, apart from the colors. Positions count from 0.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Act {
    /// A strand is taken and ties.
    Take {
        /// Where it hangs.
        place: StrandPlace,
        /// What it ties.
        runs: Vec<(Kind, u32)>,
        /// Where it then hangs, if that is a place worth naming.
        end: Option<RunEnd>,
    },
    /// Two strands of one color are tied together, no matter who works.
    Meet {
        /// Where the left one hangs; `None` for the two in the very middle.
        place: Option<StrandPlace>,
    },
    /// Knots next to each other.
    Row(Vec<RowKnot>),
    /// A leader goes from edge to edge.
    Lead {
        /// From the left edge, not the right one.
        rightward: bool,
        /// Whether the leader ties, and on how many.
        runs: Vec<(bool, u32)>,
    },
    /// A bead is threaded.
    Thread {
        /// Which.
        bead: u16,
        /// Where the strands hang that go through it.
        places: Vec<StrandPlace>,
    },
}

/// A knot in a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct RowKnot {
    pub(crate) gap: u8,
    pub(crate) kind: Kind,
    /// The thread that is seen.
    pub(crate) thread: u16,
}

/// A place in the band, counted from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum StrandPlace {
    FromLeft(u8),
    FromRight(u8),
}

/// Where a strand ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum RunEnd {
    LeftEdge,
    RightEdge,
    Middle,
}

/// From which side places are counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum CountFrom {
    /// As the pattern does; where it does not, from the nearer edge.
    #[default]
    AsWritten,
    /// Always from the right.
    FromRight,
}

/// What a step does, and the strand it takes (by the names of the passage; for a bead, the position of the leftmost);
/// `None` if it does nothing.
///
/// `thread`: of a strand of the passage.
pub(crate) fn describe_act(
    passage: &Passage,
    step: usize,
    counting: CountFrom,
    thread: impl Fn(u8) -> u16,
) -> Option<(Act, u8)> {
    let (written, range) = (passage.steps.get(step)?, passage.ranges.get(step)?);
    let strands = passage.piece.strands().to_u8();
    if let Named::Bead { bead, strands: through } = written.named {
        let last = written.from.saturating_add(through).min(strands);
        let places = (written.from..last).map(|at| counting.place(written, at, strands)).collect();
        return Some((Act::Thread { bead, places }, written.from));
    }
    let knots = passage.piece.knots().get(range.start.to_usize()..range.end.to_usize())?;
    let (first, last) = (knots.first()?, knots.last()?);
    let act = match written.named {
        Named::Row => Act::Row(knots.iter().map(|knot| row_knot(knot, &thread)).collect()),
        Named::Leader => {
            let rightward = if knots.len() > 1 { first.gap < last.gap } else { written.from == first.gap };
            let runs = runs(knots, |knot| knot.kind.left_works() == rightward);
            let leader =
                if runs.first().is_some_and(|(leads, _)| *leads) { first.working } else { first.base };
            return Some((Act::Lead { rightward, runs }, leader));
        }
        Named::Meet => {
            let middle = first.gap + 1 == strands - strands / 2 && strands.is_multiple_of(2);
            let place = (!middle).then(|| counting.place(written, first.gap, strands));
            Act::Meet { place }
        }
        Named::FromLeft | Named::FromRight | Named::Otherwise | Named::Bead { .. } => {
            let runs = runs(knots, |knot| knot.kind);
            Act::Take {
                place: counting.place(written, written.from, strands),
                runs,
                end: end(written, last, strands),
            }
        }
    };
    Some((act, first.working))
}

fn row_knot(knot: &Knot, thread: impl Fn(u8) -> u16) -> RowKnot {
    RowKnot { gap: knot.gap, kind: knot.kind, thread: thread(knot.working) }
}

/// Things that come several times in a row, and how often.
fn runs<T: PartialEq>(knots: &[Knot], what: impl Fn(&Knot) -> T) -> Vec<(T, u32)> {
    let mut runs: Vec<(T, u32)> = Vec::new();
    for knot in knots {
        let this = what(knot);
        match runs.last_mut() {
            Some((last, count)) if *last == this => *count += 1,
            _ => runs.push((this, 1)),
        }
    }
    runs
}

impl CountFrom {
    /// How a position is counted: from the side that the author chose if the range begins at that edge, else from the
    /// nearer edge.
    fn place(self, written: &Step, at: u8, strands: u8) -> StrandPlace {
        let (left, right) = (at, strands.saturating_sub(at + 1));
        match (self, written.named) {
            (Self::FromRight, _) => StrandPlace::FromRight(right),
            (_, Named::FromLeft) if written.within.0 == 0 => StrandPlace::FromLeft(left),
            (_, Named::FromRight) if written.within.1 + 1 == strands => StrandPlace::FromRight(right),
            _ if left <= right => StrandPlace::FromLeft(left),
            _ => StrandPlace::FromRight(right),
        }
    }
}

/// How the position of a joined strand is counted: from the nearer edge, if nothing else is wanted.
pub(crate) fn place_of(at: u8, strands: usize, counting: CountFrom) -> StrandPlace {
    let right = strands.to_u8().saturating_sub(at + 1);
    match counting {
        CountFrom::AsWritten if at <= right => StrandPlace::FromLeft(at),
        CountFrom::AsWritten | CountFrom::FromRight => StrandPlace::FromRight(right),
    }
}

/// Where the strand hangs after its last knot. Only a strand that went somewhere has come somewhere.
fn end(written: &Step, last: &Knot, strands: u8) -> Option<RunEnd> {
    let at = match last.kind {
        Kind::Forward | Kind::BackwardForward => last.gap + 1,
        Kind::Backward | Kind::ForwardBackward => last.gap,
    };
    // The middle of an odd band is one strand, of an even one the two on either side of it.
    let middle = at == strands / 2 || at + 1 == strands - strands / 2;
    match at {
        _ if at == written.from => None,
        0 => Some(RunEnd::LeftEdge),
        _ if at + 1 == strands => Some(RunEnd::RightEdge),
        _ if middle && strands > 4 => Some(RunEnd::Middle),
        _ => None,
    }
}
