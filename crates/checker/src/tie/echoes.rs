//! Where a band goes on as it did before. What went wrong soon after an edit there goes wrong here, too: the same steps come,
//! among strands of the same colors. So in a long band most edits need not be tried.

use super::study::{PartStudy, Passing};
use crate::Source;
use knotwright_grammar::Span;
use knotwright_grammar::tree::Statement;
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;
use std::hash::Hash;
use std::ops::Range;

/// In a part with fewer steps the edits are tried in no time.
const LEAST: usize = 64;

/// The steps of a part in the order in which they are tied, and where the same steps were tied before.
#[derive(Debug, Default)]
pub(crate) struct Echoes {
    steps: Vec<Step>,
    /// By the byte where it starts, each step that is tied once.
    numbers: HashMap<u32, u32>,
}

/// A step as it is tied once.
#[derive(Debug)]
struct Step {
    /// The byte where it starts.
    start: u32,
    time: u32,
    /// The number of its text.
    text: u32,
    /// The last step before it that is the same.
    before: Option<u32>,
    /// How many steps from this one on are the same as those from the one before.
    alike: u32,
    /// Whether a later one is the same.
    comes_again: bool,
}

/// Where the same was tied before as from a step on.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Echo {
    /// The byte where the step starts that is the same.
    pub(crate) start: u32,
    /// How many steps are the same from there on.
    pub(crate) steps: u32,
}

/// All that decides what comes of a step: in words, the colors by position, and where it is tied. At last, how much time passes
/// until the next one: so nothing else comes between.
#[derive(PartialEq, Eq, Hash)]
struct Class {
    text: u32,
    colors: u32,
    within: (u8, u8),
    mirrored: bool,
    takes: u32,
}

impl Echoes {
    /// Those of the steps that are tied in a stretch of time.
    pub(crate) fn of(source: &Source, part: &PartStudy, time: Range<u32>) -> Self {
        if part.statements_in(&time) < LEAST {
            return Self::default();
        }
        let mut passed: Vec<(Span, Passing)> = Vec::with_capacity(part.statements_in(&time));
        for statement in source.parsed.tree.walk().filter(|statement| is_single(statement)) {
            let times = part.begun.get(&statement.span.start).into_iter().flatten();
            passed.extend(
                times.filter(|begun| time.contains(&begun.time)).map(|&begun| (statement.span, begun)),
            );
        }
        passed.sort_by_key(|(_, begun)| begun.nth);
        let mut steps = Self::steps_of(source, part, &passed);
        // From the last one up: if what follows goes on alike, so does this one.
        for number in (0..steps.len()).rev() {
            let Some(before) = steps[number].before else { continue };
            let next = steps.get(number + 1).filter(|next| next.before == Some(before + 1));
            steps[number].alike = 1 + next.map_or(0, |next| next.alike);
            steps[before.to_usize()].comes_again = true;
        }
        let once = |step: &(u32, &Step)| part.begun.get(&step.1.start).is_some_and(|begun| begun.len() == 1);
        let numbers = (0..).zip(&steps).filter(once).map(|(number, step)| (step.start, number)).collect();
        Self { steps, numbers }
    }

    fn steps_of(source: &Source, part: &PartStudy, passed: &[(Span, Passing)]) -> Vec<Step> {
        let (mut texts, mut hangings) = (HashMap::default(), HashMap::default());
        let (mut classes, mut colors) = (HashMap::default(), Vec::new());
        let mut steps = Vec::with_capacity(passed.len());
        for (number, (span, begun)) in (0..).zip(passed) {
            let ends = passed.get(number.to_usize() + 1).map(|next| next.1.time);
            let known = part.order(begun).zip(ends).filter(|_| !begun.knows_names);
            let text = number_of(&mut texts, span.of(&source.text));
            let class = known.map(|(order, ends)| {
                colors.clear();
                colors.extend(order.iter().map(|&strand| part.threads[usize::from(strand)]));
                Class {
                    text,
                    colors: number_of(&mut hangings, &colors[..]),
                    within: begun.within,
                    mirrored: begun.mirrored,
                    takes: ends - begun.time,
                }
            });
            let before = class.and_then(|class| classes.insert(class, number));
            steps.push(Step {
                start: span.start,
                time: begun.time,
                text,
                before,
                alike: 0,
                comes_again: false,
            });
        }
        steps
    }

    /// Where the same was tied before as from the step on that starts there, if it is tied once, and the other one as well.
    pub(crate) fn before(&self, start: u32) -> Option<Echo> {
        let step = &self.steps[self.numbers.get(&start)?.to_usize()];
        let before = self.steps[step.before?.to_usize()].start;
        self.numbers.contains_key(&before).then_some(Echo { start: before, steps: step.alike })
    }

    /// Whether the steps that start there are written alike, and each is tied once.
    pub(crate) fn are_written_alike(&self, one: u32, other: u32) -> bool {
        let text = |start| Some(self.steps[self.numbers.get(&start)?.to_usize()].text);
        text(one).is_some_and(|one| Some(one) == text(other))
    }

    /// Whether the step that starts there is tied once, and the same is tied later.
    pub(crate) fn comes_again(&self, start: u32) -> bool {
        self.numbers.get(&start).is_some_and(|number| self.steps[number.to_usize()].comes_again)
    }

    /// How many steps are tied, from the one on that starts there, up to the one in which that time comes; `None` if it is not
    /// tied once.
    pub(crate) fn steps_until(&self, start: u32, time: u32) -> Option<u32> {
        let first = *self.numbers.get(&start)?;
        let end = self.steps.partition_point(|step| step.time <= time).to_u32();
        end.checked_sub(first)
    }
}

/// Whether it is tied by itself: what stands in the braces of another one comes as steps of their own.
fn is_single(statement: &Statement) -> bool {
    statement.node.block().is_none()
}

/// The number of a thing that may come again and again.
fn number_of<T: Eq + Hash + ?Sized>(numbers: &mut HashMap<Box<T>, u32>, thing: &T) -> u32
where
    Box<T>: for<'t> From<&'t T>,
{
    let next = numbers.len().to_u32();
    numbers.get(thing).copied().unwrap_or_else(|| *numbers.entry(thing.into()).or_insert(next))
}
