//! A set that is to show the same face with fewer turning knots.

use knotwright_checker::{PartKind, Pattern, StartForm};
use knotwright_designer::{NoFace, WishedFace};

/// A set whose knots may be tied otherwise.
#[derive(Debug, Clone, PartialEq)]
pub struct ImprovableSet {
    /// What it shows; colors are threads of the pattern.
    pub face: WishedFace,
    /// By position as it begins, the thread.
    pub hung: Vec<u16>,
    /// How many of its knots turn between two colors.
    pub turning: usize,
    /// Whether the colors hang after it as before.
    pub comes_again: bool,
    /// Whether something else needs the strands to hang as they do when it begins: an opening, a closing, folded threads.
    pub is_bound: bool,
}

/// Why there is no such set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotImprovable {
    /// The pattern has no `set`.
    NoSet,
    /// Its set has a leader, whose rows lie straight.
    Leader,
    /// Its set does not close, and a closing begins as the set ends.
    EndsOpen,
    /// There is nothing to see, or too much.
    NoFace(NoFace),
}

impl ImprovableSet {
    /// The set of a pattern.
    ///
    /// # Errors
    /// [`NotImprovable`].
    pub fn of(pattern: &Pattern) -> Result<Self, NotImprovable> {
        let set = pattern.set.as_ref().ok_or(NotImprovable::NoSet)?;
        if !set.piece.straight().is_empty() {
            return Err(NotImprovable::Leader);
        }
        let hung = pattern.threads_before(PartKind::Set);
        let comes_again = hung == pattern.threads_before(PartKind::Closing);
        if pattern.closing.is_some() && !comes_again {
            return Err(NotImprovable::EndsOpen);
        }
        let color = |strand: u8| hung.get(usize::from(strand)).copied().unwrap_or(u16::MAX);
        let face = WishedFace::of_piece(&set.piece, color).map_err(NotImprovable::NoFace)?;
        let knots = set.piece.knots().iter();
        let turning =
            knots.filter(|knot| !knot.kind.swaps() && color(knot.working) != color(knot.base)).count();
        let is_bound =
            pattern.opening.is_some() || pattern.closing.is_some() || pattern.start != StartForm::Loose;
        Ok(Self { face, hung, turning, comes_again, is_bound })
    }
}
