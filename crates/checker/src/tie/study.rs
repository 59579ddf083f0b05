//! What the steps of a part rest on, written down while it is tied: which colors each strand is promised to have, which
//! are read to pick a strand or to know how far to tie, and what is wrong. Times count what is written down.
//!
//! A strand stands for the part that it plays: after an edit another strand may hang in its place.

use super::act::{Act, NthOfColor};
use super::echoes::Echoes;
use super::needed::Needed;
use super::run::Hand;
use super::{EditTrial, Tie};
use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use crate::{FactKind, FileId, PartKind, Source};
use knotwright_band::Piece;
use knotwright_grammar::tree::{Block, Counting};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;
use std::cell::OnceCell;
use std::ops::RangeInclusive;

/// Of how many colors that decided it is kept whose they were. A step may look at all strands of a wide band to find its own.
const MOST_READS: usize = 8_000_000;

/// How many steps are kept in which a color decided.
const MOST_READINGS: usize = 20_000;

/// For how many statements room is made at once: few bands have more, and thousands are studied.
const USUAL: usize = 64;

/// What a strand must be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Wants {
    /// Of this thread.
    Color(ThreadId),
    /// Of one color with that strand.
    AlikeTo(u8),
}

/// When a strand's color decided where or how far was tied.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Read {
    pub(crate) time: u32,
    /// Of which thread it was asked whether the strand is; `None` if any other color may decide otherwise.
    asked: Option<ThreadId>,
}

impl Read {
    /// Whether a strand of one thread decides otherwise than one of the other, which is another one.
    pub(crate) fn tells_apart(self, one: ThreadId, other: ThreadId) -> bool {
        self.asked.is_none_or(|asked| (one == asked) != (other == asked))
    }
}

/// A strand that is not what it must be.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Failing {
    pub(crate) time: u32,
    pub(crate) strand: u8,
    /// The one that it must be like.
    pub(crate) other: Option<u8>,
}

/// A statement as it is begun once.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Passing {
    pub(crate) time: u32,
    /// When it had been tied; the latest time if that is not known.
    pub(crate) until: u32,
    /// How many statements were begun before.
    pub(crate) nth: u32,
    /// The positions that exist, and whether they are seen in a mirror.
    pub(crate) within: (u8, u8),
    pub(crate) mirrored: bool,
    /// Whether there are names of numbers, threads or strands that it might call.
    pub(crate) knows_names: bool,
    pub(crate) order: u32,
    /// How many knots of its part were tied before.
    pub(crate) knots: u32,
}

impl Passing {
    /// The positions that exist.
    pub(crate) fn positions(&self) -> RangeInclusive<usize> {
        usize::from(self.within.0)..=usize::from(self.within.1)
    }

    /// How many positions exist.
    pub(crate) fn width(&self) -> u8 {
        self.within.1 - self.within.0 + 1
    }
}

/// A `take` of the file in which a color decided.
#[derive(Debug)]
struct Reading {
    begun: Passing,
    /// The time when it was tied.
    ended: u32,
}

/// Where a tie begins, if all before it is known: a statement, the first time that it is tied.
#[derive(Debug, Clone, Copy)]
pub(crate) struct KnownStart<'s> {
    /// Of which part it is.
    pub(super) part: usize,
    /// The byte where it starts.
    pub(super) start: u32,
    /// How the strands hang before it.
    pub(super) order: &'s [u8],
    /// By strand, its thread.
    pub(super) threads: &'s [ThreadId],
    /// How many knots are tied before it, those of other parts among them.
    pub(super) knots: u64,
    /// How many of its own part.
    pub(super) own: u32,
}

impl KnownStart<'_> {
    /// The number of the statement of a part's block in which it is. All before that is known; in a motif, that is nothing.
    pub(super) fn first_in(&self, block: &Block) -> usize {
        let all = &block.statements;
        let number = all.partition_point(|statement| statement.span.end <= self.start);
        all.get(number).filter(|statement| statement.span.start <= self.start).map_or(0, |_| number)
    }

    /// Of which part it is, and how many of its knots are tied before it.
    pub(crate) fn at(&self) -> (usize, u32) {
        (self.part, self.own)
    }
}

/// A strand that is sought among those from one place of the range to another.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sought {
    pub(super) thread: ThreadId,
    /// Which one of the thread.
    pub(super) number: i64,
    pub(super) first: usize,
    pub(super) last: usize,
    pub(super) from: Counting,
}

/// How it is at a time without an edit.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Moment<'s> {
    pub(crate) time: u32,
    /// How the strands hang.
    pub(crate) order: &'s [u8],
    /// How many knots of its part were tied before.
    pub(crate) knots: u64,
}

/// Who looks on.
pub(crate) enum Study<'a> {
    /// Writes all down.
    Record(&'a mut PartStudy),
    /// Tries edits.
    Search(&'a mut crate::mend::EditSearch),
}

/// What was written down of opening, set and closing.
#[derive(Debug, Default)]
pub(crate) struct Studied {
    pub(crate) parts: [PartStudy; 3],
}

impl Studied {
    /// How many knots were tied.
    pub(crate) fn knots(&self) -> u64 {
        self.parts.iter().map(|part| part.knots).sum()
    }

    /// Whether it was unknown somewhere who hangs where.
    pub(crate) fn is_blind(&self) -> bool {
        self.parts.iter().any(|part| part.is_blind)
    }

    /// Whether it was studied as it is tied: nowhere it is unknown who hangs where, and it was never gone on where a tie stops.
    pub(crate) fn is_as_tied(&self) -> bool {
        !self.parts.iter().any(|part| part.is_blind || part.is_feigned)
    }

    /// Finds out where each part goes on as it did before, unless it is unknown somewhere who hangs where, or a label stays with
    /// its strand. For those who try edits all over the pattern. `since`: by part, from when on anybody asks.
    pub(crate) fn find_echoes(&mut self, source: &Source, since: impl Fn(usize) -> u32) {
        let mistake = self.first_mistake();
        let parts = self.parts.iter_mut().enumerate().filter(|(_, part)| part.rests_on_colors());
        parts.for_each(|(number, part)| {
            // An edit of what comes later mends nothing.
            let until = mistake.filter(|mistake| mistake.0 == number).map_or(part.end, |mistake| mistake.1);
            part.echoes = Echoes::of(source, part, since(number)..until.saturating_add(1));
        });
    }

    /// In which part something is wrong first, and when: at the end of a set that does not close, if nothing else is.
    pub(crate) fn first_mistake(&self) -> Option<(usize, u32)> {
        let parts = || self.parts.iter().enumerate();
        let is_open = |part: &PartStudy| part.failing.last().is_some_and(|failing| failing.time >= part.end);
        let fault = parts().find_map(|(number, part)| Some((number, part.first_fault()?)));
        fault.or_else(|| parts().find(|(_, part)| is_open(part)).map(|(number, part)| (number, part.end)))
    }

    /// Whether the set closes, as far as that does not lie in the part of that number. An edit of another part does not change it
    /// as long as all strands hang after that part as before.
    pub(crate) fn closes_without(&self, part: usize) -> bool {
        let closes = |part: &PartStudy| part.failing.last().is_none_or(|failing| failing.time < part.end);
        self.parts.iter().enumerate().all(|(number, own)| number == part || closes(own))
    }

    /// Whether a step looks at a strand's color, or calls it by a label, to know where or how far it ties.
    pub(crate) fn reads_strands(&self) -> bool {
        let reads = |part: &PartStudy| !part.labels.is_empty() || !part.read_at.is_empty();
        self.parts.iter().any(reads)
    }

    /// Where a tie may begin that is as it was up to the first time that the statement at `start` is tied. `None` if what is
    /// known of the strands up to there is not all that matters after it.
    pub(crate) fn beginning(&self, start: u32) -> Option<KnownStart<'_>> {
        let (number, part) =
            self.parts.iter().enumerate().find(|(_, part)| part.begun.contains_key(&start))?;
        let first = part.begun.get(&start)?.first()?;
        // A label stays with a strand; and whether the set closes, nobody asks any more in the closing.
        let is_simple = part.labeled.is_empty()
            && part.threads.len() == part.width
            && !self.is_blind()
            && number != PartKind::Closing as usize;
        let before: u64 = self.parts[..number].iter().map(|part| part.knots).sum();
        let (order, threads) = (part.order(first)?, &part.threads[..]);
        let knots = before + u64::from(first.knots);
        is_simple.then_some(KnownStart { part: number, start, order, threads, knots, own: first.knots })
    }

    pub(super) fn of_part(&mut self, which: PartKind, threads: &[ThreadId]) -> Study<'_> {
        let part = &mut self.parts[which as usize];
        (part.threads, part.width) = (threads.to_vec(), threads.len());
        part.wants = vec![Vec::new(); threads.len()];
        part.reads = vec![Vec::new(); threads.len()];
        part.is_set = which == PartKind::Set;
        part.orders.reserve(USUAL * threads.len());
        part.times.reserve(USUAL);
        part.acts.reserve(4 * USUAL);
        part.begun.reserve(USUAL / 2);
        // Until it has ended, nobody knows when.
        (part.end, part.last) = (u32::MAX, u32::MAX);
        Study::Record(part)
    }
}

/// What was written down of one of them.
#[derive(Debug, Default)]
pub(crate) struct PartStudy {
    /// By strand, its thread.
    pub(crate) threads: Vec<ThreadId>,
    /// How many of them hang side by side; the others are those that go on where one was joined.
    pub(crate) width: usize,
    /// By strand, what it must be, and when.
    pub(crate) wants: Vec<Vec<(u32, Wants)>>,
    /// By strand, when its color decided where or how far was tied.
    pub(crate) reads: Vec<Vec<Read>>,
    /// Strands that were not what they must be.
    pub(crate) failing: Vec<Failing>,
    /// When something was wrong that does not lie in the color of a strand.
    pub(crate) walls: Vec<u32>,
    /// When a strand was first compared with the one that hung somewhere as the part began.
    pub(crate) start_asked: Option<u32>,
    /// When a strand was called by a label, and when it got it.
    pub(crate) labels: Vec<(u32, u32)>,
    /// By the byte where a statement, or a row of a chart, starts, when it was begun.
    pub(crate) begun: HashMap<u32, Vec<Passing>>,
    /// The same for the last statements of blocks, after them.
    pub(crate) ended: HashMap<u32, Vec<Passing>>,
    /// When the part ended; what is promised later is that a set closes.
    pub(crate) end: u32,
    /// When all of it was told, the set's closing and all.
    pub(super) last: u32,
    /// How the strands hang at its end.
    pub(super) order: Vec<u8>,
    /// What was done, each at its time.
    pub(super) acts: Vec<Act>,
    /// How many knots it has.
    pub(crate) knots: u64,
    /// They themselves, if they are kept.
    pub(crate) piece: Option<Piece>,
    /// Whether it was unknown somewhere who hangs where: then not all that is promised is written down.
    pub(super) is_blind: bool,
    /// Whether it was gone on where the text names a place that is not there.
    is_feigned: bool,
    /// Where it goes on as it did before, once somebody has asked for it.
    pub(crate) echoes: Echoes,
    /// How the colors must hang, once somebody has asked for it.
    pub(super) needed: OnceCell<Needed>,
    pub(crate) is_set: bool,
    /// In order of time.
    readings: Vec<Reading>,
    /// How the strands hang whenever a statement is begun, or the last one of a block has ended, one order after the other; and
    /// how many knots are tied then.
    pub(super) orders: Vec<u8>,
    pub(super) knots_before: Vec<u32>,
    labeled: HashMap<u8, u32>,
    /// When each statement was begun, in this order.
    pub(super) times: Vec<u32>,
    /// When any color was read; and how many were.
    pub(crate) read_at: Vec<u32>,
    read: usize,
}

impl PartStudy {
    /// The step that was being tied at that time, if a color decided in it.
    pub(crate) fn reading_at(&self, time: u32) -> Option<&Passing> {
        let begun = self.readings.partition_point(|reading| reading.begun.time <= time);
        Some(&self.readings[..begun].last().filter(|reading| time < reading.ended)?.begun)
    }

    /// Whether more was to be written down than is kept.
    pub(super) fn is_full(&self) -> bool {
        self.read > MOST_READS
    }

    /// Whether nothing but the colors of the strands decides what comes of it.
    pub(crate) fn rests_on_colors(&self) -> bool {
        !self.is_blind && !self.has_labels()
    }

    /// Whether a color decides somewhere what is tied.
    pub(crate) fn is_told_by_colors(&self) -> bool {
        !self.read_at.is_empty()
    }

    /// Whether a strand has a label, which stays with it.
    pub(crate) fn has_labels(&self) -> bool {
        !self.labeled.is_empty() || !self.labels.is_empty()
    }

    /// When the first thing was wrong, before the end of the part.
    pub(crate) fn first_fault(&self) -> Option<u32> {
        let failing = self.failing.first().map(|failing| failing.time);
        let first = failing.into_iter().chain(self.walls.first().copied()).min();
        first.filter(|&time| time < self.end)
    }
}

/// Puts something into a list that mostly gets some more.
fn push<T>(list: &mut Vec<T>, one: T) {
    if list.is_empty() {
        list.reserve(USUAL / 8);
    }
    list.push(one);
}

impl Tie<'_> {
    /// Where the tie is now, in a study that writes it down; how the strands hang is not kept with it.
    #[inline]
    fn passing(&self) -> Option<Passing> {
        let Some(Study::Record(part)) = &self.study else { return None };
        (self.file == FileId::CHECKED).then(|| Passing {
            time: self.clock,
            until: u32::MAX,
            nth: part.times.len().to_u32(),
            within: (self.frame.low.to_u8(), self.frame.high.to_u8()),
            mirrored: self.frame.mirrored,
            knows_names: self.scope.known() > 0,
            order: u32::MAX,
            knots: self.strands.tied().to_u32(),
        })
    }

    /// Writes down that a statement is begun, or that the last one of a block has ended. Mostly nobody does, and that is to cost
    /// nothing.
    #[inline]
    pub(super) fn study_begin(&mut self, block: &Block, index: usize) {
        if matches!(self.study, Some(Study::Record(_))) {
            self.write_begin(block, index);
        }
    }

    #[inline(never)]
    fn write_begin(&mut self, block: &Block, index: usize) {
        let Some(now) = self.passing() else { return };
        let Some(Study::Record(part)) = &mut self.study else { return };
        let is_end = index == block.statements.len();
        let Some(statement) = block.statements.get(index.saturating_sub(usize::from(is_end))) else { return };
        let order = part.keep_order(self.strands.order(), now.knots);
        if !is_end {
            part.times.push(self.clock);
        }
        let begun = Passing { nth: part.times.len().to_u32(), order, ..now };
        let list = if is_end { &mut part.ended } else { &mut part.begun };
        // Of a long part most are begun once; in a motif or a loop, several times.
        let times = if self.depth > 1 { 8 } else { 1 };
        list.entry(statement.span.start).or_insert_with(|| Vec::with_capacity(times)).push(begun);
    }

    /// Writes down that a row of a chart is begun.
    pub(super) fn study_row(&mut self, start: u32) {
        let Some(now) = self.passing() else { return };
        let Some(Study::Record(part)) = &mut self.study else { return };
        part.begun.entry(start).or_default().push(now);
    }

    /// Writes down that the statement, or the row of a chart, that starts there was tied.
    pub(super) fn study_end(&mut self, start: u32) {
        if let Some(Study::Record(part)) = &mut self.study
            && self.file == FileId::CHECKED
            && let Some(passed) = part.begun.get_mut(&start).and_then(|begun| begun.last_mut())
        {
            passed.until = self.clock;
        }
    }

    /// A `take` that starts there was tied, maybe not to its end.
    pub(super) fn study_taken(&mut self, start: u32) {
        let Some(Study::Record(part)) = &mut self.study else { return };
        let is_kept = self.file == FileId::CHECKED && part.readings.len() < MOST_READINGS;
        let begun = part.begun.get(&start).and_then(|begun| begun.last()).copied().filter(|_| is_kept);
        let has_read = |begun: &Passing| part.read_at.last().is_some_and(|&read| begun.time <= read);
        if let Some(begun) = begun.filter(has_read) {
            part.readings.push(Reading { begun, ended: self.clock });
        }
    }

    /// The strand at `position` must be that.
    pub(super) fn study_wants(&mut self, position: usize, wants: Wants, act: Act) {
        let time = self.clock;
        self.study_act(act);
        let Some(Study::Record(part)) = &mut self.study else { return };
        let strand = self.strands.order()[position];
        let found = part.threads[usize::from(strand)];
        let (wanted, other) = match wants {
            Wants::Color(thread) => (thread, None),
            Wants::AlikeTo(other) => (part.threads[usize::from(other)], Some(other)),
        };
        push(&mut part.wants[usize::from(strand)], (time, wants));
        if matches!(act, Act::WantsStart { .. }) {
            part.start_asked.get_or_insert(time);
        }
        if let Some(other) = other {
            push(&mut part.wants[usize::from(other)], (time, Wants::AlikeTo(strand)));
        }
        if !super::keeps(wanted, found) {
            part.failing.push(Failing { time, strand, other });
        }
    }

    /// Every base strand of a run must be of that thread.
    pub(super) fn study_bases(&mut self, hand: Hand, over: ThreadId, tied: usize) {
        if self.study.is_some() {
            for step in 1..=tied {
                // What ties the run looks at them.
                self.study_wants(self.ahead_of(hand, step), Wants::Color(over), Act::Nothing);
            }
        }
    }

    /// Which of the next `count` strands are of the thread decides how far this goes.
    pub(super) fn study_read_ahead(&mut self, thread: ThreadId, hand: Hand, count: usize, act: Act) {
        if self.study.is_some() {
            let count = count.min(self.ahead(hand).count());
            let positions = (1..=count).map(|step| self.ahead_of(hand, step)).collect();
            self.study_read(Some(thread), positions, act);
        }
    }

    /// Which of the strands are of the thread decides which one is `found`.
    pub(super) fn study_search(&mut self, sought: Sought, found: Option<usize>) {
        if self.study.is_some() {
            let Sought { thread, number, first, last, from } = sought;
            let backward = matches!(from, Counting::FromRight | Counting::LeftOfCenter);
            let (begin, end) = if backward { (last, first) } else { (first, last) };
            let locals = begin.min(found.unwrap_or(end))..=begin.max(found.unwrap_or(end));
            let positions = locals.map(|local| self.frame.position(local)).collect();
            let act = match number.checked_sub(1).map(u8::try_from) {
                Some(Ok(after)) => {
                    let [from, to] = [begin, end].map(|local| self.frame.position(local).to_u8());
                    Act::TakeColor(NthOfColor { thread, after, from, to })
                }
                _ => Act::Wrong,
            };
            self.study_read(Some(thread), positions, act);
        }
    }

    /// The colors of all strands decide.
    pub(super) fn study_all(&mut self) {
        if self.study.is_some() {
            self.study_read(None, (0..self.strands.order().len()).collect(), Act::Unknown);
        }
    }

    /// What is tied from now on is not what the text ties: it stops there.
    pub(super) fn study_feigned(&mut self) {
        if let Some(Study::Record(part)) = &mut self.study {
            part.is_feigned = true;
        }
    }

    /// From now on it is unknown who hangs where.
    pub(super) fn study_lost(&mut self) {
        self.study_all();
        if let Some(Study::Record(part)) = &mut self.study {
            part.is_blind = true;
        }
    }

    fn study_read(&mut self, asked: Option<ThreadId>, positions: Vec<usize>, act: Act) {
        let time = self.clock;
        self.study_act(act);
        let Some(Study::Record(part)) = &mut self.study else { return };
        if positions.is_empty() {
            return;
        }
        let is_unknown =
            |&position: &usize| part.threads[usize::from(self.strands.order()[position])] == UNKNOWN_THREAD;
        // What comes of colors that nobody knows, a study of them does not say.
        if !self.limits.tells && positions.iter().any(is_unknown) {
            self.trial = Some(EditTrial { failed: true });
        }
        part.read_at.push(time);
        part.read += positions.len();
        if part.is_full() {
            return;
        }
        for position in positions {
            push(&mut part.reads[usize::from(self.strands.order()[position])], Read { time, asked });
        }
    }

    /// A strand gets a label.
    pub(super) fn study_labeled(&mut self, strand: u8) {
        if let Some(Study::Record(part)) = &mut self.study {
            part.labeled.entry(strand).or_insert(self.clock);
        }
    }

    /// A strand is called by a label.
    pub(super) fn study_label(&mut self, strand: u8) {
        let time = self.clock;
        self.study_act(Act::Unknown);
        if let Some(Study::Record(part)) = &mut self.study {
            let given = part.labeled.get(&strand).copied().unwrap_or(0);
            part.labels.push((time, given));
        }
    }

    /// Something is wrong. Of colors that are not as promised that is known already.
    pub(super) fn study_fault(&mut self, kind: &FactKind) {
        if let Some(trial) = &mut self.trial {
            trial.failed = true;
            return;
        }
        let of_a_color = matches!(
            kind,
            FactKind::BrokenPromise { .. }
                | FactKind::BaseIsOther { .. }
                | FactKind::TwoColors { .. }
                | FactKind::ExpectFails { .. }
        );
        if of_a_color {
            return;
        }
        let (time, act) = (self.clock, Act::of_fault(kind));
        self.study_act(act);
        let Some(Study::Record(part)) = &mut self.study else { return };
        // As long as no color has decided, it is wrong among strands of any colors.
        if !self.limits.tells && (act == Act::Wrong || part.read_at.is_empty()) {
            self.trial = Some(EditTrial { failed: true });
        }
        part.walls.push(time);
    }

    /// The part has ended: its colors are to hang as they did, and another part rests on them.
    pub(super) fn end_study(&mut self, goes_on: bool) {
        let mut closes = false;
        if let Some(Study::Record(part)) = &mut self.study {
            part.end = self.clock;
            part.knots = self.strands.tied();
            closes = part.is_set;
        }
        if closes && self.unknown.is_none() && !self.threads.contains(&UNKNOWN_THREAD) {
            for position in 0..self.strands.order().len() {
                let own = position.to_u8();
                let act = Act::WantsStart { position: own, start: own };
                self.study_wants(position, Wants::Color(self.threads[position]), act);
            }
        }
        if goes_on {
            self.study_all();
        }
        if let Some(Study::Record(part)) = &mut self.study {
            part.last = self.clock;
            part.order = self.strands.order().to_vec();
        }
    }
}
