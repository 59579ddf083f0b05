//! One opening, set or closing as the sheet's script knows it, whatever its colors.

use crate::bead::Form;
use crate::hitches::KINDS;
use crate::placed::in_rows;
use crate::prose::act::{Act, describe_act};
use crate::prose::items::{Deed, JoinItem};
use crate::prose::tell::Teller;
use crate::prose::words::fill_in;
use crate::{Event, JoinedStrand, Passage, scene};
use knotwright_band::Kind;
use knotwright_numbers::ToNumber;
use serde::Serialize;

/// How a passage is tied.
#[derive(Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct PassageData {
    /// A number for each knot: its gap times 32, its form times 4, its kind; see [`knot_number`].
    knots: Vec<u32>,
    /// By step, the number of knots that are tied when it is done.
    ends: Vec<u32>,
    /// The steps in which it does not matter which strand works.
    meets: Vec<usize>,
    /// From which step on which heading applies; empty where none does.
    sections: Vec<(usize, String)>,
    /// Remarks before steps.
    notes: Vec<(usize, String)>,
    /// Beads: after how many knots, the leftmost position, how many strands, which bead, in which step.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    beads: Vec<(u32, u8, u8, u16, usize)>,
    /// The steps in which a strand is joined, the strand, and the thread that it goes on with if that is another one.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    joins: Vec<(usize, u8, Option<u16>)>,
    /// If nothing ties it yet: by knot, the thread that is to be seen.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    wished: Vec<u16>,
}

impl PassageData {
    /// Steps that tie nothing, this many.
    pub(super) fn without_knots(steps: usize) -> Self {
        let (knots, ends) = (Vec::new(), vec![0; steps]);
        Self { knots, ends, ..Self::default() }
    }
}

/// What the script reads as one number: `gap * 32 + form * 4 + kind`, form and kind as numbers in [`Form::ALL`] and
/// [`KINDS`].
fn knot_number(gap: u8, form: Form, kind: Kind) -> u32 {
    let at = |found: Option<usize>| found.unwrap_or_default().to_u32();
    let form = at(Form::ALL.iter().position(|known| *known == form));
    u32::from(gap) * 32 + form * 4 + at(KINDS.iter().position(|known| *known == kind))
}

/// A passage, and the sentence of every step when its strands begin with these threads.
pub(super) fn write_passage(
    teller: &Teller<'_>,
    passage: &Passage,
    threads: &[u16],
) -> (PassageData, Vec<String>) {
    let mut telling = Telling {
        teller,
        passage,
        threads: threads.to_vec(),
        joined: 0,
        sections: Vec::new(),
        data: empty(passage),
        texts: Vec::new(),
    };
    passage.events.iter().for_each(|event| telling.event(event));
    if passage.wish.is_some() {
        telling.texts.push(teller.words.wish.to_owned());
        telling.data.ends.push(passage.piece.knots().len().to_u32());
    }
    (telling.data, telling.texts)
}

fn empty(passage: &Passage) -> PassageData {
    let part = passage.part(0);
    let strands: Vec<u8> = (0..=u8::MAX).take(passage.piece.strands()).collect();
    // Forms do not depend on rows.
    let placed = in_rows(&part, 0, &vec![0; passage.piece.knots().len()], &strands);
    let number = |knot: &crate::placed::Placed| knot_number(knot.gap, scene::form_of(knot), knot.kind);
    PassageData {
        knots: placed.iter().map(number).collect(),
        wished: placed.iter().filter_map(|knot| knot.wished).collect(),
        ..PassageData::default()
    }
}

struct Telling<'a> {
    teller: &'a Teller<'a>,
    passage: &'a Passage,
    /// By strand of the passage, its thread now.
    threads: Vec<u16>,
    /// How many strands were joined so far.
    joined: usize,
    /// The headings that are open.
    sections: Vec<&'a str>,
    data: PassageData,
    texts: Vec<String>,
}

impl<'a> Telling<'a> {
    fn event(&mut self, event: &'a Event) {
        match event {
            Event::Section(title) => {
                self.sections.push(title);
                self.headed();
            }
            Event::SectionEnd => {
                self.sections.pop();
                self.headed();
            }
            Event::Note(text) => {
                let note = fill_in(self.teller.words.note, &[("text", text)]);
                self.data.notes.push((self.texts.len(), note));
            }
            Event::Step(step) => self.step(*step),
            Event::Join(join) => self.join(join),
            Event::Repeat(_) | Event::Pass | Event::RepeatEnd | Event::Check => {}
        }
    }

    /// The strand of the passage that hangs at a position when this many knots are tied.
    fn at(&self, knots: u32, position: u8) -> u8 {
        let (mut at, all) = (position, self.passage.piece.knots());
        // Back through the knots to where it began.
        for knot in all[..knots.to_usize().min(all.len())].iter().rev().filter(|knot| knot.kind.swaps()) {
            at = match at {
                at if at == knot.gap => at + 1,
                at if at == knot.gap + 1 => at - 1,
                at => at,
            };
        }
        at
    }

    /// The heading changes before the next step.
    fn headed(&mut self) {
        let heading = (self.texts.len(), self.sections.join(" \u{203a} "));
        if self.data.sections.last().is_some_and(|(step, _)| *step == heading.0) {
            self.data.sections.pop();
        }
        self.data.sections.push(heading);
    }

    fn join(&mut self, join: &JoinedStrand) {
        let Some(strand) = self.passage.piece.joins().get(self.joined).map(|join| join.strand) else {
            return;
        };
        self.joined += 1;
        let Some(at) = self.threads.get_mut(usize::from(strand)) else { return };
        let before = std::mem::replace(at, join.thread.unwrap_or(*at));
        let item = JoinItem::of(join, self.passage.piece.strands(), before, self.teller.counting);
        self.data.joins.push((self.texts.len(), strand, join.thread));
        self.data.ends.push(self.data.ends.last().copied().unwrap_or_default());
        self.texts.push(self.teller.join(&item));
    }

    fn step(&mut self, step: u32) {
        let index = step.to_usize();
        let thread = |strand: u8| self.threads.get(usize::from(strand)).copied().unwrap_or(u16::MAX);
        let described = describe_act(self.passage, index, self.teller.counting, thread);
        let (Some((act, strand)), Some(range)) = (described, self.passage.ranges.get(index)) else { return };
        if matches!(act, Act::Meet { .. }) {
            self.data.meets.push(self.texts.len());
        }
        let mut strand = strand;
        if let Act::Thread { bead, places } = &act {
            self.data.beads.push((range.start, strand, places.len().to_u8(), *bead, self.texts.len()));
            strand = self.at(range.start, strand);
        }
        let deed = Deed { act, threads: vec![thread(strand)], times: 1 };
        self.texts.push(self.teller.deed(&deed));
        self.data.ends.push(range.end);
    }
}
