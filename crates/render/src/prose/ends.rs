//! The beginning and the end of a band in words: what is made of the strands before the first knot and after the last.

use super::document::{ProseBlock, ProseDocument};
use super::end_hows::EndHow;
use super::tell::{Teller, capitalize};
use super::words::fill_in;
use crate::StrandStart;
use crate::made::{HangingFree, without_tassel};
use knotwright_band::ends::{EndWork, has_tassel, share_out, without_closure};
use knotwright_numbers::ToNumber;
use std::collections::BTreeSet;

/// What is done at an end, and what is done with each of its parts.
pub(crate) struct EndStep {
    text: String,
    /// What of it is explained.
    hows: BTreeSet<EndHow>,
    within: Vec<EndStep>,
}

impl EndStep {
    fn of(text: &str) -> Self {
        Self { text: text.to_owned(), hows: BTreeSet::new(), within: Vec::new() }
    }

    /// What is explained of it and of what is done with each part.
    pub(crate) fn hows(&self) -> BTreeSet<EndHow> {
        let within = self.within.iter().flat_map(Self::hows);
        self.hows.iter().copied().chain(within).collect()
    }
}

/// How the band begins: step by step; nothing, if the pattern does not say it.
pub(crate) fn begin_steps(teller: &Teller<'_>) -> Vec<EndStep> {
    let Some(works) = &teller.script.made.begin else { return Vec::new() };
    let is_folded = teller.script.start != StrandStart::Loose;
    let words = &teller.words.ends;
    // What is trimmed can no longer be tied.
    let is_tied_later = teller.script.made.finish.iter().flatten().any(|work| *work == EndWork::ClosingKnot);
    let telling = Telling { teller, is_folded, is_part: false, is_tied_later };
    let first = if is_folded { words.gather_folded } else { words.gather };
    let rest = telling.works(works, &[teller.script.strands.len()]);
    std::iter::once(EndStep::of(first)).chain(rest).collect()
}

/// How it ends.
pub(crate) fn finish_steps(teller: &Teller<'_>) -> Vec<EndStep> {
    let made = &teller.script.made;
    let Some(works) = &made.finish else { return Vec::new() };
    let telling = Telling { teller, is_folded: false, is_part: false, is_tied_later: false };
    let all = [teller.script.strands.len()];
    let (before, closures) = works.split_at(without_closure(works).len());
    // What is trimmed can no longer be tied, and what closes the band goes around what hangs free.
    let (tied, hanging) = match closures {
        [] => (before.to_vec(), None),
        _ => without_tassel(before),
    };
    let mut steps = telling.works(&tied, &all);
    steps.extend(telling.works(closures, &all));
    steps.extend(hanging.map(|hanging| telling.hanging(hanging)));
    if closures.contains(&EndWork::ClosingKnot) && made.begin.as_deref().is_some_and(has_tassel) {
        steps.push(EndStep::of(teller.words.ends.tassel_begun));
    }
    if !has_tassel(before) {
        steps.push(EndStep::of(teller.words.ends.trim));
    }
    steps
}

/// What an end offers to what closes the band.
struct ClosingEnd {
    /// Whether something can be put through it.
    has_loop: bool,
    /// In how many parts it ends.
    parts: usize,
    /// Whether its tip cannot slip out of what goes around it.
    is_held: bool,
}

impl ClosingEnd {
    /// `is_begin`: the works go from the tip to the band, not from the band to the tip.
    fn of(works: &[EndWork], is_begin: bool) -> Self {
        let mut end = Self { has_loop: false, parts: 1, is_held: false };
        for at in 0..works.len() {
            let work = if is_begin { &works[works.len() - 1 - at] } else { &works[at] };
            match work {
                EndWork::Split { parts, works } => {
                    end.parts = usize::from(*parts);
                    end.is_held = Self::of(works, is_begin).is_held;
                }
                EndWork::Loop { .. } => (end.has_loop, end.is_held) = (true, true),
                EndWork::Knot => (end.parts, end.is_held) = (1, true),
                EndWork::Plait { .. } | EndWork::Twist { .. } => (end.parts, end.is_held) = (1, false),
                EndWork::Wrap { .. } => end.parts = 1,
                EndWork::Bead { .. }
                | EndWork::Tassel { .. }
                | EndWork::ClosingKnot
                | EndWork::Slide { .. } => {}
            }
        }
        end
    }
}

/// Each as one text: what is done with parts has numbers of its own.
pub(crate) fn as_steps(steps: &[EndStep]) -> Vec<String> {
    steps.iter().map(|step| in_one(step, "")).collect()
}

fn in_one(step: &EndStep, above: &str) -> String {
    let inner = (1_u32..).zip(&step.within).map(|(number, step)| {
        let number = format!("{above}{number}");
        format!(" ({number}) {}", in_one(step, &format!("{number}.")))
    });
    format!("{}{}", step.text, inner.collect::<String>())
}

/// How the band begins, under a heading of its own.
pub(crate) fn write_begin(teller: &Teller<'_>, document: &mut ProseDocument) {
    let steps = begin_steps(teller);
    if !steps.is_empty() {
        document.push(ProseBlock::Heading(2, teller.words.ends.begin.into()));
        let hows = hows_of(&steps);
        write_steps(steps, 0, document);
        write_hows(teller, &hows, document);
    }
}

/// How the band ends.
pub(crate) fn write_finish(teller: &Teller<'_>, document: &mut ProseDocument) {
    document.push(ProseBlock::Heading(2, teller.words.finish.into()));
    match &teller.script.made.finish {
        None => document.text(teller.words.finish_text),
        Some(_) => {
            let steps = finish_steps(teller);
            // What the beginning explains is known by now.
            let hows = &hows_of(&steps) - &hows_of(&begin_steps(teller));
            write_steps(steps, 0, document);
            write_hows(teller, &hows, document);
        }
    }
}

/// What is explained of some steps.
pub(crate) fn hows_of(steps: &[EndStep]) -> BTreeSet<EndHow> {
    steps.iter().flat_map(EndStep::hows).collect()
}

fn write_hows(teller: &Teller<'_>, hows: &BTreeSet<EndHow>, document: &mut ProseDocument) {
    if !hows.is_empty() {
        document.push(ProseBlock::List(hows.iter().map(|how| teller.explain(*how).to_owned()).collect()));
    }
}

fn write_steps(steps: Vec<EndStep>, depth: usize, document: &mut ProseDocument) {
    for (number, EndStep { text, within, .. }) in (1..).zip(steps) {
        document.push(ProseBlock::Step { depth, number, text });
        write_steps(within, depth + 1, document);
    }
}

/// What to take care of: always, and because of what this band's ends are.
pub(crate) fn list_cautions(teller: &Teller<'_>) -> Vec<&'static str> {
    let made = &teller.script.made;
    let mut works = made.begin.iter().chain(&made.finish).flatten();
    let ends = &teller.words.ends;
    let own = [
        (has_small_beads(teller), teller.words.beads.caution),
        (works.any(EndWork::is_closure), ends.caution_closed),
        (needs_needle(teller), ends.caution_needle),
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

/// Whether a needle is needed: for beads, in whose holes the checker gives it room, or where a thread goes around an end.
pub(crate) fn needs_needle(teller: &Teller<'_>) -> bool {
    let made = &teller.script.made;
    let mut works = made.begin.iter().chain(&made.finish).flatten();
    works.any(is_with_needle) || teller.script.bead_counts().iter().any(|count| *count > 0)
}

fn is_with_needle(work: &EndWork) -> bool {
    match work {
        EndWork::Wrap { .. } | EndWork::Slide { .. } => true,
        EndWork::Split { works, .. } => works.iter().any(is_with_needle),
        EndWork::Knot
        | EndWork::Plait { .. }
        | EndWork::Twist { .. }
        | EndWork::Loop { .. }
        | EndWork::Tassel { .. }
        | EndWork::ClosingKnot => false,
        EndWork::Bead { .. } => true,
    }
}

#[derive(Clone, Copy)]
struct Telling<'a> {
    teller: &'a Teller<'a>,
    is_folded: bool,
    /// Whether it is about one part of the strands.
    is_part: bool,
    /// Whether a closing knot comes after all that is told.
    is_tied_later: bool,
}

impl Telling<'_> {
    fn works(&self, works: &[EndWork], sizes: &[usize]) -> Vec<EndStep> {
        works.iter().map(|work| self.work(work, sizes)).collect()
    }

    /// `sizes`: how many strands hang there; where parts differ, in the larger ones and in the smaller ones.
    fn work(&self, work: &EndWork, sizes: &[usize]) -> EndStep {
        let words = &self.teller.words.ends;
        let text = match work {
            EndWork::Knot => words.knot.to_owned(),
            EndWork::Plait { bundles, length } => {
                let how = match (bundles, self.teller.is_image) {
                    (3, false) => words.plait_three,
                    (3, true) => words.plait_three_mirrored,
                    (_, false) => words.plait_more,
                    (_, true) => words.plait_more_mirrored,
                };
                format!("{} {how}", self.shared(words.plait, usize::from(*bundles), sizes, *length))
            }
            EndWork::Twist { length } => {
                let sentence = if self.teller.is_image { words.twist_mirrored } else { words.twist };
                self.shared(sentence, 2, sizes, *length)
            }
            EndWork::Wrap { thread, turns } => self.wound(words.wrap, *thread, *turns),
            EndWork::Split { parts, works } => {
                let parts = usize::from(*parts);
                let sentence = if works.is_empty() { words.split_only } else { words.split };
                let text = self.shared(sentence, parts, sizes, 0.0);
                let of_part = Telling { is_part: true, ..*self };
                let within = of_part.works(works, &sizes_of_parts(sizes, parts));
                return EndStep { text, hows: BTreeSet::new(), within };
            }
            EndWork::Loop { length } => {
                let sentence = if self.is_folded { words.fold_loop } else { words.back_loop };
                fill_in(sentence, &[("length", &self.length(*length))])
            }
            EndWork::Tassel { length } => {
                let sentence = if self.is_tied_later { words.tassel_later } else { words.tassel };
                fill_in(sentence, &[("length", &self.length(*length))])
            }
            EndWork::Bead { bead, .. } => {
                let beads = &self.teller.words.beads;
                let sentence = if self.is_part { beads.at_part } else { beads.at_end };
                fill_in(sentence, &[("bead", self.teller.bead(*bead))])
            }
            EndWork::ClosingKnot => self.closing_knot(),
            EndWork::Slide { thread, turns } => {
                let tips = match self.closed().map(|end| end.is_held) {
                    [true, true] => words.slide_knotted,
                    [false, false] => words.slide_tips,
                    _ => words.slide_tip,
                };
                format!("{} {tips}", self.wound(words.slide, *thread, *turns))
            }
        };
        let mut hows: BTreeSet<EndHow> = EndHow::of(work).into_iter().collect();
        // Strands that are laid back, and tips that nothing holds yet, are tied.
        let is_tied = match work {
            EndWork::Loop { .. } => !self.is_folded,
            EndWork::Slide { .. } => self.closed().iter().any(|end| !end.is_held),
            _ => false,
        };
        hows.extend(is_tied.then_some(EndHow::Knot));
        EndStep { text, hows, within: Vec::new() }
    }

    /// What is left to hang when the band is closed.
    fn hanging(&self, HangingFree { length, is_of_parts }: HangingFree) -> EndStep {
        let words = &self.teller.words.ends;
        let sentence = if is_of_parts { words.tassel_parts } else { words.tassel };
        let text = fill_in(sentence, &[("length", &self.length(length))]);
        EndStep { text, hows: BTreeSet::from([EndHow::Tassel]), within: Vec::new() }
    }

    /// The beginning and the end of the band.
    fn closed(&self) -> [ClosingEnd; 2] {
        let script = self.teller.script;
        let mut begin = ClosingEnd::of(script.made.begin.as_deref().unwrap_or_default(), true);
        // Without a description, the strands may hang from a loop.
        if script.made.begin.is_none() && matches!(script.start, StrandStart::Loop(_)) {
            (begin.has_loop, begin.is_held) = (true, true);
        }
        [begin, ClosingEnd::of(script.made.finish.as_deref().unwrap_or_default(), false)]
    }

    /// A loop is there for the other end to go through.
    fn closing_knot(&self) -> String {
        let words = &self.teller.words.ends;
        let [begin, finish] = self.closed();
        let through = match (begin.has_loop, finish.has_loop) {
            (true, false) => finish,
            (false, true) => begin,
            _ => return words.closing_knot.to_owned(),
        };
        let sentence = if through.parts == 1 { words.closing_loop } else { words.closing_loop_parts };
        fill_in(sentence, &[("count", &self.teller.number(through.parts.to_u64()))])
    }

    /// A sentence about strands that are shared out.
    fn shared(&self, sentence: &str, into: usize, sizes: &[usize], length: f64) -> String {
        let (teller, words) = (self.teller, &self.teller.words.ends);
        let mut shares: Vec<String> = sizes.iter().map(|strands| self.shares(*strands, into)).collect();
        shares.dedup();
        let shares = match shares.as_slice() {
            [larger, smaller] => fill_in(words.shares_smaller, &[("larger", larger), ("smaller", smaller)]),
            _ => shares.concat(),
        };
        let into = teller.number(into.to_u64());
        let values = [("count", into.as_str()), ("shares", &shares), ("length", &self.length(length))];
        fill_in(sentence, &values)
    }

    /// How many strands each gets, from the side where it begins.
    fn shares(&self, strands: usize, into: usize) -> String {
        let (teller, words) = (self.teller, &self.teller.words.ends);
        let shares: Vec<usize> = share_out(strands, into).collect();
        let each = shares.first().copied().unwrap_or_default();
        if shares.iter().all(|share| *share == each) {
            let each = each.to_u64();
            return fill_in(words.each.of(each), &[("count", &teller.number(each))]);
        }
        let sentence = if teller.is_image { words.shares_mirrored } else { words.shares };
        let shares: Vec<String> = shares.iter().map(ToString::to_string).collect();
        fill_in(sentence, &[("shares", &teller.words.list(&shares))])
    }

    fn wound(&self, sentence: &str, thread: u16, turns: u32) -> String {
        let teller = self.teller;
        let times = (teller.words.times)(u64::from(turns));
        let values =
            [("thread", teller.script.name(thread)), ("times", &times), ("Times", &capitalize(&times))];
        fill_in(sentence, &values)
    }

    fn length(&self, millimeters: f64) -> String {
        self.teller.words.length(&self.teller.script.unit.finished(millimeters))
    }
}

/// How many strands the parts have of strands that are this many: at most two numbers, the larger one first.
fn sizes_of_parts(sizes: &[usize], parts: usize) -> Vec<usize> {
    let mut found: Vec<usize> = sizes.iter().flat_map(|strands| share_out(*strands, parts)).collect();
    found.sort_unstable_by(|one, other| other.cmp(one));
    found.dedup();
    found
}

#[cfg(test)]
mod tests {
    use super::sizes_of_parts;

    #[test]
    fn parts_of_parts_have_two_sizes_at_most() {
        assert_eq!(sizes_of_parts(&[7], 2), [4, 3]);
        assert_eq!(sizes_of_parts(&[4, 3], 2), [2, 1]);
        assert_eq!(sizes_of_parts(&[8], 2), [4]);
        for strands in 2..200 {
            for (first, second) in [(2, 2), (2, 3), (3, 2), (5, 7), (8, 8)] {
                assert!(sizes_of_parts(&sizes_of_parts(&[strands], first), second).len() <= 2);
            }
        }
    }
}
