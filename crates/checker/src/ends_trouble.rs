//! What cannot be made of the ends of a band.

/// What is wrong with a piece of an end. Numbers of strands are those that hang there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum EndsTrouble {
    /// A plait of fewer than 3 or more than 8 bundles.
    PlaitBundles {
        /// How many are asked for.
        bundles: u32,
    },
    /// More bundles than strands.
    PlaitStrands {
        /// How many are asked for.
        bundles: u32,
        /// How many strands there are.
        strands: usize,
    },
    /// One strand cannot go around itself.
    TwistOfOne,
    /// One part is no split.
    SplitInOne {
        /// How many are asked for.
        parts: u32,
    },
    /// More parts than strands.
    SplitStrands {
        /// How many are asked for.
        parts: u32,
        /// How many strands there are.
        strands: usize,
    },
    /// Two strands in different parts are one thread, folded at the tip. They are counted from 1.
    SplitThread {
        /// One of them.
        left: usize,
        /// The other.
        right: usize,
    },
    /// A tassel or a loop with something beyond it.
    NotAtTip {
        /// Its word.
        piece: &'static str,
        /// Whether it is at the beginning, where the tip comes first.
        begin: bool,
    },
    /// A tassel where the threads are folded.
    TasselAtFold,
    /// What closes the band does not stand last in `finish`.
    ClosureElsewhere {
        /// Its word.
        piece: &'static str,
    },
    /// There is nothing to close the band with.
    NothingToClose {
        /// Its word.
        piece: &'static str,
        /// Whether it is missing at the beginning.
        begin: bool,
    },
    /// A bead with nothing beyond it that would hold it.
    BeadSlipsOff,
    /// More turns than anybody winds.
    TooManyTurns {
        /// How many.
        turns: u32,
    },
    /// The end takes more of each strand than a skein has.
    TooLong {
        /// `begin` or `finish`.
        block: &'static str,
        /// What it takes, in millimeters.
        millimeters: f64,
        /// What there is.
        most: f64,
    },
}
