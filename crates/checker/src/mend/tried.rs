//! What came of edits so far, while the rest of their part is tied. Many edits of one statement leave the same colors behind:
//! then it is found out once for all of them what comes of these.

use super::again::{Again, Course};
use super::edits::{HungStrands, OtherKnots, TiedEdit};
use super::renaming::{Orders, Outlook, Renamed};
use super::slots::Slots;
use crate::resolve::ThreadId;
use crate::tie::{Moment, PartStudy, Stuck};
use knotwright_numbers::ToNumber;
use rustc_hash::{FxBuildHasher, FxHashMap as HashMap};
use std::hash::BuildHasher;

/// Of longer stretches that are tied again it is not kept what knots they have; nor in longer parts what knots edits tie, unless
/// somebody wants to know.
pub(super) const MOST_KNOTS: u64 = 2_000;

/// An edit with which nothing was wrong yet.
#[derive(Debug, Default)]
struct Tried {
    /// The number of its fate.
    fate: usize,
    own: OwnKnots,
}

/// What is tied with an edit.
#[derive(Debug, Default)]
pub(super) struct OwnKnots {
    /// How many knots more than without it.
    pub(super) more: i64,
    /// Those that are tied otherwise, if they are known.
    pub(super) knots: Option<Vec<OtherKnots>>,
}

/// What comes of all edits of a statement that leave the same colors behind.
#[derive(Debug, Default)]
struct Fate {
    /// Since when they hang so.
    since: u32,
    /// Which strands hang in the places of others: since then, or as far as it was gone on.
    renamed: Renamed,
    /// How far it was gone on, and what came of it.
    gone: Option<(u32, Result<Stretch, Stuck>)>,
    /// How many edits share it.
    edits: usize,
    /// Whether it is known of one of them what knots it ties.
    keeps_knots: bool,
}

/// A stretch in which nothing was wrong.
#[derive(Debug, Clone)]
struct Stretch {
    /// How many knots more are tied in it than without an edit.
    more: i64,
    /// Those that are tied otherwise, if they are known.
    knots: Option<Vec<OtherKnots>>,
}

impl OwnKnots {
    fn none() -> Self {
        Self { more: 0, knots: Some(Vec::new()) }
    }

    fn add(&mut self, more: i64, others: Option<impl IntoIterator<Item = OtherKnots>>) {
        self.more += more;
        self.knots = self.knots.take().zip(others).map(|(mut all, others)| {
            all.extend(others);
            all
        });
    }
}

impl Fate {
    /// Goes on to a later moment, if nothing is wrong up to then.
    fn go_on(&mut self, part: &PartStudy, until: Moment, again: &mut Again) -> Result<&Stretch, Stuck> {
        if self.gone.as_ref().is_none_or(|gone| gone.0 != until.time) {
            self.gone = Some((until.time, self.stretch(part, until, again)));
        }
        // It was gone on just now, if not before.
        self.gone.as_ref().map_or(Err(Stuck::Unknown), |gone| gone.1.as_ref().map_err(|stuck| *stuck))
    }

    fn stretch(&mut self, part: &PartStudy, until: Moment, again: &mut Again) -> Result<Stretch, Stuck> {
        let time = self.since..until.time;
        let begun = match self.renamed.foresee(part, &time) {
            (Outlook::Holds, _) => return Ok(Stretch { more: 0, knots: Some(Vec::new()) }),
            (Outlook::Fails, _) => return Err(Stuck::Wrong { time: None }),
            (Outlook::Unsure, read) => read.and_then(|read| part.reading_at(read)),
        };
        let begun = begun.filter(|begun| time.start <= begun.time).and_then(|begun| part.moment(begun));
        let begun = begun.ok_or(Stuck::Unknown)?;
        let knots = until.knots - begun.knots;
        let is_kept = self.keeps_knots && knots <= MOST_KNOTS;
        let mut tied = is_kept.then(|| Vec::with_capacity(knots.to_usize()));
        let more = again.tie(&mut self.renamed, Course { part, begun, until }, &mut tied)?;
        let instead_of = begun.knots.to_usize()..until.knots.to_usize();
        Ok(Stretch { more, knots: tied.map(|knots| vec![OtherKnots { instead_of, knots }]) })
    }

    /// When something is wrong up to the end of the part, if that is known.
    fn first_wrong(&self, part: &PartStudy) -> Option<u32> {
        match self.renamed.places().is_empty() {
            // Without any other color nothing is mended, wherever it is.
            true => Some(self.since),
            false => self.renamed.first_wrong(part, self.since..part.end),
        }
    }
}

/// The edits that were tried and are not done with, each in a place of its own.
#[derive(Debug, Default)]
pub(super) struct TriedEdits {
    edits: Slots<Tried>,
    fates: Slots<Fate>,
    /// The fates of the edits of one statement, by a hash of what distinguishes these: whether the one above was edited as well,
    /// how the strands hang, and with which fate they hung before if that matters.
    alike: HashMap<u64, usize>,
    /// Of an edit that was not tried yet.
    none: Renamed,
}

impl TriedEdits {
    pub(super) fn is_empty(&self) -> bool {
        self.edits.is_empty()
    }

    /// Another statement was tied with its edits.
    pub(super) fn begin(&mut self) {
        self.alike.clear();
    }

    fn fate(&self, place: usize) -> &Fate {
        &self.fates[self.edits[place].fate]
    }

    /// Which strands hang in the places of others with the edit in a place, if it was tried before.
    pub(super) fn renamed(&self, place: Option<usize>) -> &Renamed {
        place.map_or(&self.none, |place| &self.fate(place).renamed)
    }

    /// A statement was tied with an edit, which has a place if it was tried before, and then without it. Its place since then.
    pub(super) fn pass(
        &mut self,
        place: Option<usize>,
        edit: TiedEdit,
        raw: Moment,
        threads: &[ThreadId],
    ) -> usize {
        let before = place.map(|place| self.edits.remove(place));
        let (before, mut own) = match before {
            Some(Tried { fate, own }) => (Some(fate), own),
            None => (None, OwnKnots::none()),
        };
        let instead_of = edit.before.to_usize()..raw.knots.to_usize();
        let more = (edit.before + edit.count).to_i64() - raw.knots.to_i64();
        own.add(more, edit.knots.map(|knots| [OtherKnots { instead_of, knots }]));
        let rests_on = before.filter(|_| matches!(edit.hung, HungStrands::Order(_)));
        let left = FxBuildHasher.hash_one((edit.from_above, rests_on, &edit.hung));
        let fate = self.alike.get(&left).copied().unwrap_or_else(|| {
            let renamed = match &edit.hung {
                HungStrands::Order(tried) => {
                    let before = rests_on.map_or(&self.none, |fate| &self.fates[fate].renamed);
                    before.after(Orders { tried, raw: raw.order }, threads)
                }
                HungStrands::Colors(colors) => Renamed::of(colors, raw.order, threads),
            };
            let fate = Fate { since: raw.time, renamed, ..Fate::default() };
            let fate = self.fates.insert(fate);
            self.alike.insert(left, fate);
            fate
        });
        before.into_iter().for_each(|fate| self.release(fate));
        self.fates[fate].edits += 1;
        self.fates[fate].keeps_knots |= own.knots.is_some();
        self.edits.insert(Tried { fate, own })
    }

    /// Goes on with the edit in a place to a later moment, if nothing is wrong up to then.
    pub(super) fn go_on(
        &mut self,
        place: usize,
        part: &PartStudy,
        until: Moment,
        again: &mut Again,
    ) -> Result<(), Stuck> {
        let Tried { fate, own } = &mut self.edits[place];
        let stretch = self.fates[*fate].go_on(part, until, again)?;
        own.add(stretch.more, stretch.knots.clone());
        Ok(())
    }

    /// Whether something is wrong by then with the edit in a place, whatever comes of the colors that decide.
    pub(super) fn fails_by(&self, place: usize, part: &PartStudy, time: u32) -> bool {
        let fate = self.fate(place);
        fate.renamed.verdict(part, &(fate.since..time)) == Outlook::Fails
    }

    /// When something is wrong with the edit in a place up to the end of the part, if that is known.
    pub(super) fn first_wrong(&self, place: usize, part: &PartStudy) -> Option<u32> {
        self.fate(place).first_wrong(part)
    }

    /// What is tied with the edit in a place, as far as it was gone on with.
    pub(super) fn own(&mut self, place: usize) -> &mut OwnKnots {
        &mut self.edits[place].own
    }

    /// The edit in a place is done with.
    pub(super) fn remove(&mut self, place: usize) {
        let fate = self.edits.remove(place).fate;
        self.release(fate);
    }

    fn release(&mut self, fate: usize) {
        self.fates[fate].edits -= 1;
        if self.fates[fate].edits == 0 {
            self.fates.remove(fate);
        }
    }
}
