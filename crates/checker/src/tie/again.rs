//! A single step that picks by color, tied again among strands of other colors.

use super::frame::Frame;
use super::part::{Between, Run, begin_part};
use super::study::{PartStudy, Reading};
use super::{EditTrial, Keep, Limits, Tie};
use crate::facts::Facts;
use crate::resolve::{Script, ThreadId};
use knotwright_band::Tying;
use rustc_hash::FxHashMap as HashMap;

/// What came of a step.
#[derive(Debug, Clone)]
struct TiedAgain {
    /// How the strands of its range hang then, as they are seen from within.
    colors: Box<[ThreadId]>,
    knots: u64,
}

/// Ties steps of one part again. What a step ties rests on the colors in its range alone; so what came of it is remembered.
pub(crate) struct StepsAgain<'a> {
    tie: Tie<'a>,
    /// By step and the colors of its range, as they are seen from within; `None` if something was wrong.
    known: Vec<HashMap<Box<[ThreadId]>, Option<TiedAgain>>>,
    colors: Vec<ThreadId>,
}

impl<'a> StepsAgain<'a> {
    pub(crate) fn new(
        script: &'a Script,
        part: &'a PartStudy,
        limits: Limits<'a>,
        facts: &'a mut Facts,
    ) -> Self {
        let run = Run { script, overlay: None, limits: Limits { keep: Keep::Order, ..limits }, from: None };
        let tie = begin_part(&run, facts, &Between::plain(part.threads.clone()));
        let known = vec![HashMap::default(); part.readings.len()];
        Self { tie, known, colors: Vec::new() }
    }

    /// Ties a step where without an edit the strands hang in that order; now they are of these colors, by position, and then of
    /// those after it. How many knots it takes; `None` if something is wrong.
    pub(crate) fn tie(&mut self, reading: &'a Reading, order: &[u8], colors: &mut [ThreadId]) -> Option<u64> {
        let (low, high) = reading.begun.within;
        let range = usize::from(low)..usize::from(high) + 1;
        self.colors.clear();
        self.colors.extend_from_slice(&colors[range.clone()]);
        if reading.begun.mirrored {
            self.colors.reverse();
        }
        if !self.known[reading.alike].contains_key(&self.colors[..]) {
            let outcome = self.tie_step(reading, order, colors);
            self.known[reading.alike].insert(self.colors[..].into(), outcome);
        }
        let tied = self.known[reading.alike].get(&self.colors[..])?.as_ref()?;
        colors[range.clone()].copy_from_slice(&tied.colors);
        if reading.begun.mirrored {
            colors[range].reverse();
        }
        Some(tied.knots)
    }

    fn tie_step(&mut self, reading: &'a Reading, order: &[u8], colors: &[ThreadId]) -> Option<TiedAgain> {
        let statement = self.tie.script.source().parsed.tree.statement_at(reading.statement)?;
        let tie = &mut self.tie;
        let (low, high) = reading.begun.within;
        let range = usize::from(low)..usize::from(high) + 1;
        for (&strand, &thread) in order.iter().zip(colors) {
            tie.threads[usize::from(strand)] = thread;
        }
        tie.strands = Tying::hanging_without_knots(order);
        tie.frame = Frame { low: range.start, high: range.end - 1, mirrored: reading.begun.mirrored };
        (tie.spent, tie.unknown, tie.trial) = (0, None, Some(EditTrial::default()));
        let mark = tie.scope.mark();
        reading.names.iter().for_each(|(name, value)| tie.scope.give(name, *value, None));
        let done = tie.statement(statement);
        tie.scope.back(mark);
        let failed = tie.trial.take().is_some_and(|trial| trial.failed);
        if done.is_err() || failed || tie.unknown.is_some() {
            return None;
        }
        let mut colors: Box<[ThreadId]> = range.map(|position| tie.thread_at(position)).collect();
        if reading.begun.mirrored {
            colors.reverse();
        }
        Some(TiedAgain { colors, knots: tie.strands.tied() })
    }
}
