//! A passage row by row.
//!
//! This is the one place that says in which row a knot is and what number that row has: the words, the chart, the sheet
//! and the live page all read it here. Rows count from 1 in every opening, set and closing. Knots that lie next to each
//! other are one row, and so is a leader's way across; sections, remarks and joins begin a new row. A row has a knot.

use super::{Event, JoinedStrand, Named, Passage};
use knotwright_band::{Layout, Piece};
use knotwright_numbers::ToNumber;

/// What one comes upon, from the top.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum RowEntry<'a> {
    Section(&'a str),
    SectionEnd,
    Note(&'a str),
    /// A bead is threaded: by step.
    Bead(usize),
    Join(&'a JoinedStrand),
    Row(TiedRow),
}

/// A row of knots.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct TiedRow {
    /// Its number, from 1.
    pub(crate) number: u32,
    /// Its knots, by number in the piece: those of a leader as they are tied, others from left to right.
    pub(crate) knots: Vec<u32>,
    /// The step in which a leader ties it.
    pub(crate) led: Option<usize>,
}

impl Passage {
    /// The passage from the top, in rows. Repeats are not seen in it.
    pub(crate) fn rows(&self) -> Vec<RowEntry<'_>> {
        let mut reading = RowReading { passage: self, entries: Vec::new(), steps: Vec::new(), number: 0 };
        if self.wish.is_some() {
            reading.rows((0..self.piece.knots().len().to_u32()).collect());
        }
        for event in &self.events {
            match event {
                Event::Step(step) => reading.steps.push(step.to_usize()),
                Event::Section(title) => reading.push(RowEntry::Section(title)),
                Event::SectionEnd => reading.push(RowEntry::SectionEnd),
                Event::Note(text) => reading.push(RowEntry::Note(text)),
                Event::Join(join) => reading.push(RowEntry::Join(join)),
                // An order in the midst of rows need not be seen when one ties row by row.
                Event::Repeat(_) | Event::Pass | Event::RepeatEnd | Event::Check => {}
            }
        }
        reading.end_stretch();
        reading.entries
    }
}

impl Passage {
    /// If nothing ties it yet: row by row, the threads that are to be seen; `None` is whatever thread.
    pub(crate) fn wished_rows(&self) -> Vec<Vec<Option<u16>>> {
        let Some(wish) = &self.wish else { return Vec::new() };
        let thread = |knot: &u32| wish.get(knot.to_usize()).copied().flatten();
        let row = |entry: RowEntry<'_>| match entry {
            RowEntry::Row(row) => Some(row.knots.iter().map(thread).collect()),
            RowEntry::Section(_)
            | RowEntry::SectionEnd
            | RowEntry::Note(_)
            | RowEntry::Bead(_)
            | RowEntry::Join(_) => None,
        };
        self.rows().into_iter().filter_map(row).collect()
    }
}

struct RowReading<'a> {
    passage: &'a Passage,
    entries: Vec<RowEntry<'a>>,
    /// Steps that were read and are not in rows yet.
    steps: Vec<usize>,
    /// Of the last row.
    number: u32,
}

impl<'a> RowReading<'a> {
    fn push(&mut self, entry: RowEntry<'a>) {
        self.end_stretch();
        self.entries.push(entry);
    }

    /// Puts the steps that were read into rows. A leader's rows stay as they are.
    fn end_stretch(&mut self) {
        let (steps, passage) = (std::mem::take(&mut self.steps), self.passage);
        let is_led = |step: usize| passage.steps.get(step).is_some_and(|step| step.named == Named::Leader);
        for stretch in steps.chunk_by(|one, other| is_led(*one) == is_led(*other)) {
            let led = stretch.first().is_some_and(|step| is_led(*step));
            if led { stretch.iter().for_each(|step| self.led(*step)) } else { self.bricks(stretch) }
        }
    }

    fn led(&mut self, step: usize) {
        let knots: Vec<u32> = self.passage.knots_of(step).collect();
        self.row(knots, Some(step));
    }

    fn bricks(&mut self, steps: &[usize]) {
        let first = self.entries.len();
        self.rows(steps.iter().flat_map(|step| self.passage.knots_of(*step)).collect());
        for &step in steps {
            self.bead(step, first);
        }
    }

    /// Puts a bead before the first row that ties one of its strands after it; behind all rows if none does.
    fn bead(&mut self, step: usize, first: usize) {
        let Some(Named::Bead { strands, .. }) = self.passage.steps.get(step).map(|step| step.named) else {
            return;
        };
        let (from, before) =
            (self.passage.steps[step].from, self.passage.ranges.get(step).map(|range| range.start));
        let all = self.passage.piece.knots();
        let holds = |knot: &u32| {
            let gap = u16::from(all[knot.to_usize()].gap);
            Some(*knot) >= before && gap + 1 >= u16::from(from) && gap < u16::from(from) + u16::from(strands)
        };
        let is_next =
            |entry: &RowEntry<'_>| matches!(entry, RowEntry::Row(row) if row.knots.iter().any(holds));
        let at = self.entries[first..].iter().position(is_next).map_or(self.entries.len(), |at| first + at);
        self.entries.insert(at, RowEntry::Bead(step));
    }

    /// Knots next to each other, by number.
    fn rows(&mut self, numbers: Vec<u32>) {
        let all = self.passage.piece.knots();
        let tied = numbers.iter().map(|number| (all[number.to_usize()].gap, all[number.to_usize()].kind));
        let Ok(piece) = Piece::tie(self.passage.piece.strands(), tied) else { return };
        let layout = Layout::of(&piece);
        for row in layout
            .sorted(&piece)
            .chunk_by(|one, other| layout.rows[one.to_usize()] == layout.rows[other.to_usize()])
        {
            self.row(row.iter().map(|knot| numbers[knot.to_usize()]).collect(), None);
        }
    }

    fn row(&mut self, knots: Vec<u32>, led: Option<usize>) {
        if !knots.is_empty() {
            self.number += 1;
            self.entries.push(RowEntry::Row(TiedRow { number: self.number, knots, led }));
        }
    }
}
