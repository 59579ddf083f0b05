//! What came of an edit so far, while the rest of its part is tied.

use super::again::{Again, Course};
use super::edits::{HungStrands, OtherKnots, TiedEdit};
use super::renaming::{Orders, Outlook, Renamed};
use crate::resolve::ThreadId;
use crate::tie::{Moment, PartStudy, Stuck};
use knotwright_numbers::ToNumber;

/// Of longer stretches that are tied again it is not kept what knots they have.
const MOST_KNOTS: u64 = 2_000;

/// Nothing was wrong with it.
#[derive(Debug, Default)]
pub(super) struct Tried {
    /// Up to that time.
    pub(super) since: u32,
    /// Which strands hang in the places of others since then.
    pub(super) renamed: Renamed,
    /// How many knots more are tied with it.
    pub(super) more: i64,
    /// The knots that are tied otherwise, if they are known.
    pub(super) knots: Option<Vec<OtherKnots>>,
}

impl Tried {
    /// Of which no statement was tied.
    pub(super) fn none() -> Self {
        Self { knots: Some(Vec::new()), ..Self::default() }
    }

    /// The statement was tied with the edit.
    pub(super) fn pass(&mut self, edit: TiedEdit, raw: Moment, threads: &[ThreadId]) {
        match edit.hung {
            HungStrands::Order(tried) => {
                self.renamed = self.renamed.after(Orders { tried: &tried, raw: raw.order }, threads);
            }
            HungStrands::Colors(colors) => self.renamed.put(&colors, raw.order, threads),
        }
        self.since = raw.time;
        self.more += (edit.before + edit.count).to_i64() - raw.knots.to_i64();
        let instead_of = edit.before.to_usize()..raw.knots.to_usize();
        self.knots = self.knots.take().zip(edit.knots).map(|(mut all, knots)| {
            all.push(OtherKnots { instead_of, knots });
            all
        });
    }

    /// Goes on to a later moment, if nothing is wrong up to then.
    pub(super) fn go_on(&mut self, part: &PartStudy, until: Moment, again: &mut Again) -> Result<(), Stuck> {
        let time = self.since..until.time;
        let begun = match self.renamed.foresee(part, &time) {
            (Outlook::Holds, _) => return Ok(()),
            (Outlook::Fails, _) => return Err(Stuck::Wrong { time: None }),
            (Outlook::Unsure, read) => read.and_then(|read| part.reading_at(read)),
        };
        let begun = begun.filter(|begun| time.start <= begun.time).and_then(|begun| part.moment(begun));
        let begun = begun.ok_or(Stuck::Unknown)?;
        let is_short = until.knots - begun.knots <= MOST_KNOTS;
        let mut tied = self.knots.as_ref().filter(|_| is_short).map(|_| Vec::new());
        self.more += again.tie(&mut self.renamed, Course { part, begun, until }, &mut tied)?;
        self.knots = self.knots.take().zip(tied).map(|(mut all, knots)| {
            let instead_of = begun.knots.to_usize()..until.knots.to_usize();
            all.push(OtherKnots { instead_of, knots });
            all
        });
        Ok(())
    }

    /// Whether something is wrong by then, whatever comes of the colors that decide.
    pub(super) fn fails_by(&self, part: &PartStudy, time: u32) -> bool {
        self.renamed.verdict(part, &(self.since..time)) == Outlook::Fails
    }

    /// When something is wrong up to the end of the part, if that is known.
    pub(super) fn first_wrong(&self, part: &PartStudy) -> Option<u32> {
        match self.renamed.places().is_empty() {
            // Without any other color nothing is mended, wherever it is.
            true => Some(self.since),
            false => self.renamed.first_wrong(part, self.since..part.end),
        }
    }
}

/// Those of which more is known than of others. There are many edits, and few such ones at a time: their places are used again.
#[derive(Debug, Default)]
pub(super) struct TriedEdits {
    all: Vec<Tried>,
    free: Vec<u32>,
}

impl TriedEdits {
    pub(super) fn is_empty(&self) -> bool {
        self.all.len() == self.free.len()
    }

    pub(super) fn add(&mut self, tried: Tried) -> u32 {
        match self.free.pop() {
            Some(place) => {
                self.all[place.to_usize()] = tried;
                place
            }
            None => {
                self.all.push(tried);
                self.all.len().to_u32() - 1
            }
        }
    }

    pub(super) fn get(&self, place: u32) -> &Tried {
        &self.all[place.to_usize()]
    }

    pub(super) fn get_mut(&mut self, place: u32) -> &mut Tried {
        &mut self.all[place.to_usize()]
    }

    pub(super) fn take(&mut self, place: u32) -> Tried {
        self.free.push(place);
        std::mem::take(&mut self.all[place.to_usize()])
    }
}
