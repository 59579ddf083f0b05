//! What is made of the strands before the first knot of a band and after its last: plaits, wraps, loops, tassels.

/// One piece of work at an end. Lengths are in millimeters; a thread is a number that says which threads are alike.
#[derive(Debug, Clone, PartialEq)]
pub enum EndWork {
    /// An overhand knot of all strands.
    Knot,
    /// A plait.
    Plait {
        /// Of how many bundles.
        bundles: u8,
        /// How long it is.
        length: f64,
    },
    /// A cord of two bundles, twisted around each other.
    Twist {
        /// How long it is.
        length: f64,
    },
    /// A thread of its own that goes around all strands.
    Wrap {
        /// Which thread.
        thread: u16,
        /// How often.
        turns: u32,
    },
    /// Parts, as even as they come, all made alike.
    Split {
        /// How many.
        parts: u8,
        /// What is made of each.
        works: Vec<EndWork>,
    },
    /// A loop. At a fold, the threads go around it; elsewhere the strands are laid back, and a knot holds them.
    Loop {
        /// Once around it.
        length: f64,
    },
    /// What hangs free.
    Tassel {
        /// How long.
        length: f64,
    },
    /// A bead that all strands go through.
    Bead {
        /// Which bead.
        bead: u16,
        /// How long it is.
        length: f64,
    },
    /// A knot that ties both ends together.
    ClosingKnot,
    /// A thread of its own that goes around both ends and slides along them.
    Slide {
        /// Which thread.
        thread: u16,
        /// How often.
        turns: u32,
    },
}

/// What is made at both ends, where the pattern says it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BandEnds {
    /// Before the first knot, from the tip to the band.
    pub begin: Option<Vec<EndWork>>,
    /// After the last knot, from the band to the tip.
    pub finish: Option<Vec<EndWork>>,
    /// Whether the band is seen in a mirror: what a plait begins at the left begins at the right.
    pub is_image: bool,
}

impl EndWork {
    /// Whether it closes the band: it is made of both ends, when all else is done.
    pub fn is_closure(&self) -> bool {
        matches!(self, Self::ClosingKnot | Self::Slide { .. })
    }
}

/// The works of an end without those that close the band.
pub fn without_closure(works: &[EndWork]) -> &[EndWork] {
    let closures = works.iter().rev().take_while(|work| work.is_closure()).count();
    &works[..works.len() - closures]
}

/// Whether something of an end hangs free, here or in its parts.
pub fn has_tassel(works: &[EndWork]) -> bool {
    works.iter().any(|work| match work {
        EndWork::Tassel { .. } => true,
        EndWork::Split { works, .. } => has_tassel(works),
        _ => false,
    })
}

/// Of how many strands each of `parts` is, as even as they come: the first ones have one more.
pub fn share_out(strands: usize, parts: usize) -> impl Iterator<Item = usize> {
    let parts = parts.max(1);
    let (each, more) = (strands / parts, strands % parts);
    (0..parts).map(move |part| each + usize::from(part < more))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strands_are_shared_out_as_evenly_as_they_come() {
        let shared = |strands, parts| share_out(strands, parts).collect::<Vec<_>>();
        assert_eq!(shared(8, 3), [3, 3, 2]);
        assert_eq!(shared(6, 3), [2, 2, 2]);
        assert_eq!(shared(2, 3), [1, 1, 0]);
    }

    #[test]
    fn a_tassel_in_a_part_hangs_free_too() {
        let tassel = EndWork::Tassel { length: 20.0 };
        let split = EndWork::Split { parts: 2, works: vec![EndWork::Knot, tassel] };
        assert!(has_tassel(&[EndWork::Knot, split]) && !has_tassel(&[EndWork::Knot]));
        let slide = EndWork::Slide { thread: 0, turns: 6 };
        assert_eq!(without_closure(&[EndWork::Knot, slide]), [EndWork::Knot]);
    }
}
