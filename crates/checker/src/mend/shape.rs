//! How a band looks on the whole: the fewer blemishes, the likelier it is the one that was meant.

use super::lie::Lie;
use super::trial::Look;
use crate::{PartKind, Tag, finders};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;
use std::collections::hash_map::Entry;

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

/// How many more empty places make a band far worse than another: then its edit is not offered beside that of the other.
const FAR_WORSE: usize = 12;

/// Whether a band with that many empty places, as they are counted for its [rank](Blemishes::rank), is much worse than the best.
pub(super) fn is_far_worse(empty: usize, best: usize) -> bool {
    empty > best + FAR_WORSE
}

impl Blemishes {
    /// Those of a band.
    pub(super) fn of(look: &Look, known: &mut KnownBands) -> Self {
        Self::with_fewer_holes(look, known, usize::MAX).unwrap_or_default()
    }

    /// Those of a band with fewer holes than `most`; `None` if it has as many, which is found out first.
    pub(super) fn with_fewer_holes(look: &Look, known: &mut KnownBands, most: usize) -> Option<Self> {
        let known = known.0.entry(look.lie().band);
        if let Entry::Occupied(known) = &known {
            match known.get() {
                Some(found) => return Some(found.with_steps(look)),
                None if most == 1 => return None,
                None => {}
            }
        }
        let warnings = match &look.sound {
            Some(sound) => finders::find_with_fewer_holes(sound, most),
            None => Some(Vec::new()),
        };
        let found = warnings.map(|warnings| {
            let holes = warnings.iter().filter(|warning| warning.rule.has(Tag::Hole)).count();
            Self { holes, ..Self::of_band(look, warnings.len()) }
        });
        known.insert_entry(found.filter(|found| found.holes == 0));
        Some(found?.with_steps(look))
    }

    /// No more than the warnings.
    pub(super) fn of_warnings(look: &Look) -> Self {
        let warnings = look.sound.iter().map(|sound| finders::find_with_fewer_holes(sound, usize::MAX));
        let warnings = warnings.flatten().map(|warnings| warnings.len()).sum();
        Self { warnings, ..Self::default() }.with_steps(look)
    }

    fn of_band(look: &Look, warnings: usize) -> Self {
        let sound = look.sound.iter();
        let seen = sound.flat_map(|sound| PartKind::ALL.into_iter().filter_map(|kind| sound.seen(kind)));
        let asymmetric = seen.filter(|seen| seen.symmetries().exact.is_empty()).count();
        Self { warnings, asymmetric, ..look.lie().blemishes }
    }

    /// With those of how its steps are written, and of which threads hang there.
    fn with_steps(self, Look { pattern, checked, sound, contents, .. }: &Look) -> Self {
        let of_steps = finders::find_in_steps(checked, sound.as_ref(), contents).len();
        let threads = 0..checked.script.head.threads.len();
        let idle = threads.filter(|thread| !pattern.strands.contains(&thread.to_u16())).count();
        Self { warnings: self.warnings + of_steps + idle, ..self }
    }

    /// What is compared. `odds`: how many empty places a likelier kind of edit outweighs.
    pub(super) fn rank(&self, odds: usize) -> (usize, usize, usize) {
        (self.warnings, self.empty + odds + ASYMMETRIC * self.asymmetric, self.lopsided)
    }
}

/// The blemishes of bands that were looked at already, without those of how their steps are written: edits in other places may
/// make one and the same band. `None` of those with holes: how many are reported depends on the steps that close them.
#[derive(Debug, Default)]
pub(super) struct KnownBands(HashMap<u64, Option<Blemishes>>);

impl KnownBands {
    /// The blemishes of a band that lies so, if it was looked at and has no holes.
    pub(super) fn whole(&self, lie: &Lie) -> Option<Blemishes> {
        self.0.get(&lie.band).copied().flatten()
    }
}
