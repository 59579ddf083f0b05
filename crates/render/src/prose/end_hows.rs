//! How the pieces of an end are made: what a hand must know beside the steps.

use knotwright_band::ends::EndWork;
use knotwright_numbers::ToNumber;

/// What is explained once, wherever it is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum EndHow {
    Knot,
    Plait,
    Twist,
    Wrap,
    Loop,
    Tassel,
    Bead,
    ClosingKnot,
    Slide,
}

impl EndHow {
    /// All of them, in the order in which they are explained.
    pub(crate) const ALL: [Self; 9] = [
        Self::Knot,
        Self::Plait,
        Self::Twist,
        Self::Wrap,
        Self::Loop,
        Self::Tassel,
        Self::Bead,
        Self::ClosingKnot,
        Self::Slide,
    ];

    /// What a piece takes, without what is made of its parts.
    pub(crate) fn of(work: &EndWork) -> Option<Self> {
        Some(match work {
            EndWork::Knot => Self::Knot,
            EndWork::Plait { .. } => Self::Plait,
            EndWork::Twist { .. } => Self::Twist,
            EndWork::Wrap { .. } => Self::Wrap,
            EndWork::Split { .. } => return None,
            EndWork::Loop { .. } => Self::Loop,
            EndWork::Tassel { .. } => Self::Tassel,
            EndWork::Bead { .. } => Self::Bead,
            EndWork::ClosingKnot => Self::ClosingKnot,
            EndWork::Slide { .. } => Self::Slide,
        })
    }

    /// Its number in [`EndHow::ALL`].
    pub(crate) fn number(self) -> u32 {
        Self::ALL.iter().position(|known| *known == self).unwrap_or_default().to_u32()
    }
}
