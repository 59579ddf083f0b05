//! Opening, set and closing, one after another.

use super::frame::{Frame, PositionRange};
use super::log::{Log, MOST_BYTES, Moved};
use super::scope::Scope;
use super::view::{Spot, View, Watch};
use super::{Done, EditTrial, KnownStart, Mark, Overlay, Studied, Study, Tie};
use crate::facts::Facts;
use crate::mend::EditSearch;
use crate::resolve::{Script, ThreadId, UNKNOWN_THREAD};
use crate::{FileId, GivenUp, Listener, Part, PartKind, Place};
use knotwright_band::Tying;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, Statement};

/// Statements and passes of loops that tie nothing. Those that tie may be three for each of their knots.
pub(crate) const MOST_IDLE: u64 = 3_000_000;

/// What is kept of a tie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Keep {
    /// How the strands hang.
    Order,
    /// Knots, without the steps behind them.
    Knots,
    /// Knots and steps.
    All,
}

/// How far a tie may go.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Limits<'a> {
    /// Statements and passes beyond three for each knot.
    pub(crate) statements: u64,
    pub(crate) knots: u64,
    /// Bytes of steps, and of what is read aloud, of one part.
    pub(crate) bytes: u64,
    /// With more facts than this it stops.
    pub(crate) facts: usize,
    /// Whether it is told what is wrong. Otherwise, the tie ends as soon as anything is.
    pub(crate) tells: bool,
    pub(crate) keep: Keep,
    /// Whether strands are hung as promised where they hang otherwise.
    pub(crate) tests_promises: bool,
    /// It ends as soon as nobody waits for it.
    pub(crate) given_up: &'a GivenUp,
    /// Who hears at once what is wrong first.
    pub(crate) listener: Option<Listener<'a>>,
}

/// Somebody waits to the end.
static NEVER: GivenUp = GivenUp::NEVER;

impl Limits<'static> {
    /// The pattern itself.
    pub(crate) const WHOLE: Self = Self {
        statements: MOST_IDLE,
        knots: u64::MAX,
        bytes: MOST_BYTES,
        facts: usize::MAX,
        tells: true,
        keep: Keep::All,
        tests_promises: true,
        given_up: &NEVER,
        listener: None,
    };

    /// A pattern that takes little room: of such ones, several may be tied at once.
    pub(crate) const SMALL: Self = Self { knots: 1_000_000, bytes: 8 << 20, ..Self::WHOLE };

    /// A part as it is tied later, when its strands hang otherwise than its author thought of.
    const LATER: Self = Self { tests_promises: false, ..Self::WHOLE };

    /// Only how the strands hang is wanted.
    pub(crate) const LOOK: Self = Self { keep: Keep::Order, ..Self::WHOLE };
}

impl<'a> Limits<'a> {
    /// For a pattern with one edit, where the unedited one costs `cost`: some times as much, not more.
    pub(crate) fn trial(cost: u64, given_up: &'a GivenUp) -> Self {
        let most = 4 * cost + 1000;
        let statements = most.min(MOST_IDLE);
        Self { statements, knots: most, facts: 0, keep: Keep::Order, given_up, ..Limits::WHOLE }
    }

    /// For a study: no strand is hung as an `expect` promises that fails.
    fn study(limits: Self) -> Self {
        Self { facts: usize::MAX, tests_promises: false, ..limits }
    }
}

/// What came of tying a whole pattern.
#[derive(Debug, Default)]
pub(crate) struct Tied {
    pub(crate) opening: Option<Part>,
    pub(crate) set: Option<Part>,
    pub(crate) closing: Option<Part>,
    /// Whether the colors hang after one set as before it; `None` if that is unknown or there is no set.
    pub(crate) closes: Option<bool>,
    /// Whether some step of the set picks strands by color.
    pub(crate) picks_by_color: bool,
    /// Whether every part was tied to its end.
    pub(crate) whole: bool,
    /// Knots and statements: what it cost.
    pub(crate) cost: u64,
    /// Knots alone.
    pub(crate) knots: u64,
    /// How often a statement was tied otherwise than it is written.
    pub(crate) edited: u32,
    /// By part, where one could go on; the last one at its end.
    pub(crate) marks: [Vec<Mark>; 3],
}

impl Tied {
    pub(super) fn put(&mut self, which: PartKind, part: Part) {
        match which {
            PartKind::Opening => self.opening = Some(part),
            PartKind::Set => self.set = Some(part),
            PartKind::Closing => self.closing = Some(part),
        }
    }
}

/// How the strands hang between two parts.
pub(super) struct Between {
    /// By position, the thread.
    pub(super) threads: Vec<ThreadId>,
    unknown: Option<PositionRange>,
    /// By position, where the strand there was last moved.
    pub(super) moved: Vec<Option<Place>>,
}

impl Between {
    /// Strands of these threads, by position, none of which has been moved.
    pub(super) fn plain(threads: Vec<ThreadId>) -> Self {
        let moved = vec![None; threads.len()];
        Self { threads, unknown: None, moved }
    }
}

/// Ties opening, set and closing once each; the closing as after one set. `None` if it is not known which strands
/// hang where.
pub(crate) fn tie_parts(
    script: &Script,
    overlay: Option<&Overlay>,
    limits: Limits,
    facts: &mut Facts,
) -> Option<Tied> {
    let threads = script.head.strands.clone()?;
    run(&Run { script, overlay: overlay.copied(), limits, from: None }, threads, facts)
}

/// As [`tie_parts`], from a beginning: what is kept is what was tied from there on.
pub(crate) fn tie_from(script: &Script, overlay: &Overlay, limits: Limits, from: KnownStart) -> Option<Tied> {
    let threads = from.threads.to_vec();
    let run_on = Run { script, overlay: Some(*overlay), limits, from: Some(from) };
    run(&run_on, threads, &mut Facts::default())
}

/// As [`tie_parts`], with strands of other threads than the head says.
pub(crate) fn tie_hung(
    script: &Script,
    threads: Vec<ThreadId>,
    limits: Limits,
    facts: &mut Facts,
) -> Option<Tied> {
    if threads.is_empty() {
        return None;
    }
    run(&Run { script, overlay: None, limits, from: None }, threads, facts)
}

/// Ties it for a study, with strands of these threads, as if no `expect` failed. `None` if some part is not tied to its end.
pub(crate) fn tie_studied(
    script: &Script,
    threads: Vec<ThreadId>,
    limits: Limits,
    studied: &mut Studied,
) -> Option<()> {
    let mut between = Between::plain(threads);
    for which in PartKind::ALL {
        let Some(block) = block_of(script, which) else { continue };
        let mut facts = Facts::default();
        let run = Run { script, overlay: None, limits: Limits::study(limits), from: None };
        let mut tie = begin_part(&run, &mut facts, &between);
        tie.study = Some(studied.of_part(which, &tie.threads));
        tie.block(block).ok()?;
        tie.end_study(follows(script, which));
        let piece = end_part(tie, &mut between, false).piece;
        studied.parts[which as usize].piece = Some(piece).filter(|_| limits.keep == Keep::Knots);
        if studied.parts[which as usize].is_full() {
            return None;
        }
    }
    Some(())
}

/// Ties it once more, and tries the edits of every statement where it stands. `None` as above.
pub(crate) fn tie_searched(script: &Script, limits: Limits, search: &mut EditSearch) -> Option<()> {
    let mut between = Between::plain(script.head.strands.clone()?);
    for which in PartKind::ALL {
        let Some(block) = block_of(script, which) else { continue };
        let mut facts = Facts::default();
        let run = Run { script, overlay: None, limits: Limits::study(limits), from: None };
        let mut tie = begin_part(&run, &mut facts, &between);
        search.begin(which as usize);
        let (first, tied_before) = match search.due_from(block) {
            Some((first, passing, order)) => {
                (tie.strands, tie.clock) = (Tying::hanging_without_knots(order), passing.time);
                (first, u64::from(passing.knots))
            }
            None => (0, 0),
        };
        search.tied_before = tied_before;
        tie.study = Some(Study::Search(search));
        let done = tie.block_from(block, first);
        let Some(Study::Search(search)) = tie.study.take() else { return None };
        if search.is_over() {
            break;
        }
        done.ok()?;
        end_part(tie, &mut between, false);
    }
    Some(())
}

/// For how many knots room is made at once. Few parts have fewer, and of thousands it is tried what comes of an edit.
const USUAL_KNOTS: usize = 128;

/// What is tied, and how far.
pub(super) struct Run<'a> {
    pub(super) script: &'a Script,
    pub(super) overlay: Option<Overlay>,
    pub(super) limits: Limits<'a>,
    /// Where it begins, if all before is known.
    pub(super) from: Option<KnownStart<'a>>,
}

fn run(run: &Run, threads: Vec<ThreadId>, facts: &mut Facts) -> Option<Tied> {
    let knots = run.from.map_or(0, |from| from.knots);
    let tied = Tied { whole: true, knots, ..Tied::default() };
    let mut all = PartsTie { run, between: Between::plain(threads), tied };
    for which in PartKind::ALL {
        let is_known = run.from.is_some_and(|from| (which as usize) < from.part);
        let Some(block) = block_of(run.script, which).filter(|_| !is_known) else { continue };
        let mut tie = begin_part(run, facts, &all.between);
        tie.from = run.from.filter(|from| from.part == which as usize);
        tie.trial = (!run.limits.tells).then(EditTrial::default);
        let done = tie.block_from(block, tie.from.map_or(0, |from| from.first_in(block)));
        if !all.end(which, block, tie, done) {
            break;
        }
    }
    // A mistake in the last statement stops nothing; it counts all the same.
    all.tied.whole &= facts.count() <= run.limits.facts;
    Some(all.tied)
}

/// Opening, set and closing as far as they are tied.
pub(super) struct PartsTie<'a> {
    pub(super) run: &'a Run<'a>,
    pub(super) between: Between,
    pub(super) tied: Tied,
}

impl PartsTie<'_> {
    /// Adds a part that was tied. Whether the next one is to be tied.
    pub(super) fn end(&mut self, which: PartKind, block: &Block, mut tie: Tie, done: Done) -> bool {
        let tied = &mut self.tied;
        tied.edited += tie.edited;
        tied.cost += tie.spent + tie.strands.tied();
        tied.knots += tie.strands.tied();
        if done.is_err() || tie.trial.is_some_and(|trial| trial.failed) {
            tied.whole = false;
            return false;
        }
        tie.mark(block, block.statements.len());
        tied.marks[which as usize] = std::mem::take(&mut tie.marks);
        if which == PartKind::Set {
            tied.closes = closes(&tie);
            tied.picks_by_color = picks_by_color(&tied.marks[which as usize]);
        }
        let goes_on = self.run.limits.keep == Keep::All && follows(self.run.script, which);
        tied.put(which, end_part(tie, &mut self.between, goes_on));
        true
    }
}

/// Ties one part with the strands of these threads, from left to right. Promises are not tested.
pub(crate) fn tie_one(script: &Script, which: PartKind, threads: Vec<ThreadId>) -> Option<Part> {
    let block = block_of(script, which)?;
    let mut between = Between::plain(threads);
    let mut facts = Facts::default();
    let run = Run { script, overlay: None, limits: Limits::LATER, from: None };
    let mut tie = begin_part(&run, &mut facts, &between);
    tie.block(block).ok()?;
    Some(end_part(tie, &mut between, false)).filter(|part| !part.piece.is_rehung())
}

/// Ties until it comes to `spot`, ties `more` there, and looks. `None` if it never comes there.
pub(crate) fn look_at(script: &Script, spot: Spot, more: &[Statement]) -> Option<View> {
    let mut between = Between::plain(script.head.strands.clone()?);
    for part in PartKind::ALL {
        let Some(block) = block_of(script, part) else { continue };
        let mut facts = Facts::default();
        let run = Run { script, overlay: None, limits: Limits::LOOK, from: None };
        let mut tie = begin_part(&run, &mut facts, &between);
        tie.watch = Some(Watch { spot, more, part, seen: None });
        let done = tie.block(block);
        if let Some(view) = tie.watch.take().and_then(|watch| watch.seen) {
            return Some(view);
        }
        done.ok()?;
        end_part(tie, &mut between, false);
    }
    None
}

pub(crate) fn block_of(script: &Script, which: PartKind) -> Option<&Block> {
    let index = match which {
        PartKind::Opening => script.head.opening,
        PartKind::Set => script.head.set,
        PartKind::Closing => script.head.closing,
    }?;
    script.source().parsed.tree.statements.get(index)?.node.block()
}

/// Whether another part comes after this one.
fn follows(script: &Script, which: PartKind) -> bool {
    match which {
        PartKind::Opening => script.head.set.is_some() || script.head.closing.is_some(),
        PartKind::Set => script.head.closing.is_some(),
        PartKind::Closing => false,
    }
}

pub(super) fn begin_part<'a>(run: &Run<'a>, facts: &'a mut Facts, between: &Between) -> Tie<'a> {
    let (count, keep) = (between.threads.len(), run.limits.keep);
    let strands = match keep {
        Keep::Order => Tying::without_knots(count),
        Keep::Knots | Keep::All => Tying::new(count).with_room(USUAL_KNOTS),
    };
    Tie {
        script: run.script,
        overlay: run.overlay,
        limits: run.limits,
        spent: 0,
        looks: 0,
        facts,
        threads: between.threads.clone(),
        begun: None,
        strands,
        frame: Frame { low: 0, high: count - 1, mirrored: false },
        unknown: between.unknown,
        start_known: between.unknown.is_none(),
        file: FileId::CHECKED,
        here: Span::default(),
        scope: Scope::default(),
        through: Vec::new(),
        motifs: Vec::new(),
        misnumbered: Vec::new(),
        depth: 0,
        log: if keep == Keep::All { Log::with_room() } else { Log::default() },
        moved: Moved::new(between.moved.clone()),
        picks_by_color: false,
        marks: Vec::new(),
        due: 0,
        from: None,
        edited: 0,
        study: None,
        clock: 0,
        spare: Vec::new(),
        trial: None,
        held: None,
        watch: None,
    }
}

/// Finishes a part; which statement moved each strand is computed only if another part follows.
pub(super) fn end_part(tie: Tie, between: &mut Between, goes_on: bool) -> Part {
    between.unknown = tie.unknown;
    let order = tie.strands.order();
    between.threads = order.iter().map(|&strand| tie.threads[usize::from(strand)]).collect();
    between.moved = if goes_on {
        tie.moved.by_position(order, tie.strands.knots(), &tie.log.steps)
    } else {
        vec![None; order.len()]
    };
    let Log { steps, runs, events, joins, .. } = tie.log;
    Part { piece: tie.strands.finish(), steps, runs, events, joins }
}

/// Whether some step of a part picks strands by color.
pub(crate) fn picks_by_color(marks: &[Mark]) -> bool {
    marks.iter().any(|mark| mark.picks_by_color)
}

fn closes(tie: &Tie) -> Option<bool> {
    if tie.unknown.is_some() || !tie.start_known || tie.threads.contains(&UNKNOWN_THREAD) {
        return None;
    }
    // A strand is named by where it hung at the start.
    Some((0..tie.threads.len()).all(|position| tie.thread_at(position) == tie.threads_at_start()[position]))
}
