//! The search over all edits of single statements while the pattern is tied once.

use super::again::Again;
use super::blamed::FirstBlamed;
use super::candidates::Candidate;
use super::known::HangingColors;
use super::listing::Listing;
use super::renaming::{Outlook, Renamed};
use super::settled::Settled;
use super::shape::Blemishes;
use super::tried::{MOST_KNOTS, TriedEdits};
use crate::GivenUp;
use crate::resolve::ThreadId;
use crate::tie::{KnownTurns, Moment, Overlay, PartStudy, Passing, Stuck, Studied};
use knotwright_band::Kind;
use knotwright_grammar::tree::Block;
use rustc_hash::FxHashMap as HashMap;
use std::ops::Range;
use std::rc::Rc;

/// What all trials may cost together, in knots and statements: only loops within loops come near it.
const MOST_WORK: u64 = 20_000_000;

/// For how many edits room is made at once: few patterns have fewer.
const USUAL: usize = 128;

/// An edit that is to be tried.
#[derive(Debug, Clone, Copy)]
pub(crate) struct DueEdit {
    pub(crate) overlay: Overlay,
    /// Whether the statement above is edited too.
    pub(crate) from_above: bool,
}

/// What is known of an edit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum EditState {
    /// Its statement has not been tied yet.
    Fresh,
    /// It was tied, and nothing was wrong; in which place more is known of it.
    Tried(usize),
    /// It is refused, or kept already.
    Done,
}

impl EditState {
    pub(super) fn place(self) -> Option<usize> {
        match self {
            Self::Tried(place) => Some(place),
            Self::Fresh | Self::Done => None,
        }
    }
}

/// An edit after which, by the law of renaming, nothing is wrong.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct KeptEdit {
    pub(super) candidate: Candidate,
    /// Whether the set closes then.
    pub(super) closes: bool,
    /// How many knots more are tied then; `None` if a step reads a color that has changed, so that only a tie shows
    /// whether anything is wrong.
    pub(super) more: Option<i64>,
    /// What the strands that follow rest on up to the second time, if only a tie shows whether anything is wrong.
    pub(super) hanging: Option<Hanging>,
    pub(super) knots: KnownKnots,
}

/// What is known of the knots that are tied with an edit.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum KnownKnots {
    None,
    /// Nothing else is tied otherwise, and the search keeps knots.
    Others(PartKnots),
    /// They are those of the step that is put in, and all that comes after it is tied where it was.
    Added,
    /// How all of them lie.
    Lie(Rc<Blemishes>),
}

/// What an edit changes of a part.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PartKnots {
    pub(super) part: usize,
    pub(super) others: Vec<OtherKnots>,
}

/// Knots that an edit ties in place of others.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct OtherKnots {
    /// The numbers of those that are tied without it.
    pub(super) instead_of: Range<usize>,
    /// Each with its gap.
    pub(super) knots: Vec<(u8, Kind)>,
}

/// How the colors hang in a place once a step is put in there, by a number. What two such steps lead to is the same, until the
/// place is passed again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct Hanging(pub(super) u32);

/// A statement that was tied with an edit.
#[derive(Debug)]
pub(crate) struct TiedEdit {
    pub(crate) candidate: usize,
    /// Whether the statement above is edited too.
    pub(crate) from_above: bool,
    pub(crate) hung: HungStrands,
    /// How many knots were tied before it.
    pub(crate) before: u64,
    /// How many it takes itself.
    pub(crate) count: u64,
    /// Its knots, if they are kept and lie in no straight row.
    pub(crate) knots: Option<Vec<(u8, Kind)>>,
}

/// How the strands hang after a statement.
#[derive(Debug, Hash)]
pub(crate) enum HungStrands {
    /// Who they are, by position.
    Order(Vec<u8>),
    /// Of which threads they are.
    Colors(Vec<ThreadId>),
}

impl TiedEdit {
    /// The thread that hangs then in the place of a strand. `renamed`: who hung in whose place before the statement; `raw`: how
    /// the strands hang after it without the edit.
    fn thread_at(&self, strand: u8, renamed: &Renamed, raw: &[u8], part: &PartStudy) -> ThreadId {
        match (&self.hung, raw.iter().position(|&place| place == strand)) {
            (HungStrands::Order(order), Some(at)) => renamed.thread_at(order[at], &part.threads),
            (HungStrands::Colors(colors), Some(at)) => colors[at],
            (_, None) => part.threads[usize::from(strand)],
        }
    }
}

/// What is known of a statement.
#[derive(Debug, Clone, Default)]
struct OwnEdits {
    /// The numbers of its edits.
    edits: Range<usize>,
    /// How often it will be begun yet in this part; `None` if its edits are not tried there.
    left: Option<usize>,
}

/// All edits, while they are tried.
#[derive(Debug)]
pub(crate) struct EditSearch {
    pub(super) candidates: Vec<Candidate>,
    /// Lists the edits of the statements that are not among them.
    listing: Option<Listing>,
    /// What need not be edited.
    settled: Option<Settled>,
    /// By the byte where a statement starts, what is known of it.
    statements: HashMap<u32, OwnEdits>,
    pub(super) states: Vec<EditState>,
    /// By edit, within how many steps from its own on something was wrong; 0 if that is unknown.
    fails_within: Vec<u16>,
    /// Those that were tried and are not done with.
    pub(super) tried: TriedEdits,
    pub(super) studied: Rc<Studied>,
    /// Which part is being tied.
    pub(super) part: usize,
    /// What is wrong first in it.
    blamed: Option<FirstBlamed>,
    /// Whether no edit is left that may mend anything.
    is_over: bool,
    /// How many knots of the part were tied where the search begins.
    pub(crate) tied_before: u64,
    /// What the trials have cost.
    pub(crate) work: u64,
    /// What it cost to tie steps again after edits.
    pub(super) again: Again,
    pub(super) colors: HangingColors,
    pub(super) turns: KnownTurns,
    kept: Vec<KeptEdit>,
    /// Room for those that a statement is tied with.
    room: Vec<TiedEdit>,
    keeps_knots: bool,
    /// Whether it is kept what knots an edit ties that is tied from the text, for those who put it in order. Of a long part that
    /// would take much room.
    keeps_tied_knots: bool,
    given_up: GivenUp,
}

impl EditSearch {
    /// `candidates`: those of one statement side by side.
    pub(crate) fn new(candidates: Vec<Candidate>, studied: Rc<Studied>, given_up: GivenUp) -> Self {
        let mut search = Self::of(None, studied, given_up);
        search.candidates = candidates;
        search.take_up(0);
        search
    }

    /// Of all edits, each listed when its statement is reached.
    pub(super) fn listing(
        listing: Listing,
        settled: Option<Settled>,
        studied: Rc<Studied>,
        given_up: GivenUp,
    ) -> Self {
        Self { settled, ..Self::of(Some(listing), studied, given_up) }
    }

    fn of(listing: Option<Listing>, studied: Rc<Studied>, given_up: GivenUp) -> Self {
        Self {
            candidates: Vec::with_capacity(USUAL),
            listing,
            settled: None,
            statements: HashMap::default(),
            states: Vec::with_capacity(USUAL),
            fails_within: Vec::with_capacity(USUAL),
            tried: TriedEdits::default(),
            studied,
            part: 0,
            blamed: None,
            is_over: false,
            tied_before: 0,
            work: 0,
            again: Again::default(),
            colors: HangingColors::default(),
            turns: KnownTurns::default(),
            kept: Vec::new(),
            room: Vec::new(),
            keeps_knots: false,
            keeps_tied_knots: false,
            given_up,
        }
    }

    /// Takes up those candidates that were listed from that number on.
    fn take_up(&mut self, first: usize) {
        let mut number = first;
        for side_by_side in self.candidates[first..].chunk_by(|one, next| one.statement == next.statement) {
            let own = &mut self.statements.entry(side_by_side[0].statement).or_default().edits;
            (own.start, own.end) =
                (if own.start == own.end { number } else { own.start }, number + side_by_side.len());
            number = own.end;
        }
        self.states.resize(self.candidates.len(), EditState::Fresh);
        self.fails_within.resize(self.candidates.len(), 0);
    }

    /// For those who want to know what knots the edits tie.
    pub(crate) fn keeping_knots(self) -> Self {
        Self { keeps_knots: true, ..self }
    }

    pub(crate) fn keeps_knots(&self) -> bool {
        self.keeps_knots
    }

    pub(crate) fn keeps_tied_knots(&self) -> bool {
        self.keeps_tied_knots
    }

    /// Whether all edits were tried.
    pub(crate) fn is_whole(&self) -> bool {
        self.work <= MOST_WORK
    }

    pub(super) fn into_kept(self) -> Vec<KeptEdit> {
        self.kept
    }

    fn keep(&mut self, candidate: usize, closes: bool, more: Option<i64>) {
        let candidate = self.candidates[candidate];
        self.kept.push(KeptEdit { candidate, closes, more, hanging: None, knots: KnownKnots::None });
    }

    pub(crate) fn studied(&self) -> &Rc<Studied> {
        &self.studied
    }

    /// Which part is being tied.
    pub(crate) fn part(&self) -> usize {
        self.part
    }

    fn study(&self) -> &PartStudy {
        &self.studied.parts[self.part]
    }

    /// Another part begins; nothing in it can mend what is wrong in one before.
    pub(crate) fn begin(&mut self, part: usize) {
        self.part = part;
        self.again.begin();
        self.colors.begin();
        self.turns.begin();
        self.blamed = FirstBlamed::first(self.study(), self.study().end);
        self.keeps_tied_knots = self.keeps_knots || self.study().knots <= MOST_KNOTS;
        let is_late = self.studied.parts[..part].iter().any(|part| part.first_fault().is_some());
        let is_elsewhere = |start: &u32| {
            let mut others = self.studied.parts.iter().enumerate().filter(|&(number, _)| number != part);
            others.any(|(_, other)| other.begun.contains_key(start))
        };
        let is_settled = |start: &u32, passes: &[Passing]| {
            self.settled.is_some_and(|settled| settled.has(part, passes)) && !is_elsewhere(start)
        };
        self.statements.values_mut().for_each(|own| own.left = None);
        let studied = Rc::clone(&self.studied);
        let begun = &studied.parts[part].begun;
        self.statements.reserve(begun.len());
        for (&start, passes) in begun.iter().filter(|(start, passes)| !is_late && !is_settled(start, passes))
        {
            self.statements.entry(start).or_default().left = Some(passes.len());
        }
    }

    /// From which statement of a part's block on edits are tried, if not from the first: its number, when it is begun, and how
    /// the strands hang then.
    pub(crate) fn due_from(&self, block: &Block) -> Option<(usize, Passing, &[u8])> {
        let part = self.study();
        self.settled.filter(|settled| settled.is_of(self.part) && part.threads.len() == part.width)?;
        let first = |start: &u32| part.begun.get(start)?.first().copied();
        let left = self.statements.iter().filter(|(_, own)| own.left.is_some());
        let due = left.filter_map(|(start, _)| first(start)).map(|passing| passing.time).min()?;
        let begun = |index: usize| first(&block.statements[index].span.start);
        let is_before = |index: usize| begun(index).is_some_and(|passing| passing.time <= due);
        let last = (0..block.statements.len()).take_while(|&index| is_before(index)).last()?;
        // It may change places with the one above it.
        let number = last.checked_sub(1)?;
        let passing = begun(number)?;
        Some((number, passing, part.order(&passing)?))
    }

    /// Whether no edit is left once a statement was begun at that time, and nothing around it is begun yet: then it is over.
    pub(crate) fn ends_after(&mut self, time: u32) -> bool {
        let is_late = self.study().first_fault().is_some_and(|fault| fault < time);
        self.is_over = is_late && self.tried.is_empty() && !self.studied.is_blind();
        self.is_over
    }

    pub(crate) fn is_over(&self) -> bool {
        self.is_over
    }

    /// The edits of the statement that starts there.
    fn at(&self, start: u32) -> Range<usize> {
        let own = self.statements.get(&start).filter(|own| own.left.is_some() && self.goes_on());
        own.map_or(0..0, |own| own.edits.clone())
    }

    /// Whether edits are tried still.
    fn goes_on(&self) -> bool {
        self.is_whole() && !self.given_up.is_so()
    }

    /// Whether the statement of that number in a block, and the one above it, are first begun once something is wrong: no edit of
    /// them mends that.
    fn is_too_late(&self, block: &Block, index: usize) -> bool {
        let part = self.study();
        let first = part.begun.get(&block.statements[index.saturating_sub(1)].span.start);
        let first = first.and_then(|begun| begun.first());
        first.zip(part.first_fault()).is_some_and(|(first, fault)| fault < first.time)
    }

    /// The statement of that number in a block is begun.
    pub(crate) fn reach(&mut self, block: &Block, index: usize) {
        let start = block.statements[index].span.start;
        let is_new = self.listing.as_ref().is_some_and(|listing| !listing.has(start));
        let is_sought = || self.statements.get(&start).is_some_and(|own| own.left.is_some());
        if !is_new || !is_sought() || !self.goes_on() || self.is_too_late(block, index) {
            return;
        }
        let (first, echo) = (self.candidates.len(), self.study().echoes.before(start));
        if let Some(listing) = &mut self.listing {
            listing.list(block, index, echo, &self.studied, &mut self.candidates);
            self.take_up(first);
        }
    }

    /// The edits of the statement that starts there. Refuses those after which something is wrong as soon as it was before.
    pub(crate) fn recall(&mut self, start: u32) -> Range<usize> {
        let all = self.at(start);
        let echo = if all.is_empty() { None } else { self.study().echoes.before(start) };
        let Some(echo) = echo else { return all };
        let before = self.statements.get(&echo.start).map(|own| own.edits.clone()).unwrap_or_default();
        if all.len() != before.len() {
            return all;
        }
        for (own, before) in all.clone().zip(before) {
            let within = self.fails_within[before];
            let is_heard = within > 0 && u32::from(within) <= echo.steps;
            if is_heard && self.candidates[own].is_as(&self.candidates[before], &self.study().echoes) {
                self.states[own] = EditState::Done;
                self.fails_within[own] = within;
            }
        }
        all
    }

    /// For those of which it is asked later: by when something is wrong with an edit, if that is known.
    fn note_failure(&mut self, candidate: usize, time: impl FnOnce(&Self) -> Option<u32>) {
        let (part, statement) = (self.study(), self.candidates[candidate].statement);
        if !part.echoes.comes_again(statement) {
            return;
        }
        let steps = time(self).and_then(|time| part.echoes.steps_until(statement, time)?.try_into().ok());
        self.fails_within[candidate] = steps.unwrap_or(0);
    }

    /// An edit, if it is neither refused nor kept already.
    pub(crate) fn due(&self, candidate: usize) -> Option<DueEdit> {
        let is_due = self.states[candidate] != EditState::Done;
        let Candidate { overlay, from_above, .. } = &self.candidates[candidate];
        is_due.then_some(DueEdit { overlay: *overlay, from_above: *from_above })
    }

    /// Which strands hang in whose places as the statement begins.
    pub(crate) fn renamed(&self, candidate: usize) -> &Renamed {
        self.tried.renamed(self.states[candidate].place())
    }

    /// Whether the edit is still worth trying when its statement begins.
    pub(crate) fn begins(&mut self, candidate: usize, now: Moment) -> bool {
        let place = match self.states[candidate] {
            EditState::Done => return false,
            EditState::Fresh => return self.study().first_fault().is_none_or(|fault| now.time <= fault),
            EditState::Tried(place) => place,
        };
        let part = &self.studied.parts[self.part];
        match self.tried.go_on(place, part, now, &mut self.again) {
            Ok(()) => return true,
            Err(Stuck::Wrong { .. }) => {}
            Err(Stuck::Unknown) => self.keep(candidate, true, None),
        }
        self.refuse(candidate);
        false
    }

    /// Only a tie shows whether anything is wrong with the edit.
    pub(crate) fn leave_open(&mut self, candidate: usize) {
        self.keep(candidate, true, None);
        self.refuse(candidate);
    }

    /// Something is wrong with an edit where it is.
    pub(crate) fn fails_at(&mut self, candidate: usize, time: u32) {
        self.note_failure(candidate, |_| Some(time));
        self.refuse(candidate);
    }

    fn refuse(&mut self, candidate: usize) {
        if let EditState::Tried(place) = std::mem::replace(&mut self.states[candidate], EditState::Done) {
            self.tried.remove(place);
        }
    }

    /// An empty list, for the edits that a statement is tied with.
    pub(crate) fn take_room(&mut self) -> Vec<TiedEdit> {
        std::mem::take(&mut self.room)
    }

    /// The statement that starts there was tied with these edits, and then without.
    pub(crate) fn passed(&mut self, start: u32, mut edits: Vec<TiedEdit>, raw: Moment) {
        if edits.is_empty() {
            self.room = edits;
            return self.leave(start);
        }
        self.tried.begin();
        let studied = Rc::clone(&self.studied);
        let part = &studied.parts[self.part];
        let blamed = self.blamed_next(start, raw.time);
        let is_last = self.statements.get(&start).is_some_and(|own| own.left == Some(1));
        for edit in edits.drain(..) {
            let (candidate, place) = (edit.candidate, self.states[edit.candidate].place());
            let is_in_vain = |blamed: FirstBlamed| {
                !blamed.is_mended(|strand| edit.thread_at(strand, self.tried.renamed(place), raw.order, part))
            };
            if blamed.filter(|_| is_last || !edit.from_above).is_some_and(is_in_vain) {
                self.refuse(candidate);
            } else {
                self.states[candidate] = EditState::Tried(self.tried.pass(place, edit, raw, &part.threads));
            }
        }
        self.room = edits;
        self.leave(start);
    }

    /// What is wrong first in the part, if nothing else is tied up to then among the strands that are blamed for it, after any
    /// edit of the statement that starts there, which was tied by that time.
    fn blamed_next(&self, start: u32, time: u32) -> Option<FirstBlamed> {
        let part = self.study();
        let blamed = self.blamed.filter(|blamed| time <= blamed.time && !part.has_labels())?;
        let passes = part.begun.get(&start)?;
        let later = &passes[passes.partition_point(|pass| pass.time < time)..];
        let comes_again = later
            .iter()
            .take_while(|pass| pass.time <= blamed.time)
            .any(|pass| part.order(pass).is_none_or(|order| blamed.is_among(&order[pass.positions()])));
        let is_next = !comes_again && !part.echoes.comes_again(start);
        (is_next && !part.decides_in(&(time..blamed.time))).then_some(blamed)
    }

    /// A statement was passed at that time where it is unknown who hangs there: after its edits that might be known, unless what
    /// is wrong by then is wrong whoever hangs there. `is_above_known`: what stands above it is to blame, so they may change
    /// places.
    pub(crate) fn pass_blindly(&mut self, start: u32, time: u32, is_above_known: bool) {
        for candidate in self.at(start) {
            let may_change_places = is_above_known && self.candidates[candidate].from_above;
            match self.states[candidate] {
                EditState::Tried(place) if self.tried.fails_by(place, self.study(), time) => {
                    self.refuse(candidate);
                }
                EditState::Tried(_) => self.leave_open(candidate),
                EditState::Fresh if may_change_places => self.leave_open(candidate),
                EditState::Fresh | EditState::Done => {}
            }
        }
        self.leave(start);
    }

    /// A statement was tied. After the last time its edits are done with.
    fn leave(&mut self, start: u32) {
        let own = self.statements.get_mut(&start);
        let Some((edits, left)) = own.and_then(|own| Some((&own.edits, own.left.as_mut()?))) else { return };
        *left -= 1;
        if *left == 0 {
            let edits = edits.clone();
            for candidate in if self.goes_on() { edits } else { 0..0 } {
                // Most are refused by then.
                if let Some(place) = self.states[candidate].place() {
                    self.finish(candidate, start, place);
                    self.refuse(candidate);
                }
            }
            self.let_go(start);
        }
    }

    /// Once all is done with the edits of the statement that starts there, keeps of them what is asked later.
    fn let_go(&mut self, start: u32) {
        let edits = self.at(start);
        let (comes_again, end) = (self.study().echoes.comes_again(start), self.candidates.len());
        let Some(listing) = self.listing.as_mut() else { return };
        if comes_again {
            let own = edits.filter(|&edit| !self.candidates[edit].from_above);
            let within: Option<Vec<u16>> =
                own.map(|edit| Some(self.fails_within[edit]).filter(|&within| within > 0)).collect();
            listing.note(start, within.map(|within| within.into_iter().max().unwrap_or(0)));
        } else if edits.end == end && !edits.is_empty() {
            self.candidates.truncate(edits.start);
            self.states.truncate(edits.start);
            self.fails_within.truncate(edits.start);
            if let Some(own) = self.statements.get_mut(&start) {
                own.edits = 0..0;
            }
        }
    }

    fn finish(&mut self, candidate: usize, start: u32, place: usize) {
        let later = &self.studied.parts[self.part + 1..];
        if later.iter().any(|part| part.begun.contains_key(&start)) {
            return self.keep(candidate, true, None);
        }
        let part = &self.studied.parts[self.part];
        match self.tried.go_on(place, part, part.after_all(part.end), &mut self.again) {
            Ok(()) => {}
            Err(Stuck::Unknown) => return self.keep(candidate, true, None),
            Err(Stuck::Wrong { time }) => {
                let first = |search: &Self| search.tried.first_wrong(place, search.study());
                return self.note_failure(candidate, |search| time.or_else(|| first(search)));
            }
        }
        let is_wrong_later = later.iter().any(|part| part.first_fault().is_some());
        // What is promised at the end is that the set closes.
        let closing = self.tried.renamed(Some(place)).verdict(part, &(part.end..u32::MAX));
        let own = self.tried.own(place);
        let more = Some(own.more).filter(|_| !self.studied.is_blind());
        match closing {
            Outlook::Holds if is_wrong_later => {}
            Outlook::Holds => {
                let others = own.knots.take().filter(|_| more.is_some());
                self.keep(candidate, self.studied.closes_without(self.part), more);
                if let (Some(kept), Some(others)) = (self.kept.last_mut(), others) {
                    kept.knots = KnownKnots::Others(PartKnots { part: self.part, others });
                }
            }
            Outlook::Unsure => self.keep(candidate, true, None),
            Outlook::Fails => self.keep(candidate, false, more.filter(|_| !is_wrong_later)),
        }
    }
}
