//! Steps that were forgotten: every run at every place between the statements that were tied. Most are refused by the
//! first thing that is wrong: it must come right, and who hangs there after a run was put in is known at once.

use super::accepts::Accepts;
use super::candidates::{Candidate, What};
use super::edits::{Hanging, KeptEdit};
use super::follower::Follower;
use super::renaming::{Orders, Outlook};
use super::runs::{MOST_WIDTH, Rotation, Runs, SidedRun, every};
use super::search::Goal;
use super::structure::is_open;
use crate::facts::Facts;
use crate::resolve::{Script, ThreadId, UNKNOWN_THREAD};
use crate::tie::{
    Added, Change, Failing, InHand, Limits, Overlay, PartStudy, Passing, StatementEdit, Studied,
};
use crate::{FileId, GivenUp, Place};
use knotwright_grammar::Span;
use knotwright_grammar::tree::KnotKind;
use knotwright_numbers::ToNumber;

/// What all of them may cost together.
const MOST_WORK: u64 = 30_000_000;

/// How great a change it is to put in a step.
const SIZE: u8 = 4;

/// A place between two statements, each time it is passed.
struct Gap<'s> {
    span: Span,
    is_after: bool,
    passes: &'s [Passing],
    age: u32,
}

/// The runs that may be put in; whether all could be tried.
#[derive(Debug, Default)]
pub(super) struct Insertions {
    pub(super) found: Vec<KeptEdit>,
    pub(super) is_whole: bool,
    /// What they cost, in strands looked at.
    pub(super) work: u64,
}

/// All steps after whose insertion the law of renaming finds nothing wrong, and the set closes if it `must_close`.
/// `age`: how far a place is from the mistake, by the number of statements begun before it.
pub(super) fn find_insertions(
    goal: &Goal,
    studied: &Studied,
    must_close: bool,
    age: impl Fn(u32) -> u32,
) -> Insertions {
    find(goal, studied, Sought { must_close, is_right: false }, age)
}

/// All steps after whose insertion everything that holds, holds still.
pub(super) fn find_harmless(goal: &Goal, studied: &Studied, must_close: bool) -> Vec<KeptEdit> {
    find(goal, studied, Sought { must_close, is_right: true }, |_| 0).found
}

/// What is sought of a step.
#[derive(Debug, Clone, Copy)]
struct Sought {
    /// That the set closes.
    must_close: bool,
    /// That what holds already holds still: nothing is wrong without it.
    is_right: bool,
}

fn find(goal: &Goal, studied: &Studied, sought: Sought, age: impl Fn(u32) -> u32) -> Insertions {
    let must_close = sought.must_close;
    let mut all = Insertions { is_whole: true, ..Insertions::default() };
    // What is not there has no strands.
    for (number, part) in studied.parts.iter().enumerate().filter(|(_, part)| !part.threads.is_empty()) {
        let is_elsewhere = |start: &u32| {
            studied
                .parts
                .iter()
                .enumerate()
                .any(|(other, part)| other != number && part.begun.contains_key(start))
        };
        let is_wrong_later = studied.parts[number + 1..].iter().any(|part| part.first_fault().is_some());
        let (mut facts, limits) = (Facts::default(), Limits::trial(goal.cost, goal.given_up));
        let follower = Follower::new(goal.script, part, limits, &mut facts);
        let mut inserter = Inserter::new(part, sought, follower, goal.given_up);
        inserter.is_settled = must_close && !is_wrong_later && !studied.is_blind();
        for gap in gaps(goal.script, part, &age) {
            if is_elsewhere(&gap.span.start) {
                continue;
            }
            inserter.put_in(&gap, &mut all.found, &mut all.work);
            if all.work > MOST_WORK || goal.is_given_up() {
                all.is_whole = false;
                return all;
            }
        }
        // Nothing in a later part mends what is wrong in this one.
        if part.first_fault().is_some() {
            break;
        }
    }
    all
}

fn gaps<'s>(script: &Script, part: &'s PartStudy, age: impl Fn(u32) -> u32) -> Vec<Gap<'s>> {
    let source = script.source();
    let mut gaps = Vec::new();
    for holder in source.parsed.tree.walk() {
        let Some(block) = holder.node.block().filter(|block| is_open(source, block)) else { continue };
        for (index, statement) in block.statements.iter().enumerate() {
            let mut add = |passes: Option<&'s Vec<Passing>>, is_after| {
                if let Some(passes) = passes.filter(|passes| !passes.is_empty()) {
                    let age = age(passes[passes.len() - 1].nth);
                    gaps.push(Gap { span: statement.span, is_after, passes, age });
                }
            };
            add(part.begun.get(&statement.span.start), false);
            if index + 1 == block.statements.len() {
                add(part.ended.get(&statement.span.start), true);
            }
        }
    }
    gaps
}

struct Inserter<'s> {
    part: &'s PartStudy,
    must_close: bool,
    is_right: bool,
    /// Whether nothing more is asked of a step than that it closes this part.
    is_settled: bool,
    /// The first strand that is not what it must be, with the one it must be like.
    failing: Option<Failing>,
    /// When the first thing is wrong, whatever it is.
    fault: u32,
    /// When any color was read.
    reads: Vec<u32>,
    /// `None` if there are too many threads.
    accepts: Option<Accepts>,
    runs: Runs,
    follower: Follower<'s>,
    tried: Vec<u8>,
    given_up: &'s GivenUp,
}

impl<'s> Inserter<'s> {
    fn new(part: &'s PartStudy, sought: Sought, follower: Follower<'s>, given_up: &'s GivenUp) -> Self {
        let Sought { must_close, is_right } = sought;
        let end = if must_close { u32::MAX } else { part.end };
        let failing = part.failing.first().copied().filter(|failing| failing.time < end);
        let wall = part.walls.first().copied().unwrap_or(u32::MAX);
        let fault = failing.map_or(wall, |failing| failing.time.min(wall));
        let mut reads: Vec<u32> = part.reads.iter().flatten().map(|read| read.time).collect();
        reads.extend(part.labels.iter().map(|label| label.0));
        reads.sort_unstable();
        reads.dedup();
        let accepts = Accepts::of(part, end, &reads);
        let (is_settled, runs, tried) = (false, Runs::default(), Vec::new());
        Self {
            part,
            must_close,
            is_right,
            is_settled,
            failing,
            fault,
            reads,
            accepts,
            runs,
            follower,
            tried,
            given_up,
        }
    }

    fn put_in(&mut self, gap: &Gap, found: &mut Vec<KeptEdit>, work: &mut u64) {
        let first = &gap.passes[0];
        if first.time > self.fault || gap.passes.iter().any(|pass| pass.within != mirrored_alike(first, pass))
        {
            return;
        }
        let read = self.reads.get(self.reads.partition_point(|&read| read < first.time)).copied();
        let is_sure = read.is_none_or(|read| read > self.fault);
        let tracks = match (is_sure, self.failing) {
            // What is wrong first does not lie in the color of a strand, so that nobody else there mends it.
            (true, None) if !self.is_right => return,
            (true, Some(failing)) if failing.time > self.fault => return,
            (true, failing) => failing,
            (false, _) => None,
        };
        let hung: Option<Vec<&[u8]>> = gap.passes.iter().map(|pass| self.part.order(pass)).collect();
        let Some(hung) = hung else { return };
        let width = first.within.1 - first.within.0 + 1;
        let twice = Passes::both(gap.passes, &hung);
        let once = Passes { begun: gap.passes.to_vec(), hung };
        for (rotation, both) in self.likely(&once, read, work) {
            if *work > MOST_WORK || self.given_up.is_so() {
                return;
            }
            let Rotation { low, high, forward } = rotation;
            let passes = if both { &twice } else { &once };
            *work += passes.begun.len().to_u64();
            let is_likely = tracks.is_none_or(|failing| self.comes_right(passes, rotation, failing));
            let outlook = if is_likely { self.outlook(passes, rotation, work) } else { Outlook::Fails };
            if outlook == Outlook::Fails {
                continue;
            }
            let (at, kind) = if forward { (low, KnotKind::Forward) } else { (high, KnotKind::Backward) };
            let runs = InHand::one(kind, high - low);
            let added = Added { at, width, runs, meets: false, both };
            let knots = i64::from(runs.knots()) * passes.begun.len().to_i64() + self.follower.more();
            let more = (outlook == Outlook::Holds && self.is_settled).then_some(knots);
            // A label stays with its strand, whatever the color of the one that hangs there instead.
            let is_open = more.is_none() && self.part.labels.is_empty();
            let hanging = is_open.then(|| self.hanging(gap, passes, rotation));
            // What meets says so; where it does not in every pass, it is a plain knot.
            if self.may_meet(added, &passes.begun[0], passes.hung[0]) {
                let more = more.filter(|_| passes.begun.len() == 1);
                let candidate = candidate(gap, Added { meets: true, ..added });
                found.push(KeptEdit { candidate, closes: true, more, hanging: hanging.clone() });
            }
            found.push(KeptEdit { candidate: candidate(gap, added), closes: true, more, hanging });
        }
    }

    /// The runs after which every strand is of a color that is promised of it, as far as that is known at once; whether they
    /// are tied on both sides. `read`: when a color decides next.
    fn likely(&mut self, once: &Passes, read: Option<u32>, work: &mut u64) -> Vec<SidedRun> {
        let (pass, order) = (&once.begun[0], once.hung[0]);
        let width = pass.within.1 - pass.within.0 + 1;
        *work += u64::from(width);
        let Some(accepts) = self.accepts.as_mut().filter(|_| width <= MOST_WIDTH) else {
            return every(width);
        };
        accepts.go_to(pass.time);
        let read = read.unwrap_or(u32::MAX);
        // What is tied again comes between: up to then, it must fit all the same.
        let until = once.begun.get(1).map_or(u32::MAX, |again| again.time);
        let fits = |to: u8, from: u8| {
            let thread = self.part.threads[usize::from(from)];
            if until == u32::MAX {
                accepts.fits(to, thread, read)
            } else {
                accepts.fits_until(to, thread, read.min(until))
            }
        };
        let stays = |&&strand: &&u8| fits(strand, strand);
        let (low, high) = (usize::from(pass.within.0), usize::from(pass.within.1));
        let mut inside = order[low..=high].to_vec();
        if pass.mirrored {
            inside.reverse();
        }
        match () {
            () if !order[..low].iter().chain(&order[high + 1..]).all(|strand| stays(&strand)) => Vec::new(),
            () if inside.iter().all(|strand| stays(&strand)) => every(width),
            () => {
                let mut runs = self.runs.fitting(inside.len(), |to, from| fits(inside[to], inside[from]));
                if once.begun.len() > 1 {
                    runs.sort_by_key(|(run, both)| (*both, run.low, run.high, !run.forward));
                }
                runs
            }
        }
    }

    /// Whether the strand that is wrong first is right with the run put in.
    fn comes_right(
        &self,
        passes: &Passes,
        rotation: Rotation,
        Failing { time, strand, other }: Failing,
    ) -> bool {
        let after = |mut strand: u8| {
            let before = passes.begun.iter().zip(&passes.hung).rev().filter(|(pass, _)| pass.time <= time);
            for (pass, order) in before {
                // Before it was joined, it was another strand, whoever that was.
                let Some(at) = order.iter().position(|&hanging| hanging == strand) else { break };
                strand = order[from(rotation, pass, at)];
            }
            self.part.threads[usize::from(strand)]
        };
        let wanted = match other {
            Some(other) => after(other),
            None => self.wanted(time, strand),
        };
        let found = after(strand);
        wanted == found || wanted == UNKNOWN_THREAD || found == UNKNOWN_THREAD
    }

    fn wanted(&self, time: u32, strand: u8) -> ThreadId {
        let wants = &self.part.wants[usize::from(strand)];
        let at = wants.partition_point(|wants| wants.0 < time);
        match wants.get(at) {
            Some(&(_, crate::tie::Wants::Color(thread))) => thread,
            _ => UNKNOWN_THREAD,
        }
    }

    /// What can be said of the run put in.
    fn outlook(&mut self, passes: &Passes, rotation: Rotation, work: &mut u64) -> Outlook {
        self.follower.begin();
        let mut outlook = Outlook::Holds;
        for (at, (pass, order)) in passes.begun.iter().zip(&passes.hung).enumerate() {
            *work += order.len().to_u64() / 4;
            self.tried.clear();
            self.tried.extend((0..order.len()).map(|at| order[from(rotation, pass, at)]));
            self.follower.pass(Orders { tried: &self.tried, raw: order });
            let last = if self.must_close { u32::MAX } else { self.part.end };
            let until = passes.begun.get(at + 1).map_or(last, |next| next.time);
            outlook = self.follower.follow(pass.time..until);
            if outlook != Outlook::Holds {
                break;
            }
        }
        outlook
    }

    /// How the colors hang after the first pass with the run put in.
    fn hanging(&self, gap: &Gap, passes: &Passes, rotation: Rotation) -> Hanging {
        let order = passes.hung[0];
        let is_both = passes.begun.get(1).is_some_and(|pass| pass.time == passes.begun[0].time);
        let source = |at: usize| {
            let at = if is_both { from(rotation, &passes.begun[1], at) } else { at };
            from(rotation, &passes.begun[0], at)
        };
        let thread = |at: usize| self.part.threads[usize::from(order[source(at)])];
        let threads = (0..order.len()).map(thread).collect();
        Hanging { statement: gap.span.start, is_after: gap.is_after, threads }
    }

    /// Whether it ties two of one color in the middle.
    fn may_meet(&self, added: Added, pass: &Passing, order: &[u8]) -> bool {
        let is_middle = added.runs == InHand::one(KnotKind::Forward, 1) && 2 * added.at == added.width;
        let thread = |local: u8| {
            let at = usize::from(pass.within.0) + usize::from(local) - 1;
            self.part.threads[usize::from(order[at])]
        };
        is_middle && !added.both && thread(added.at) == thread(added.at + 1)
    }
}

fn candidate(gap: &Gap, added: Added) -> Candidate {
    let edit = if gap.is_after { StatementEdit::After(added) } else { StatementEdit::Before(added) };
    Candidate {
        overlay: Overlay {
            place: Place { file: FileId::CHECKED, span: gap.span },
            change: Change::Statement(edit),
        },
        what: What::Statement { above: None },
        statement: gap.span.start,
        from_above: false,
        age: gap.age,
        size: if added.meets { SIZE - 1 } else { SIZE },
    }
}

/// A gap each time it is passed, and how the strands hang then without the step.
struct Passes<'s> {
    begun: Vec<Passing>,
    hung: Vec<&'s [u8]>,
}

impl<'s> Passes<'s> {
    /// Every pass and then its mirror image.
    fn both(passes: &[Passing], hung: &[&'s [u8]]) -> Self {
        let begun =
            passes.iter().flat_map(|&pass| [pass, Passing { mirrored: !pass.mirrored, ..pass }]).collect();
        Self { begun, hung: hung.iter().flat_map(|&order| [order, order]).collect() }
    }
}

/// From which position the strand comes that hangs at `at` after a run was tied in a pass.
fn from(rotation: Rotation, pass: &Passing, at: usize) -> usize {
    let (low, high) = (usize::from(pass.within.0), usize::from(pass.within.1));
    if at < low || at > high {
        return at;
    }
    match pass.mirrored {
        true => high + 1 - rotation.source(high + 1 - at),
        false => low + rotation.source(at + 1 - low) - 1,
    }
}

/// The range of another pass, if it is as wide as that of the first.
fn mirrored_alike(first: &Passing, pass: &Passing) -> (u8, u8) {
    let width = first.within.1 - first.within.0;
    (pass.within.0, pass.within.0 + width)
}
