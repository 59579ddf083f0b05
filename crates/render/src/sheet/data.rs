//! What the sheet's script knows of the band.

use super::NoSheet;
use crate::letters::letters;
use crate::prose::act::{Act, act};
use crate::prose::items::Deed;
use crate::prose::tell::Teller;
use crate::prose::words::fill;
use crate::{Event, Passage, ProseOptions, Script};
use serde::Serialize;

/// More steps are not gone through one at a time.
const MOST_STEPS: usize = 20_000;

/// The band in steps, each in words.
#[derive(Debug, Serialize)]
pub(super) struct Data {
    threads: Vec<Thread>,
    opening: Option<Part>,
    /// The sets that differ.
    sets: Vec<Part>,
    /// Of them, the first that comes again after the last.
    again: usize,
    /// How often a set is tied.
    times: u64,
    closing: Option<Part>,
    /// How the strands hang at the end: by position, the thread.
    end: Vec<u16>,
    words: Words,
}

#[derive(Debug, Serialize)]
struct Thread {
    name: String,
    letter: char,
}

/// An opening, a set or a closing.
#[derive(Debug, Serialize)]
struct Part {
    steps: Vec<Step>,
    /// How the strands hang afterwards.
    after: Vec<u16>,
}

#[derive(Debug, Serialize)]
struct Step {
    text: String,
    /// The heading it stands under.
    #[serde(skip_serializing_if = "Option::is_none")]
    section: Option<String>,
    /// Remarks before it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    notes: Vec<String>,
    /// How the strands hang before it.
    before: Vec<u16>,
    /// The positions of the strands in hand.
    hands: Vec<usize>,
    /// Its number in the picture.
    step: u32,
}

#[derive(Debug, Serialize)]
struct Words {
    set: &'static str,
    opening: &'static str,
    closing: &'static str,
    step: &'static str,
    finished: &'static str,
    hand: &'static str,
    sure: &'static str,
}

impl Data {
    pub(super) fn of(script: &Script, options: &ProseOptions) -> Result<Self, NoSheet> {
        let words = options.language.words();
        let teller = Teller { script, words, counting: options.counting() };
        let different = script.different();
        let all = script.opening.iter().chain(&script.closing).chain(different.sets.iter().copied());
        if all.map(|passage| passage.steps.len()).sum::<usize>() > MOST_STEPS {
            return Err(NoSheet::TooManySteps);
        }
        let part = |passage: &Passage, order: &[u8]| part(&teller, passage, order);
        let end = script.order_before_closing();
        let end = script.closing.as_ref().map_or_else(|| end.clone(), |closing| closing.order_after(&end));
        let names = script.threads.iter().zip(letters(&script.threads));
        let sheet = &words.sheet;
        Ok(Self {
            threads: names.map(|(thread, letter)| Thread { name: thread.name.clone(), letter }).collect(),
            opening: script.opening.as_ref().map(|opening| part(opening, &script.start_order())),
            sets: different.sets.iter().zip(&different.orders).map(|(set, order)| part(set, order)).collect(),
            again: different.comes_again,
            times: script.times,
            closing: script.closing.as_ref().map(|closing| part(closing, &script.order_before_closing())),
            end: script.colors(&end),
            words: Words {
                set: sheet.where_set,
                opening: sheet.where_opening,
                closing: sheet.where_closing,
                step: sheet.step_of,
                finished: sheet.finished,
                hand: sheet.in_hand,
                sure: sheet.begin_again_sure,
            },
        })
    }

    /// As JSON that can stand in an element of HTML: no `<` in it.
    pub(super) fn json(&self) -> String {
        // No map in it has keys that are no strings, and memory takes all.
        let json = serde_json::to_string(self).unwrap_or_default();
        json.replace('<', "\\u003c").replace('\u{2028}', "\\u2028").replace('\u{2029}', "\\u2029")
    }

    /// Of how many sets a box can be ticked.
    pub(super) fn times(&self) -> u64 {
        self.times
    }
}

fn part(teller: &Teller<'_>, passage: &Passage, order: &[u8]) -> Part {
    let mut telling = Telling {
        teller,
        passage,
        colors: teller.script.colors(order),
        hang: (0..order.len()).map(|strand| strand as u8).collect(),
        sections: Vec::new(),
        notes: Vec::new(),
        steps: Vec::new(),
    };
    passage.events.iter().for_each(|event| telling.event(event));
    let after = telling.hanging();
    Part { steps: telling.steps, after }
}

struct Telling<'a> {
    teller: &'a Teller<'a>,
    passage: &'a Passage,
    /// By strand of the passage, its thread.
    colors: Vec<u16>,
    /// By position, which strand of the passage.
    hang: Vec<u8>,
    sections: Vec<&'a str>,
    notes: Vec<String>,
    steps: Vec<Step>,
}

impl<'a> Telling<'a> {
    fn event(&mut self, event: &'a Event) {
        match event {
            Event::Section(title) => self.sections.push(title),
            Event::SectionEnd => {
                self.sections.pop();
            }
            Event::Note(text) => self.notes.push(fill(self.teller.words.note, &[("text", text)])),
            Event::Step(step) => self.step(*step),
            Event::Repeat(_) | Event::Pass | Event::RepeatEnd | Event::Check => {}
        }
    }

    fn thread(&self, strand: u8) -> u16 {
        self.colors.get(usize::from(strand)).copied().unwrap_or(u16::MAX)
    }

    fn hanging(&self) -> Vec<u16> {
        self.hang.iter().map(|strand| self.thread(*strand)).collect()
    }

    fn step(&mut self, step: u32) {
        let index = step as usize;
        let told = act(self.passage, index, self.teller.counting, |strand| self.thread(strand));
        let (Some((act, strand)), Some(range)) = (told, self.passage.ranges.get(index)) else { return };
        let at = self.hang.iter().position(|hanging| *hanging == strand);
        let hands = match (&act, at) {
            (Act::Row(_), _) | (_, None) => Vec::new(),
            (Act::Meet { .. }, Some(at)) => vec![at, at + 1],
            (_, Some(at)) => vec![at],
        };
        let deed = Deed { act, threads: vec![self.thread(strand)], times: 1 };
        self.steps.push(Step {
            text: self.teller.deed(&deed),
            section: (!self.sections.is_empty()).then(|| self.sections.join(" \u{203a} ")),
            notes: std::mem::take(&mut self.notes),
            before: self.hanging(),
            hands,
            step,
        });
        let knots = self.passage.piece.knots().get(range.start as usize..range.end as usize);
        for knot in knots.unwrap_or_default().iter().filter(|knot| knot.kind.swaps()) {
            let gap = usize::from(knot.gap);
            if gap + 1 < self.hang.len() {
                self.hang.swap(gap, gap + 1);
            }
        }
    }
}
