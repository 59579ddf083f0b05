//! One knot.

/// The most strands a band can have; a position or a strand fits a byte.
pub const MOST_STRANDS: usize = 200;

/// The most knots in one opening, set or closing.
pub const MOST_KNOTS: usize = 10_000_000;

/// How a knot is tied. The color seen is always the working strand's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// The left strand works; the two change places.
    Forward,
    /// The right strand works; the two change places.
    Backward,
    /// The left strand works; each stays where it was.
    ForwardBackward,
    /// The right strand works; each stays where it was.
    BackwardForward,
}

impl Kind {
    /// Whether the left one of the two strands works.
    pub fn left_works(self) -> bool {
        matches!(self, Self::Forward | Self::ForwardBackward)
    }

    /// Whether the two strands change places.
    pub fn swaps(self) -> bool {
        matches!(self, Self::Forward | Self::Backward)
    }

    /// The same knot in a mirror.
    pub fn mirrored(self) -> Self {
        match self {
            Self::Forward => Self::Backward,
            Self::Backward => Self::Forward,
            Self::ForwardBackward => Self::BackwardForward,
            Self::BackwardForward => Self::ForwardBackward,
        }
    }
}

/// A knot as it was tied. Strands are named by their starting position; positions, strands and gaps count from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Knot {
    /// The gap it closes: between the strands at `gap` and `gap + 1`.
    pub gap: u8,
    /// How it is tied.
    pub kind: Kind,
    /// The strand that ties, and whose color is seen.
    pub working: u8,
    /// The strand it is tied over.
    pub base: u8,
}
