//! The script is tied knot for knot, and every promise in it tested.
//!
//! The tree is walked as it is, without an intermediate form. A mirror is a way of counting positions
//! ([`Frame`]); a proposed mend is an [`Overlay`] over the text. After a statement that does not parse or names
//! nothing the strands of its range are unknown, and nothing is said of them until an `expect` says where they are.
//!
//! Every 32nd statement or so leaves a [`Mark`]: how the strands hang there and how much is written down. After an edit,
//! only what lies between two marks is tied again ([`stretch`]), or what comes after one ([`going_on`]). A mark at each
//! statement took as much room as the knots, and none at all made an edit at the end of a long file as slow as a check.

mod act;
mod bead;
mod block;
mod chart;
mod echoes;
mod edited;
mod expect;
mod foresee;
mod frame;
mod going_on;
mod join;
mod log;
mod mark;
mod needed;
mod number;
mod orders;
mod overlay;
mod part;
mod place;
mod replay;
mod reworded;
mod run;
mod scope;
mod stretch;
mod study;
mod take;
#[cfg(test)]
mod tests;
mod times;
mod tries;
mod turns;
mod view;
mod width;
mod work;

pub(crate) use echoes::{Echo, Echoes};
pub(crate) use going_on::{BegunPart, TiedBefore, tie_rest};
pub(crate) use log::MOST_BYTES;
pub(crate) use mark::{Amount, Mark};
pub(crate) use needed::hanging_at;
pub(crate) use overlay::{Added, Change, Copied, CopiedBut, InHand, Overlay, RowEdit, StatementEdit};
pub(crate) use part::{
    Keep, Limits, MOST_IDLE, Tied, block_of, look_at, picks_by_color, tie_from, tie_hung, tie_one, tie_parts,
    tie_searched, tie_studied,
};
pub(crate) use replay::{KnownStretch, Replay, Stuck};
pub(crate) use reworded::Reworded;
pub(crate) use run::kind_of;
pub(crate) use stretch::{HangingStrands, Stretch, StretchRange, tie_stretch};
pub(crate) use study::{Failing, KnownStart, Moment, PartStudy, Passing, Studied, Study, Wants};
pub(crate) use tries::FEW_KNOTS;
pub(crate) use turns::KnownTurns;
pub use view::{Known, Spot, View};

use crate::facts::Facts;
use crate::resolve::{MotifRef, Script, ThreadId, UNKNOWN_THREAD};
use crate::{Fact, FactKind, FileId, Place, Sighting};
use frame::{Frame, PositionRange};
use knotwright_band::{MOST_KNOTS, Tying};
use knotwright_grammar::Span;
use knotwright_numbers::ToNumber;
use log::{Log, Moved};
use scope::Scope;
use tries::EditTrial;

/// After how many statements, passes and runs it is asked whether somebody still waits.
const LOOK_UP_EVERY: u32 = 1024;

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
    overlay: Option<Overlay>,
    limits: Limits<'a>,
    /// Statements and passes so far.
    spent: u64,
    /// How often it was time to look whether somebody still waits.
    looks: u32,
    facts: &'a mut Facts,
    /// By strand, its thread. Strands are named by where they hang as the part begins.
    threads: Vec<ThreadId>,
    /// The same as the part began, if a strand has gone on with another thread since.
    begun: Option<Vec<ThreadId>>,
    strands: Tying,
    frame: Frame,
    /// Positions of which it is unknown who hangs there.
    unknown: Option<PositionRange>,
    /// Whether it is known how the strands hung as the part began.
    start_known: bool,
    file: FileId,
    /// The statement being tied.
    here: Span,
    scope: Scope<'a>,
    /// The `work` statements that led here, and their motifs.
    through: Vec<Place>,
    motifs: Vec<MotifRef>,
    /// Of motifs worked among this many strands, whether it is the motif's own number that is wrong.
    misnumbered: Vec<(MotifRef, usize, bool)>,
    /// Blocks within blocks.
    depth: usize,
    log: Log,
    moved: Moved,
    /// Whether a step since the last mark picks a strand by color.
    picks_by_color: bool,
    marks: Vec<Mark>,
    /// The next mark is due when this much is spent.
    due: u64,
    /// Where the tie begins, until it has come there.
    from: Option<KnownStart<'a>>,
    /// How often a statement was tied otherwise than it is written.
    edited: u32,
    /// Who studies what the steps rest on; only for the search of mends.
    study: Option<Study<'a>>,
    /// Looked at so far for the study: promises, colors that were read, and what is wrong.
    clock: u32,
    /// Room for orders of the strands, in a search.
    spare: Vec<Vec<u8>>,
    /// While an edit is tried: whether something was wrong with it.
    trial: Option<EditTrial>,
    /// The strand that was taken in hand last.
    held: Option<u8>,
    watch: Option<view::Watch<'a>>,
}

impl Tie<'_> {
    fn keeps_steps(&self) -> bool {
        self.limits.keep == Keep::All
    }

    fn place(&self, span: Span) -> Place {
        Place { file: self.file, span }
    }

    fn say(&mut self, span: Span, kind: FactKind) {
        self.say_at(self.place(span), kind);
    }

    fn say_at(&mut self, place: Place, kind: FactKind) {
        if self.study.is_some() || self.trial.is_some() {
            return self.study_fault(&kind);
        }
        if self.facts.is_full() {
            return;
        }
        let (through, mirrored) = (self.through.clone(), self.frame.mirrored);
        let fact = Fact { place, through, mirrored, kind };
        if let Some(listener) = self.limits.listener.filter(|_| self.facts.count() == 0) {
            listener.first_fault(self.script, &fact);
        }
        self.facts.add(fact);
    }

    /// Notes that a color is not as promised. Whether that is to be said: only then it is worth finding out how it came
    /// about, which takes far longer where thousands of promises break.
    fn is_to_be_said(&mut self) -> bool {
        if let Some(trial) = &mut self.trial {
            trial.failed = true;
            return false;
        }
        self.study.is_none() && !self.facts.is_full()
    }

    /// Says what is wrong with a statement that names nothing.
    fn lost<T>(&mut self, span: Span, kind: FactKind) -> Done<T> {
        self.say(span, kind);
        Err(Halt::Lost)
    }

    /// One more statement or pass. Loops without end stop here, and what would take too much memory.
    #[inline]
    fn spend(&mut self) -> Done {
        self.spent += 1;
        self.look_up()?;
        if self.spent > self.limits.statements + 3 * self.strands.tied() {
            return self.stop(FactKind::TooManyPasses);
        }
        if self.log.bytes > self.limits.bytes {
            return self.stop(FactKind::TooMuchMemory);
        }
        if self.facts.count() > self.limits.facts || self.trial.is_some_and(|trial| trial.failed) {
            return Err(Halt::Stop);
        }
        Ok(())
    }

    /// Goes on only while somebody waits, and mostly without asking.
    fn look_up(&mut self) -> Done {
        self.looks = self.looks.wrapping_add(1);
        match self.looks.is_multiple_of(LOOK_UP_EVERY) && self.limits.given_up.is_so() {
            true => Err(Halt::Stop),
            false => Ok(()),
        }
    }

    /// Makes sure that `count` more knots may be tied.
    fn afford(&mut self, count: usize) -> Done {
        self.look_up()?;
        let most = self.limits.knots.min(MOST_KNOTS.to_u64());
        if self.strands.tied() + count.to_u64() > most { self.stop(FactKind::TooManyKnots) } else { Ok(()) }
    }

    /// Nothing more is tied, for that reason.
    #[cold]
    fn stop(&mut self, why: FactKind) -> Done {
        self.say(self.here, why);
        Err(Halt::Stop)
    }

    /// From now on it is unknown how the strands of the present range hang.
    fn lose(&mut self) {
        self.study_lost();
        let range = self.frame.positions();
        self.unknown = Some(self.unknown.map_or(range, |unknown| unknown.joined(range)));
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
        // While an edit is tried nobody is told.
        let told = self.trial.is_none();
        let last_moved =
            told.then(|| self.moved.last(strand, self.strands.knots(), &self.log.steps)).flatten();
        let thread = self.script.thread_name(self.threads[usize::from(strand)]);
        Sighting { position: position + 1, thread, last_moved }
    }
}

/// Whether a strand of thread `found` keeps a promise of `promised`; what is unknown is not blamed.
pub(crate) fn keeps(promised: ThreadId, found: ThreadId) -> bool {
    promised == found || promised == UNKNOWN_THREAD || found == UNKNOWN_THREAD
}
