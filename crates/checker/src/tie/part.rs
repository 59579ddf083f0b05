//! Opening, set and closing, one after another.

use super::frame::Frame;
use super::log::{Log, Moved};
use super::scope::Scope;
use super::strands::Strands;
use super::view::{Spot, View, Watch, Which};
use super::{Mark, Overlay, Tie};
use crate::facts::Facts;
use crate::mend::Trace;
use crate::resolve::{Script, ThreadId, UNKNOWN_THREAD};
use crate::{FileId, Part, Place};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, Node, Statement};

/// Statements and passes of loops; all the knots there may be could be tied one by one in half as many.
const MOST_STATEMENTS: u64 = 30_000_000;

/// How far a tie may go.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Limits {
    pub(crate) statements: u64,
    pub(crate) knots: u64,
    /// With more facts than this it stops.
    pub(crate) facts: usize,
    /// Whether knots and steps are kept.
    pub(crate) keep: bool,
}

impl Limits {
    /// The pattern itself.
    pub(crate) const WHOLE: Self =
        Self { statements: MOST_STATEMENTS, knots: u64::MAX, facts: usize::MAX, keep: true };

    /// For a pattern with one edit, where the unedited one costs `cost`: some times as much, not more.
    pub(crate) fn trial(cost: u64) -> Self {
        let most = 4 * cost + 1000;
        Self { statements: most, knots: most, facts: 0, keep: false }
    }

    /// Only how the strands hang is wanted.
    pub(crate) const LOOK: Self = Self { keep: false, ..Self::WHOLE };
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
    /// By part, where one could go on; the last one at its end.
    pub(crate) marks: [Vec<Mark>; 3],
}

/// How the strands hang between two parts.
pub(super) struct Between {
    /// By position, the thread.
    threads: Vec<ThreadId>,
    unknown: Option<(usize, usize)>,
    /// By position, where the strand there was last moved.
    moved: Vec<Option<Place>>,
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
pub(crate) fn tie(
    script: &Script,
    overlay: Option<&Overlay>,
    limits: Limits,
    facts: &mut Facts,
) -> Option<Tied> {
    run(&Run { script, overlay, limits }, facts, None)
}

/// Ties it only to see which statements are tied, in which order.
pub(crate) fn tie_traced(script: &Script, limits: Limits, trace: &mut Trace) {
    run(&Run { script, overlay: None, limits }, &mut Facts::default(), Some(trace));
}

/// What is tied, and how far.
pub(super) struct Run<'a> {
    pub(super) script: &'a Script,
    pub(super) overlay: Option<&'a Overlay>,
    pub(super) limits: Limits,
}

fn run(run: &Run, facts: &mut Facts, mut trace: Option<&mut Trace>) -> Option<Tied> {
    let script = run.script;
    let mut between = Between::plain(script.head.strands.clone()?);
    let mut tied = Tied { whole: true, ..Tied::default() };
    for which in [Which::Opening, Which::Set, Which::Closing] {
        let Some(block) = block_of(script, which) else { continue };
        let mut tie = begin(run, facts, &between);
        tie.trace = trace.as_deref_mut();
        let done = tie.block(block);
        tied.cost += tie.spent + tie.strands.tied();
        if done.is_err() {
            tied.whole = false;
            break;
        }
        tie.mark(block, block.statements.len());
        tied.marks[which as usize] = std::mem::take(&mut tie.marks);
        if which == Which::Set {
            tied.closes = closes(&tie);
            tied.picks_by_color = picks_by_color(&tied.marks[which as usize]);
        }
        let part = end(tie, &mut between, run.limits.keep && follows(script, which));
        match which {
            Which::Opening => tied.opening = Some(part),
            Which::Set => tied.set = Some(part),
            Which::Closing => tied.closing = Some(part),
        }
    }
    // A mistake in the last statement stops nothing; it counts all the same.
    tied.whole &= facts.count() <= run.limits.facts;
    Some(tied)
}

/// Ties one part with the strands of these threads, from left to right. Promises are not tested.
pub(crate) fn tie_one(script: &Script, which: Which, threads: Vec<ThreadId>) -> Option<Part> {
    let block = block_of(script, which)?;
    let mut between = Between::plain(threads);
    let mut facts = Facts::default();
    let run = Run { script, overlay: None, limits: Limits::WHOLE };
    let mut tie = begin(&run, &mut facts, &between);
    tie.block(block).ok()?;
    Some(end(tie, &mut between, false))
}

/// Ties until it comes to `spot`, ties `more` there, and looks. `None` if it never comes there.
pub(crate) fn look(script: &Script, spot: Spot, more: &[Statement]) -> Option<View> {
    let mut between = Between::plain(script.head.strands.clone()?);
    for part in [Which::Opening, Which::Set, Which::Closing] {
        let Some(block) = block_of(script, part) else { continue };
        let mut facts = Facts::default();
        let run = Run { script, overlay: None, limits: Limits::LOOK };
        let mut tie = begin(&run, &mut facts, &between);
        tie.watch = Some(Watch { spot, more, part, seen: None });
        let done = tie.block(block);
        if let Some(view) = tie.watch.take().and_then(|watch| watch.seen) {
            return Some(view);
        }
        done.ok()?;
        end(tie, &mut between, false);
    }
    None
}

pub(super) fn block_of(script: &Script, which: Which) -> Option<&Block> {
    let index = match which {
        Which::Opening => script.head.opening,
        Which::Set => script.head.set,
        Which::Closing => script.head.closing,
    }?;
    match &script.source().parsed.tree.statements.get(index)?.node {
        Node::Opening(block) | Node::Set(block) | Node::Closing(block) => Some(block),
        _ => None,
    }
}

/// Whether another part comes after this one.
fn follows(script: &Script, which: Which) -> bool {
    match which {
        Which::Opening => script.head.set.is_some() || script.head.closing.is_some(),
        Which::Set => script.head.closing.is_some(),
        Which::Closing => false,
    }
}

pub(super) fn begin<'a>(run: &Run<'a>, facts: &'a mut Facts, between: &Between) -> Tie<'a> {
    let count = between.threads.len();
    Tie {
        script: run.script,
        overlay: run.overlay,
        limits: run.limits,
        spent: 0,
        facts,
        threads: between.threads.clone(),
        strands: Strands::new(count, run.limits.keep),
        frame: Frame { low: 0, high: count - 1, mirrored: false },
        unknown: between.unknown,
        start_known: between.unknown.is_none(),
        file: FileId(0),
        here: Span::default(),
        scope: Scope::default(),
        through: Vec::new(),
        motifs: Vec::new(),
        depth: 0,
        log: Log::default(),
        moved: Moved::new(between.moved.clone()),
        picks_by_color: false,
        marks: Vec::new(),
        due: 0,
        trace: None,
        held: None,
        watch: None,
    }
}

/// Finishes a part; only if another follows is it reckoned who was moved where.
pub(super) fn end(tie: Tie, between: &mut Between, goes_on: bool) -> Part {
    between.unknown = tie.unknown;
    let order = tie.strands.order();
    between.threads = order.iter().map(|&strand| tie.threads[usize::from(strand)]).collect();
    between.moved = if goes_on {
        tie.moved.by_position(order, tie.strands.knots(), &tie.log.steps)
    } else {
        vec![None; order.len()]
    };
    let (knots, order) = tie.strands.finish();
    let Log { steps, runs, straight, events } = tie.log;
    Part { knots, order, steps, straight, runs, events }
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
    Some((0..tie.threads.len()).all(|position| tie.thread_at(position) == tie.threads[position]))
}
