//! The script is tied knot for knot, and every promise in it tested.
//!
//! The tree is walked as it is, without an intermediate form. A mirror is a way of counting positions
//! ([`Frame`]); a proposed mend is an [`Overlay`] over the text. After a statement that does not parse or names
//! nothing the strands of its range are unknown, and nothing is said of them until an `expect` tells them.

mod block;
mod chart;
mod expect;
mod frame;
mod log;
mod mark;
mod number;
mod overlay;
mod part;
mod place;
mod run;
mod scope;
mod strands;
mod stretch;
mod take;
#[cfg(test)]
mod tests;
mod view;
mod work;

pub(crate) use mark::{Amount, Mark};
pub(crate) use overlay::{Change, Overlay};
pub(crate) use part::{Limits, Tied, look, picks_by_color, tie, tie_one, tie_traced};
pub(crate) use stretch::{Stretch, tie_stretch};
pub use view::{Known, Spot, View, Which};

use crate::facts::Facts;
use crate::mend::Trace;
use crate::resolve::{MotifRef, Script, ThreadId, UNKNOWN_THREAD};
use crate::{Fact, FactKind, FileId, Place, Sighting};
use frame::Frame;
use knotwright_band::MOST_KNOTS;
use knotwright_grammar::Span;
use log::{Log, Moved};
use scope::Scope;
use strands::Strands;

/// Why a statement is not tied to its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Halt {
    /// It names nothing; where the strands of its range hang is unknown after it.
    Lost,
    /// Nothing more is to be tied at all.
    Stop,
}

/// What came of something that ties.
type Done<T = ()> = Result<T, Halt>;

/// One opening, set or closing while it is tied.
struct Tie<'a> {
    script: &'a Script,
    overlay: Option<&'a Overlay>,
    limits: Limits,
    /// Statements and passes so far.
    spent: u64,
    facts: &'a mut Facts,
    /// By strand, its thread. Strands are named by where they hang as the part begins.
    threads: Vec<ThreadId>,
    strands: Strands,
    frame: Frame,
    /// Positions of which it is unknown who hangs there: the first and the last.
    unknown: Option<(usize, usize)>,
    /// Whether it is known how the strands hung as the part began.
    start_known: bool,
    file: FileId,
    /// The statement being tied.
    here: Span,
    scope: Scope<'a>,
    /// The `work` statements that led here, and their motifs.
    through: Vec<Place>,
    motifs: Vec<MotifRef>,
    /// Blocks within blocks.
    depth: usize,
    log: Log,
    moved: Moved,
    /// Whether a step since the last mark picks a strand by color.
    picks_by_color: bool,
    marks: Vec<Mark>,
    /// When so much is spent, the next mark is due.
    due: u64,
    /// Which statements were tied; kept only for the search of mends.
    trace: Option<&'a mut Trace>,
    /// The strand that was taken in hand last.
    held: Option<u8>,
    watch: Option<view::Watch<'a>>,
}

impl Tie<'_> {
    fn place(&self, span: Span) -> Place {
        Place { file: self.file, span }
    }

    fn say(&mut self, span: Span, kind: FactKind) {
        if self.facts.is_full() {
            return;
        }
        let place = self.place(span);
        let (through, mirrored) = (self.through.clone(), self.frame.mirrored);
        self.facts.add(Fact { place, through, mirrored, kind });
    }

    /// Says what is wrong with a statement that names nothing.
    fn lost<T>(&mut self, span: Span, kind: FactKind) -> Done<T> {
        self.say(span, kind);
        Err(Halt::Lost)
    }

    /// One more statement or pass. Loops without end stop here.
    fn spend(&mut self) -> Done {
        self.spent += 1;
        if self.spent > self.limits.statements {
            return self.too_many();
        }
        if self.facts.count() > self.limits.facts {
            return Err(Halt::Stop);
        }
        Ok(())
    }

    /// Makes sure that `count` more knots may be tied.
    fn afford(&mut self, count: usize) -> Done {
        let most = self.limits.knots.min(MOST_KNOTS as u64);
        if self.strands.tied() + count as u64 > most { self.too_many() } else { Ok(()) }
    }

    fn too_many(&mut self) -> Done {
        self.say(self.here, FactKind::TooManyKnots);
        Err(Halt::Stop)
    }

    /// From now on it is unknown how the strands of the present range hang.
    fn lose(&mut self) {
        let (low, high) = self.unknown.unwrap_or((self.frame.low, self.frame.high));
        self.unknown = Some((low.min(self.frame.low), high.max(self.frame.high)));
    }

    /// Whether it is unknown how some strands of the present range hang.
    fn is_blind(&self) -> bool {
        self.unknown.is_some_and(|unknown| self.frame.overlaps(unknown))
    }

    /// The thread of the strand at a position of the band.
    fn thread_at(&self, position: usize) -> ThreadId {
        self.threads[usize::from(self.strands.order()[position])]
    }

    fn sight(&mut self, position: usize) -> Sighting {
        let strand = self.strands.order()[position];
        let last_moved = self.moved.last(strand, self.strands.knots(), &self.log.steps);
        let thread = self.script.thread_name(self.threads[usize::from(strand)]);
        Sighting { position: position + 1, thread, last_moved }
    }
}

/// Whether a strand of thread `found` keeps a promise of `promised`; what is unknown is not blamed.
fn keeps(promised: ThreadId, found: ThreadId) -> bool {
    promised == found || promised == UNKNOWN_THREAD || found == UNKNOWN_THREAD
}
