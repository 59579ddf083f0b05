//! A passage row by row. Headings and remarks stay where they are; within a section knots are told as they lie beside
//! each other, which is one of the orders they can be tied in.

use super::act::{Act, Counting, RowKnot, act};
use super::items::{Deed, Item};
use crate::{Event, Named, Passage, Script};
use knotwright_band::{Layout, Piece};

/// The items of a passage that begins with the strands in `order` (by position, which strand of the band).
pub(super) fn items(script: &Script, passage: &Passage, order: &[u8]) -> Vec<Item> {
    let hang = (0..order.len()).map(|strand| strand as u8).collect();
    let colors = script.colors(order);
    let mut rows =
        Rows { passage, colors, hang, steps: Vec::new(), number: 0, open: vec![Vec::new()], titles: vec![] };
    passage.events.iter().for_each(|event| rows.event(event));
    rows.end_stretch();
    while !rows.titles.is_empty() {
        rows.end_section();
    }
    let mut body = rows.open.pop().unwrap_or_default();
    if !matches!(body.last(), Some(Item::Section { .. } | Item::Look(_))) {
        body.push(rows.look());
    }
    body
}

struct Rows<'a> {
    passage: &'a Passage,
    /// By strand of the passage, its thread.
    colors: Vec<u16>,
    /// By position, which strand of the passage.
    hang: Vec<u8>,
    /// Steps that were read and not yet told.
    steps: Vec<usize>,
    /// The last row.
    number: u64,
    /// Bodies that are open, and the titles of all but the first.
    open: Vec<Vec<Item>>,
    titles: Vec<String>,
}

impl Rows<'_> {
    fn event(&mut self, event: &Event) {
        match event {
            Event::Step(step) => self.steps.push(*step as usize),
            Event::Section(title) => {
                self.end_stretch();
                self.titles.push(title.clone());
                self.open.push(Vec::new());
            }
            Event::SectionEnd => {
                self.end_stretch();
                let look = self.look();
                self.push(look);
                self.end_section();
            }
            Event::Note(text) => {
                self.end_stretch();
                self.push(Item::Note(text.clone()));
            }
            // Rows know no repeats, and an order in their midst need not be seen when one ties row by row.
            Event::Repeat(_) | Event::Pass | Event::RepeatEnd | Event::Check => {}
        }
    }

    fn push(&mut self, item: Item) {
        if let Some(body) = self.open.last_mut() {
            body.push(item);
        }
    }

    fn end_section(&mut self) {
        if let (Some(title), Some(body)) = (self.titles.pop(), self.open.pop()) {
            self.push(Item::Section { title, body });
        }
    }

    fn thread(&self, strand: u8) -> u16 {
        self.colors.get(usize::from(strand)).copied().unwrap_or(u16::MAX)
    }

    fn look(&self) -> Item {
        Item::Look(Some(self.hang.iter().map(|strand| self.thread(*strand)).collect()))
    }

    /// Tells the steps that were read as rows. A leader's rows are told as they are.
    fn end_stretch(&mut self) {
        let steps = std::mem::take(&mut self.steps);
        let is_led =
            |step: &usize| self.passage.steps.get(*step).is_some_and(|step| step.named == Named::Leader);
        let stretches: Vec<Vec<usize>> =
            steps.chunk_by(|one, other| is_led(one) == is_led(other)).map(<[usize]>::to_vec).collect();
        for stretch in stretches {
            let led = stretch.first().is_some_and(is_led_in(self.passage));
            if led { self.led(&stretch) } else { self.bricks(&stretch) }
        }
    }

    fn led(&mut self, steps: &[usize]) {
        for &step in steps {
            let told = act(self.passage, step, Counting::AsWritten, |strand| self.thread(strand));
            if let Some((act @ Act::Lead { .. }, leader)) = told {
                let deed = Deed { act, threads: vec![self.thread(leader)], times: 1 };
                self.push(Item::Do(deed));
            }
            self.walk(step);
        }
    }

    fn bricks(&mut self, steps: &[usize]) {
        let knots: Vec<_> = steps
            .iter()
            .filter_map(|step| self.passage.ranges.get(*step))
            .filter_map(|range| self.passage.piece.knots().get(range.start as usize..range.end as usize))
            .flatten()
            .collect();
        let tied = knots.iter().map(|knot| (knot.gap, knot.kind));
        let Ok(piece) = Piece::tie(self.hang.len(), tied) else { return };
        let layout = Layout::of(&piece);
        let row_knots = knots.iter().map(|knot| RowKnot {
            gap: knot.gap,
            kind: knot.kind,
            thread: self.thread(knot.working),
        });
        let mut placed: Vec<(u64, RowKnot)> =
            layout.rows.iter().map(|row| u64::from(*row)).zip(row_knots).collect();
        placed.sort_by_key(|(row, knot)| (*row, knot.gap));
        for row in placed.chunk_by(|one, other| one.0 == other.0) {
            self.number += 1;
            let knots = row.iter().map(|(_, knot)| *knot).collect();
            let number = self.number;
            self.push(Item::Row { number, knots });
        }
        steps.iter().for_each(|step| self.walk(*step));
    }

    /// Follows the strands through a step.
    fn walk(&mut self, step: usize) {
        let Some(range) = self.passage.ranges.get(step) else { return };
        let knots = self.passage.piece.knots().get(range.start as usize..range.end as usize);
        for knot in knots.unwrap_or_default().iter().filter(|knot| knot.kind.swaps()) {
            let gap = usize::from(knot.gap);
            if gap + 1 < self.hang.len() {
                self.hang.swap(gap, gap + 1);
            }
        }
    }
}

fn is_led_in(passage: &Passage) -> impl Fn(&usize) -> bool + '_ {
    |step| passage.steps.get(*step).is_some_and(|step| step.named == Named::Leader)
}
