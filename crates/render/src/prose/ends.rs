//! The beginning and the end of a band in words: what is made of the strands before the first knot and after the last.

use super::document::{ProseBlock, ProseDocument};
use super::tell::{Teller, capitalize};
use super::words::fill_in;
use crate::StrandStart;
use knotwright_band::ends::{EndWork, has_tassel, share_out, without_closure};
use knotwright_numbers::ToNumber;

/// How the band begins: step by step; nothing, if the pattern does not say it.
pub(crate) fn begin_steps(teller: &Teller<'_>) -> Vec<String> {
    let Some(works) = &teller.script.made.begin else { return Vec::new() };
    let is_folded = teller.script.start != StrandStart::Loose;
    let words = &teller.words.ends;
    let telling = Telling { teller, is_folded };
    let first = if is_folded { words.gather_folded } else { words.gather };
    let rest = works.iter().map(|work| telling.work(work, teller.script.strands.len()));
    std::iter::once(first.to_owned()).chain(rest).collect()
}

/// How it ends.
pub(crate) fn finish_steps(teller: &Teller<'_>) -> Vec<String> {
    let Some(works) = &teller.script.made.finish else { return Vec::new() };
    let telling = Telling { teller, is_folded: false };
    let told = |works: &[EndWork]| {
        works.iter().map(|work| telling.work(work, teller.script.strands.len())).collect::<Vec<_>>()
    };
    let made = without_closure(works);
    let mut steps = told(made);
    if !has_tassel(made) {
        steps.push(teller.words.ends.trim.to_owned());
    }
    steps.extend(told(&works[made.len()..]));
    steps
}

/// How the band begins, under a heading of its own.
pub(crate) fn write_begin(teller: &Teller<'_>, document: &mut ProseDocument) {
    let steps = begin_steps(teller);
    if !steps.is_empty() {
        document.push(ProseBlock::Heading(2, teller.words.ends.begin.into()));
        write_steps(steps, document);
    }
}

/// How the band ends.
pub(crate) fn write_finish(teller: &Teller<'_>, document: &mut ProseDocument) {
    document.push(ProseBlock::Heading(2, teller.words.finish.into()));
    match &teller.script.made.finish {
        None => document.text(teller.words.finish_text),
        Some(_) => write_steps(finish_steps(teller), document),
    }
}

fn write_steps(steps: Vec<String>, document: &mut ProseDocument) {
    for (number, text) in (1..).zip(steps) {
        document.push(ProseBlock::Step { depth: 0, number, text });
    }
}

/// What to take care of: always, and because of what this band's ends are.
pub(crate) fn list_cautions(teller: &Teller<'_>) -> Vec<&'static str> {
    let made = &teller.script.made;
    let works = || made.begin.iter().chain(&made.finish).flatten();
    let ends = &teller.words.ends;
    let own = [
        (has_small_beads(teller), teller.words.beads.caution),
        (works().any(EndWork::is_closure), ends.caution_closed),
        (works().any(needs_needle), ends.caution_needle),
    ];
    let own = own.into_iter().filter_map(|(is_so, text)| is_so.then_some(text));
    teller.words.cautions.iter().copied().chain(own).collect()
}

/// Whether it has beads that a small child could swallow: what fits into a cylinder of 31.7 mm is a small part (EN 71-1,
/// 8.2; 16 CFR 1501.4).
fn has_small_beads(teller: &Teller<'_>) -> bool {
    let script = teller.script;
    script.beads.iter().zip(script.bead_counts()).any(|(bead, count)| count > 0 && bead.across < SMALL_PART)
}

/// In millimeters.
pub(crate) const SMALL_PART: f64 = 31.7;

fn needs_needle(work: &EndWork) -> bool {
    match work {
        EndWork::Wrap { .. } | EndWork::Slide { .. } => true,
        EndWork::Split { works, .. } => works.iter().any(needs_needle),
        EndWork::Knot
        | EndWork::Plait { .. }
        | EndWork::Twist { .. }
        | EndWork::Loop { .. }
        | EndWork::Tassel { .. }
        | EndWork::ClosingKnot => false,
        EndWork::Bead { .. } => true,
    }
}

struct Telling<'a> {
    teller: &'a Teller<'a>,
    is_folded: bool,
}

impl Telling<'_> {
    fn work(&self, work: &EndWork, strands: usize) -> String {
        let words = &self.teller.words.ends;
        match work {
            EndWork::Knot => words.knot.to_owned(),
            EndWork::Plait { bundles, length } => {
                let how = if *bundles == 3 { words.plait_three } else { words.plait_more };
                format!("{} {how}", self.shared(words.plait, usize::from(*bundles), strands, *length))
            }
            EndWork::Twist { length } => self.shared(words.twist, 2, strands, *length),
            EndWork::Wrap { thread, turns } => self.wound(words.wrap, *thread, *turns),
            EndWork::Split { parts, works } => {
                let parts = usize::from(*parts);
                let part = strands.div_ceil(parts.max(1));
                let inner: Vec<String> = works.iter().map(|work| self.work(work, part)).collect();
                format!("{} {}", self.shared(words.split, parts, strands, 0.0), inner.join(" "))
            }
            EndWork::Loop { length } => {
                let sentence = if self.is_folded { words.fold_loop } else { words.back_loop };
                fill_in(sentence, &[("length", &self.length(*length))])
            }
            EndWork::Tassel { length } => fill_in(words.tassel, &[("length", &self.length(*length))]),
            EndWork::Bead { bead, .. } => {
                fill_in(self.teller.words.beads.at_end, &[("bead", self.teller.bead(*bead))])
            }
            EndWork::ClosingKnot => words.closing_knot.to_owned(),
            EndWork::Slide { thread, turns } => self.wound(words.slide, *thread, *turns),
        }
    }

    /// A sentence about strands that are shared out.
    fn shared(&self, sentence: &str, into: usize, strands: usize, length: f64) -> String {
        let (teller, words) = (self.teller, &self.teller.words.ends);
        let shares: Vec<usize> = share_out(strands, into).collect();
        let each = shares.first().copied().unwrap_or_default();
        let shares = if shares.iter().all(|share| *share == each) {
            let each = each.to_u64();
            fill_in(words.each.of(each), &[("count", &teller.number(each))])
        } else {
            let shares: Vec<String> = shares.iter().map(ToString::to_string).collect();
            fill_in(words.shares, &[("shares", &teller.words.list(&shares))])
        };
        let into = teller.number(into.to_u64());
        let values = [("count", into.as_str()), ("shares", &shares), ("length", &self.length(length))];
        fill_in(sentence, &values)
    }

    fn wound(&self, sentence: &str, thread: u16, turns: u32) -> String {
        let teller = self.teller;
        let turns = u64::from(turns);
        let times = fill_in(teller.words.ends.times.of(turns), &[("count", &teller.number(turns))]);
        let values =
            [("thread", teller.script.name(thread)), ("times", &times), ("Times", &capitalize(&times))];
        fill_in(sentence, &values)
    }

    fn length(&self, millimeters: f64) -> String {
        self.teller.words.length(&self.teller.script.unit.finished(millimeters))
    }
}
