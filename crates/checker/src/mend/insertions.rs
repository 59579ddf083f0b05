//! Steps that were forgotten: every run at every place between the statements that were tied. How the colors hang after a run
//! was put in is known at once, and after many runs they hang alike: those are followed as one.

use super::asked::AskedInOrder;
use super::blamed::BlamedPlaces;
use super::candidates::{Candidate, What};
use super::edits::{Hanging, KeptEdit, KnownKnots};
use super::follower::{FollowedEdit, Follower};
use super::passes::{Passes, tie, tie_places};
use super::renaming::Outlook;
use super::runs::{MOST_WIDTH, Rotation, Runs, SidedRun};
use super::search::Goal;
use super::settled::Settled;
use super::structure::is_open;
use super::vain_gaps::{LoneGap, VainGaps};
use crate::resolve::{Script, ThreadId};
use crate::tie::{
    Added, Change, InHand, Moment, Overlay, PartStudy, Passing, StatementEdit, Studied, hanging_at,
};
use crate::{FileId, GivenUp, Place};
use knotwright_grammar::Span;
use knotwright_grammar::tree::KnotKind;
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;
use std::cell::OnceCell;
use std::rc::Rc;

/// What all of them may cost together.
const MOST_WORK: u64 = 30_000_000;

/// How great a change it is to put in a step.
const SIZE: u8 = 4;

/// The most runs that are kept. In a wide band, or a long one, many more may be put in; but those far from the mistake are never
/// asked about.
const MOST_KEPT: usize = 400_000;

/// How often it is gone through what is asked of a strand, for all runs at a place. In a wide band without many promises most
/// runs would go a long way.
const MOST_ASKED_OF_ALL: usize = 64_000;

/// A place between two statements: beside the one of this span.
#[derive(Debug, Clone, Copy)]
struct Gap {
    span: Span,
    is_after: bool,
    age: u32,
    /// How many strands it has; `None` if it has more of them at one time than at another.
    width: Option<u8>,
}

/// A run that may be put in: no more than distinguishes it from others, as there are many.
#[derive(Debug, Clone, Copy)]
struct Insertion {
    /// The number of its gap.
    gap: u32,
    run: SidedRun,
    meets: bool,
    leads_to: LeadsTo,
}

/// What comes of a run that is put in.
#[derive(Debug, Clone, Copy)]
enum LeadsTo {
    /// All holds: how many knots more are tied, whether the set closes, and whether all that comes after is tied where it was.
    Knots { more: i32, closes: bool, is_same: bool },
    /// Only a tie shows it; what follows rests on how the colors hang.
    Colors(Hanging),
    /// Only a tie shows it.
    Unsure,
}

/// The runs that may be put in; whether all could be tried.
#[derive(Debug, Default)]
pub(super) struct Insertions {
    gaps: Vec<Gap>,
    found: Vec<Insertion>,
    /// In how many ways the colors hang after them.
    hangings: u32,
    pub(super) is_whole: bool,
    /// What they cost, in strands looked at.
    pub(super) work: u64,
}

impl Insertions {
    pub(super) fn len(&self) -> usize {
        self.found.len()
    }

    pub(super) fn candidate(&self, number: usize) -> Candidate {
        let Insertion { gap, run: (Rotation { low, high, forward }, both), meets, .. } = self.found[number];
        let Gap { span, is_after, age, width } = self.gaps[gap.to_usize()];
        let (at, kind) = if forward { (low, KnotKind::Forward) } else { (high, KnotKind::Backward) };
        let added = Added { at, width, runs: InHand::one(kind, high - low), meets, both };
        let edit = if is_after { StatementEdit::After(added) } else { StatementEdit::Before(added) };
        Candidate {
            overlay: Overlay {
                place: Place { file: FileId::CHECKED, span },
                change: Change::Statement(edit),
            },
            what: What::Statement { above: None },
            statement: span.start,
            from_above: false,
            age,
            size: if meets { SIZE - 1 } else { SIZE },
        }
    }

    pub(super) fn edit(&self, number: usize) -> KeptEdit {
        let (more, closes, hanging) = match self.found[number].leads_to {
            LeadsTo::Knots { more, closes, .. } => (Some(more.into()), closes, None),
            LeadsTo::Colors(hanging) => (None, true, Some(hanging)),
            LeadsTo::Unsure => (None, true, None),
        };
        let is_same = matches!(self.found[number].leads_to, LeadsTo::Knots { is_same: true, .. });
        let knots = if is_same { KnownKnots::Added } else { KnownKnots::None };
        KeptEdit { candidate: self.candidate(number), closes, more, hanging, knots }
    }

    pub(super) fn edits(&self) -> impl Iterator<Item = KeptEdit> {
        (0..self.len()).map(|number| self.edit(number))
    }

    /// Leaves out the farthest if there are too many.
    fn bound(&mut self) {
        if self.found.len() > MOST_KEPT {
            self.is_whole = false;
            self.found.sort_by_key(|found| self.gaps[found.gap.to_usize()].age);
            self.found.truncate(MOST_KEPT / 2);
        }
    }
}

/// All steps after whose insertion everything that holds, holds still.
pub(super) fn find_harmless(goal: &Goal, studied: &Studied, must_close: bool) -> Vec<KeptEdit> {
    let sought = Sought { must_close, is_right: true, settled: None };
    find_insertions(goal, studied, sought, |_| 0).edits().collect()
}

/// What is sought of a step.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sought {
    /// That the set closes.
    pub(super) must_close: bool,
    /// That what holds already holds still: nothing is wrong without it.
    pub(super) is_right: bool,
    /// Where it need not be put in.
    pub(super) settled: Option<Settled>,
}

/// All steps after whose insertion the law of renaming finds nothing wrong, and the set closes if it is to.
/// `age`: how far a place is from the mistake, by the number of statements begun before it.
pub(super) fn find_insertions(
    goal: &Goal,
    studied: &Studied,
    sought: Sought,
    age: impl Fn(u32) -> u32,
) -> Insertions {
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
        let mut inserter = Inserter::new(part, sought, goal.given_up);
        // If the set need not close, who hangs where in a later part may be another one.
        let is_last = studied.parts[number + 1..].iter().all(|part| part.threads.is_empty());
        inserter.is_sure = (must_close || is_last) && !is_wrong_later && !studied.is_blind();
        inserter.closes_elsewhere = studied.closes_without(number);
        let is_sought =
            |passes: &[Passing]| !sought.settled.is_some_and(|settled| settled.has_before(number, passes));
        for (gap, passes) in gaps(goal.script, part, is_sought, &age) {
            if is_elsewhere(&gap.span.start) {
                continue;
            }
            inserter.put_in(gap, passes, &mut all);
            all.bound();
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

/// All gaps in which something is sought, each with the times that it is passed.
fn gaps<'s>(
    script: &Script,
    part: &'s PartStudy,
    is_sought: impl Fn(&[Passing]) -> bool,
    age: impl Fn(u32) -> u32,
) -> Vec<(Gap, &'s [Passing])> {
    let source = script.source();
    let mut gaps = Vec::new();
    for holder in source.parsed.tree.walk() {
        let Some(block) = holder.node.block() else { continue };
        let open = OnceCell::new();
        for (index, statement) in block.statements.iter().enumerate() {
            let mut add = |passes: Option<&'s Vec<Passing>>, is_after| {
                let passes = passes.filter(|passes| !passes.is_empty() && is_sought(passes));
                if let Some(passes) = passes.filter(|_| *open.get_or_init(|| is_open(source, block))) {
                    let age = age(passes[passes.len() - 1].nth);
                    // A motif may be worked in ranges that are not as wide.
                    let width = passes[0].width();
                    let width = Some(width).filter(|&width| passes.iter().all(|pass| pass.width() == width));
                    gaps.push((Gap { span: statement.span, is_after, age, width }, &passes[..]));
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

/// What can be said of a run that is put in.
#[derive(Debug, Clone, Copy)]
struct Foreseen {
    /// Whether nothing is wrong for sure.
    holds: bool,
    /// Whether the set closes then, as far as that lies in this part.
    closes: bool,
    /// How many knots more other steps tie then.
    more: i64,
    /// Whether they tie all of them where they did.
    is_same: bool,
    /// A number that it shares with those runs in its gap after which the same colors hang, once it is passed.
    hanging: u32,
}

struct Inserter<'s> {
    part: &'s PartStudy,
    /// What is promised later need not hold.
    end: u32,
    /// Whether the set must close.
    must_close: bool,
    /// Whether it does, as far as that does not lie in this part.
    closes_elsewhere: bool,
    /// Whether nothing can go wrong any more after this part.
    is_sure: bool,
    /// Whether the first thing that is wrong does not lie in the color of a strand, so that nobody else there mends it.
    is_hopeless: bool,
    /// When the first thing is wrong, whatever it is.
    fault: u32,
    /// When any color was read.
    reads: Vec<u32>,
    /// All that is asked, once somebody wants to know.
    asked: OnceCell<Option<AskedInOrder>>,
    runs: Runs,
    follower: Follower<'s>,
    /// Gaps in which everything put in goes wrong; `None` if something put in where nothing is wrong may hold.
    vain: Option<VainGaps>,
    given_up: &'s GivenUp,
}

impl<'s> Inserter<'s> {
    fn new(part: &'s PartStudy, sought: Sought, given_up: &'s GivenUp) -> Self {
        let Sought { must_close, is_right, .. } = sought;
        let end = if must_close { u32::MAX } else { part.end };
        let failing = part.failing.first().copied().filter(|failing| failing.time < end);
        let wall = part.walls.first().copied().unwrap_or(u32::MAX);
        let fault = failing.map_or(wall, |failing| failing.time.min(wall));
        let mut reads = part.read_at.clone();
        reads.extend(part.labels.iter().map(|label| label.0));
        reads.sort_unstable();
        reads.dedup();
        let is_hopeless = failing.map_or(!is_right, |failing| failing.time > fault);
        Self {
            part,
            end,
            must_close,
            closes_elsewhere: true,
            is_sure: false,
            is_hopeless,
            fault,
            reads,
            asked: OnceCell::new(),
            runs: Runs::default(),
            follower: Follower::new(part),
            vain: (!is_right && fault < u32::MAX).then(VainGaps::default),
            given_up,
        }
    }

    fn put_in(&mut self, gap: Gap, begun: &[Passing], all: &mut Insertions) {
        let first = &begun[0];
        if first.time > self.fault {
            return;
        }
        let read = self.read_after(first.time);
        let is_sure = read.is_none_or(|read| read > self.fault);
        if is_sure && self.is_hopeless {
            return;
        }
        let hung: Option<Vec<&[u8]>> = begun.iter().map(|pass| self.part.order(pass)).collect();
        let Some(hung) = hung else { return };
        let passes = Passes { begun, hung };
        if !gap.is_after && self.is_in_vain(gap.span.start, &passes, read) {
            return;
        }
        let runs = self.likely(&passes, read, &mut all.work);
        let least = begun.iter().map(Passing::width).min().unwrap_or_default();
        let runs: Rc<[SidedRun]> = match gap.width {
            Some(_) => runs,
            None => runs.iter().copied().filter(|(run, _)| run.high <= least).collect(),
        };
        if runs.is_empty() {
            return;
        }
        let in_places = self.outlooks_in_places(&passes, &runs, &mut all.work);
        let outlooks = in_places.unwrap_or_else(|| self.outlooks(&passes, &runs, &mut all.work));
        let number = all.gaps.len().to_u32();
        all.gaps.push(gap);
        let hangings = all.hangings;
        for (run, followed) in runs.iter().copied().zip(outlooks) {
            let Some(Foreseen { holds, closes, more, is_same, hanging }) = followed else { continue };
            let closes = closes && self.closes_elsewhere;
            if holds && self.must_close && !closes {
                continue;
            }
            let (Rotation { low, high, .. }, both) = run;
            let times = begun.len().to_i64() * if both { 2 } else { 1 };
            let knots = i64::from(high - low) * times + more;
            all.hangings = all.hangings.max(hangings + hanging + 1);
            let leads_to = match () {
                () if holds && self.is_sure => LeadsTo::Knots { more: knots.to_i32(), closes, is_same },
                // A label stays with its strand, whatever the color of the one that hangs there instead.
                () if self.part.labels.is_empty() => LeadsTo::Colors(Hanging(hangings + hanging)),
                () => LeadsTo::Unsure,
            };
            let found = Insertion { gap: number, run, meets: false, leads_to };
            // What meets says so; where it does not in every pass, it is a plain knot.
            if gap.width.is_some() && self.may_meet(run, &begun[0], passes.hung[0]) {
                let is_known = begun.len() == 1 || !matches!(leads_to, LeadsTo::Knots { .. });
                let leads_to = if is_known { leads_to } else { LeadsTo::Unsure };
                all.found.push(Insertion { meets: true, leads_to, ..found });
            }
            all.found.push(found);
        }
    }

    /// When a color is read next.
    fn read_after(&self, time: u32) -> Option<u32> {
        self.reads.get(self.reads.partition_point(|&read| read < time)).copied()
    }

    /// Whether it is known that whatever is put in before the statement that starts there goes wrong. If the same was tied
    /// before but that is not known, it is looked whether it does: for those where the same is tied later.
    fn is_in_vain(&mut self, start: u32, passes: &Passes, read: Option<u32>) -> bool {
        let Some((vain, echo)) = self.vain.as_mut().zip(self.part.echoes.before(start)) else { return false };
        if vain.recall(start, echo) {
            return true;
        }
        let (part, ahead) = (self.part, self.follower.ahead());
        let gap = LoneGap { part, ahead, pass: &passes.begun[0], order: passes.hung[0] };
        let until = read.map_or(self.end, |read| read.min(self.end));
        vain.look(start, &gap, &self.runs.every(gap.pass.width()), until);
        false
    }

    /// The runs after which every strand is of a color that is promised of it, as far as that is known at once: those around the
    /// strand that is not, first of all. `read`: when a color decides next.
    fn likely(&mut self, passes: &Passes, read: Option<u32>, work: &mut u64) -> Rc<[SidedRun]> {
        let (since, width) = (passes.begun[0].time, passes.begun[0].width());
        *work += u64::from(width);
        if width > MOST_WIDTH {
            return self.runs.every(width);
        }
        let (part, ahead) = (self.part, self.follower.ahead());
        let sure = read.map_or(self.end, |read| read.min(self.end));
        let thread = |strand: u8| part.threads[usize::from(strand)];
        let own = |&strand: &u8| (ahead.of(strand, thread(strand), since).wrong, strand);
        let mut blamed = None;
        for (wrong, strand) in passes.hung[0].iter().map(own).filter(|own| own.0 < sure) {
            let Some(first) = passes.first_with(strand, wrong) else { return Rc::default() };
            blamed = blamed.into_iter().chain([(wrong, first)]).min();
        }
        // What is tied again comes between: up to then, it must fit all the same.
        let moved = blamed.and_then(|(wrong, first)| {
            let until = passes.again(first)?.min(sure);
            let is_narrow = passes.begun[first].width() <= MOST_WIDTH;
            (is_narrow && wrong < until).then_some((first, until))
        });
        let Some((first, until)) = moved else { return self.runs.every(width) };
        let (inside, time) = (passes.inside(first), passes.begun[first].time);
        let fits = |to: usize, from: usize| ahead.of(inside[to], thread(inside[from]), time).wrong >= until;
        let mut runs = self.runs.fitting(inside.len(), fits);
        if passes.begun.len() > 1 {
            runs.sort_by_key(|(run, both)| (*both, run.low, run.high, !run.forward));
        }
        runs.into()
    }

    /// What can be said of each of these runs put in; `None` if something is wrong. Those after which the same colors hang
    /// everywhere are followed as one.
    fn outlooks(&mut self, passes: &Passes, runs: &[SidedRun], work: &mut u64) -> Vec<Option<Foreseen>> {
        let mut found = vec![None; runs.len()];
        let is_told = self.part.is_told_by_colors();
        // What was followed up to a pass; and the runs that are to go on, by number, each with the number of what was followed
        // with it, and at first.
        let (mut followed, mut edit) = (vec![FollowedEdit::default()], FollowedEdit::default());
        let mut going_on: Vec<(usize, usize, u32)> = (0..runs.len()).map(|run| (run, 0, 0)).collect();
        for (at, (pass, order)) in passes.begun.iter().zip(&passes.hung).enumerate() {
            let again = passes.begun.get(at + 1).zip(passes.hung.get(at + 1));
            let until = again.map_or(self.part.after_all(self.end), |(again, order)| Moment {
                time: again.time,
                order,
                knots: again.knots.into(),
            });
            let before: Vec<Vec<ThreadId>> =
                followed.iter().map(|edit| edit.renamed.colors(order, &self.part.threads)).collect();
            let mut after = Vec::with_capacity(going_on.len() * order.len());
            for &(run, number, _) in &going_on {
                let begun = after.len();
                after.extend_from_slice(&before[number]);
                tie(runs[run], pass, &mut after[begun..]);
            }
            let mut alike: HashMap<(usize, &[ThreadId]), (Outlook, usize, bool)> = HashMap::default();
            alike.reserve(going_on.len());
            let mut now = Vec::new();
            let mut soon = self.follower.soon(pass.time, until.time, self.read_after(pass.time));
            let mut holding = Vec::new();
            for (&(run, before, first), colors) in going_on.iter().zip(after.chunks_exact(order.len())) {
                *work += 1 + order.len().to_u64() / 4;
                if *work > MOST_WORK || self.given_up.is_so() {
                    return Vec::new();
                }
                let (outlook, number, closes) = *alike.entry((before, colors)).or_insert_with(|| {
                    let hanging = is_told.then(|| hanging_at(pass.time, colors));
                    if hanging.is_some_and(|hanging| !self.part.may_hold(pass.time, hanging, until.time)) {
                        return (Outlook::Fails, 0, false);
                    }
                    if soon.as_mut().is_some_and(|soon| self.follower.is_soon_wrong(soon, colors)) {
                        return (Outlook::Fails, 0, false);
                    }
                    (edit.more, edit.is_same) = (followed[before].more, followed[before].is_same);
                    edit.renamed.put(colors, order, &self.part.threads);
                    let outlook = self.follower.follow(&mut edit, pass.time, until);
                    // Most fail.
                    if outlook != Outlook::Fails {
                        now.push(edit.clone());
                    }
                    let holds = outlook == Outlook::Holds;
                    let closes = holds && (again.is_some() || self.closes(&mut edit));
                    (outlook, now.len().saturating_sub(1), closes)
                });
                let hanging = if at == 0 { number.to_u32() } else { first };
                match outlook {
                    Outlook::Fails => {}
                    Outlook::Holds if again.is_some() => holding.push((run, number, hanging)),
                    outlook => {
                        let holds = outlook == Outlook::Holds;
                        let FollowedEdit { more, is_same, .. } = now[number];
                        found[run] = Some(Foreseen { holds, closes, more, is_same, hanging });
                    }
                }
            }
            going_on = holding;
            followed = now;
        }
        found
    }

    /// The same where no color decides from the first time on, and what is asked of strands is not much: most runs are wrong
    /// soon. `None` where it is otherwise.
    fn outlooks_in_places(
        &self,
        passes: &Passes,
        runs: &[SidedRun],
        work: &mut u64,
    ) -> Option<Vec<Option<Foreseen>>> {
        let since = passes.begun[0].time;
        let may_change = self.reads.last().is_some_and(|&read| read >= since);
        if !self.is_sure || may_change || self.part.walls.last().is_some_and(|&wall| wall >= since) {
            return None;
        }
        let asked = self.asked.get_or_init(|| AskedInOrder::of(self.part)).as_ref()?;
        if runs.len() * asked.between(since..u32::MAX).len() > MOST_ASKED_OF_ALL {
            return None;
        }
        let again = passes.begun.iter().skip(1).map(|again| again.time).chain([self.end]);
        let between = passes.begun.iter().zip(again).map(|(pass, again)| asked.between(pass.time..again));
        let (between, at_last): (Vec<_>, _) = (between.collect(), asked.between(self.end..u32::MAX));
        let blamed = BlamedPlaces::of(self.part, self.end, passes);
        // By strand, the thread that hangs in its place.
        let mut hanging = self.part.threads.clone();
        let foreseen = |&run: &SidedRun| {
            if blamed.as_ref().is_some_and(|blamed| !blamed.are_mended_by(run)) {
                return None;
            }
            if *work > MOST_WORK || self.given_up.is_so() {
                return None;
            }
            hanging.copy_from_slice(&self.part.threads);
            for ((pass, order), asked) in passes.begun.iter().zip(&passes.hung).zip(&between) {
                *work += 1 + order.len().to_u64() / 4;
                tie_places(run, pass, order, &mut hanging);
                if !asked.iter().all(|asked| asked.holds(&hanging)) {
                    return None;
                }
            }
            let closes = at_last.iter().all(|asked| asked.holds(&hanging));
            Some(Foreseen { holds: true, closes, more: 0, is_same: true, hanging: 0 })
        };
        Some(runs.iter().map(foreseen).collect())
    }

    /// Whether the set closes, if this part is the set: all holds up to where that was to be known.
    fn closes(&mut self, edit: &mut FollowedEdit) -> bool {
        self.follower.follow(edit, self.end, self.part.after_all(u32::MAX)) == Outlook::Holds
    }

    /// Whether it ties two of one color in the middle.
    fn may_meet(
        &self,
        (Rotation { low, high, forward }, both): SidedRun,
        pass: &Passing,
        order: &[u8],
    ) -> bool {
        let is_middle = forward && !both && high == low + 1 && pass.width() - low == low;
        let thread = |local: u8| {
            let at = usize::from(pass.within.0) + usize::from(local) - 1;
            self.part.threads[usize::from(order[at])]
        };
        is_middle && thread(low) == thread(high)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mend::search::study_goal;
    use crate::testing::tied;
    use std::sync::Arc;

    #[test]
    fn of_too_many_runs_those_near_the_mistake_are_kept() {
        let lines = 60;
        let mut text = "pattern \"A\"\nthread a teal\nthread b coral\nstrands 32 a 32 b\nset {\n".to_owned();
        let mut add = |strand: &str| text.push_str(&format!("take {strand}: forward-backward 1\n"));
        // What hangs where is not asked before the label is called, so nothing is sure of any run.
        ["left 5 as tip", "left 1 (a)"].into_iter().for_each(&mut add);
        (1..=lines).for_each(|line| add(&format!("left {line}")));
        ["tip", "left 1 (b)"].into_iter().for_each(add);
        text.push_str("}\n");
        let band = tied(&text);
        let (script, facts) = (&Arc::new(band.script.clone()), &band.facts[..]);
        let (closes, given_up) = (band.tied.closes, &GivenUp::NEVER);
        let goal = Goal {
            script,
            facts,
            closes,
            cost: 1000,
            knots: 64,
            misread: 0,
            band: None,
            shown: None,
            given_up,
        };
        let studied = study_goal(&goal).expect("it is tied to its end");
        let sought = Sought { must_close: false, is_right: false, settled: None };
        let found = find_insertions(&goal, &studied, sought, |nth| lines - nth.min(lines));
        assert!(!found.is_whole, "all {} were kept", found.len());
        let kept = |age: u32| found.edits().filter(|kept| kept.candidate.age == age).count();
        assert!(kept(lines - 10) == 0 && [1, 2].map(kept).iter().all(|&near| near >= 2 * 64 * 63));
    }
}
