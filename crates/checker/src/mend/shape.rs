//! How a band looks on the whole: the fewer blemishes, the likelier it is the one that was meant.

use super::lie::Lie;
use super::trial::Look;
use crate::{GivenUp, PartKind, Tag, rules};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;

/// What is not as it would be in most bands. Less is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Blemishes {
    /// All warnings but those of names, of which edits of what is tied change one alone: a thread may hang nowhere.
    pub(super) warnings: usize,
    /// Places in the rows of the band where no knot lies.
    pub(super) empty: usize,
    /// Knots whose mirror image is not there.
    pub(super) lopsided: usize,
    /// Parts whose picture has no symmetry. Most have one, and few slips give another.
    pub(super) asymmetric: usize,
    /// Warnings of holes; they are among the warnings.
    pub(super) holes: usize,
    /// What distinguishes this band from others.
    pub(super) band: u64,
}

/// How many empty places a part without any symmetry counts for.
const ASYMMETRIC: usize = 4;

impl Blemishes {
    /// Those of a band.
    pub(super) fn of(look: &Look, known: &mut KnownBands) -> Self {
        let (Look { pattern, checked, sound, contents, .. }, lie) = (look, look.lie());
        let found = known.0.get(&lie.band).copied().unwrap_or_else(|| Self::of_band(look));
        if found.holes == 0 {
            known.0.insert(lie.band, found);
        }
        let of_steps = rules::find_in_steps(checked, sound.as_ref(), contents).len();
        let threads = 0..checked.script.head.threads.len();
        let idle = threads.filter(|thread| !pattern.strands.contains(&thread.to_u16())).count();
        Self { warnings: found.warnings + of_steps + idle, ..found }
    }

    fn of_band(look: &Look) -> Self {
        let sound = &look.sound;
        let warnings: Vec<_> =
            sound.iter().flat_map(|sound| rules::find_in_band(sound, &GivenUp::NEVER)).collect();
        let holes = warnings.iter().filter(|warning| warning.rule.has(Tag::Hole)).count();
        let seen =
            sound.iter().flat_map(|sound| PartKind::ALL.into_iter().filter_map(|kind| sound.seen(kind)));
        let asymmetric = seen.filter(|seen| seen.symmetries().exact.is_empty()).count();
        Self { warnings: warnings.len(), holes, asymmetric, ..look.lie().blemishes }
    }

    /// What is compared. `odds`: how many empty places a likelier kind of edit outweighs.
    pub(super) fn rank(&self, odds: usize) -> (usize, usize, usize) {
        (self.warnings, self.empty + odds + ASYMMETRIC * self.asymmetric, self.lopsided)
    }
}

/// The blemishes of bands without holes that were looked at already, without those of how their steps are written: edits in
/// other places may make one and the same band. How many holes are reported depends on the steps that close them.
#[derive(Debug, Default)]
pub(super) struct KnownBands(HashMap<u64, Blemishes>);

impl KnownBands {
    /// Whether a band that lies so was looked at.
    pub(super) fn has(&self, lie: &Lie) -> bool {
        self.0.contains_key(&lie.band)
    }
}
