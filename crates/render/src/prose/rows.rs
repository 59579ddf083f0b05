//! A passage row by row. Headings and remarks stay where they are; within a section knots are described as they lie
//! next to each other, which is one of the orders they can be tied in.

use super::act::{Act, CountFrom, RowKnot, describe_act};
use super::items::{Deed, Item, JoinItem};
use crate::script::{RowEntry, TiedRow};
use crate::{JoinedStrand, Passage};
use knotwright_numbers::ToNumber;

/// The items of a passage that begins with these threads, by position.
pub(super) fn list_items(passage: &Passage, threads: &[u16], counting: CountFrom) -> Vec<Item> {
    let hang = (0..threads.len()).map(|strand| strand.to_u8()).collect();
    let colors = threads.to_vec();
    let mut rows = Rows { passage, counting, colors, hang, open: vec![Vec::new()], titles: vec![] };
    passage.rows().into_iter().for_each(|entry| rows.entry(entry));
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
    /// From which side beads are counted.
    counting: CountFrom,
    /// By strand of the passage, its thread now.
    colors: Vec<u16>,
    /// By position, which strand of the passage.
    hang: Vec<u8>,
    /// Bodies that are open, and the titles of all but the first.
    open: Vec<Vec<Item>>,
    titles: Vec<String>,
}

impl Rows<'_> {
    fn entry(&mut self, entry: RowEntry<'_>) {
        match entry {
            RowEntry::Section(title) => {
                self.titles.push(title.to_owned());
                self.open.push(Vec::new());
            }
            RowEntry::SectionEnd => {
                let look = self.look();
                self.push(look);
                self.end_section();
            }
            RowEntry::Note(text) => self.push(Item::Note(text.to_owned())),
            RowEntry::Bead(step) => {
                let act = describe_act(self.passage, step, self.counting, |strand| self.thread(strand));
                if let Some((act, position)) = act {
                    let strand = self.hang.get(usize::from(position)).copied().unwrap_or(u8::MAX);
                    self.push(Item::Do(Deed { act, threads: vec![self.thread(strand)], times: 1 }));
                }
            }
            RowEntry::Join(join) => self.join(join),
            RowEntry::Row(row) => {
                match row.led {
                    Some(step) => self.led(step),
                    None => self.bricks(&row),
                }
                self.walk(&row);
            }
        }
    }

    fn push(&mut self, item: Item) {
        if let Some(body) = self.open.last_mut() {
            body.push(item);
        }
    }

    fn join(&mut self, join: &JoinedStrand) {
        let Some(&strand) = self.hang.get(usize::from(join.at)) else { return };
        let before = self.thread(strand);
        let item = JoinItem::of(join, self.hang.len(), before, CountFrom::AsWritten);
        self.push(Item::Join(JoinItem { is_step: false, ..item }));
        if let (Some(thread), Some(at)) = (join.thread, self.colors.get_mut(usize::from(strand))) {
            *at = thread;
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

    fn led(&mut self, step: usize) {
        let act_and_strand =
            describe_act(self.passage, step, CountFrom::AsWritten, |strand| self.thread(strand));
        if let Some((act @ Act::Lead { .. }, leader)) = act_and_strand {
            self.push(Item::Do(Deed { act, threads: vec![self.thread(leader)], times: 1 }));
        }
    }

    fn bricks(&mut self, row: &TiedRow) {
        let all = self.passage.piece.knots();
        let knots = row.knots.iter().map(|number| all[number.to_usize()]).map(|knot| RowKnot {
            gap: knot.gap,
            kind: knot.kind,
            thread: self.thread(knot.working),
        });
        let item = Item::Row { number: row.number.into(), knots: knots.collect() };
        self.push(item);
    }

    /// Follows the strands through a row.
    fn walk(&mut self, row: &TiedRow) {
        let all = self.passage.piece.knots();
        for knot in row.knots.iter().map(|number| all[number.to_usize()]).filter(|knot| knot.kind.swaps()) {
            let gap = usize::from(knot.gap);
            if gap + 1 < self.hang.len() {
                self.hang.swap(gap, gap + 1);
            }
        }
    }
}
