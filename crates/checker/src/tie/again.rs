//! A single step that picks by color, tied again among strands of other colors.

use super::frame::Frame;
use super::part::{Between, Run, begin_part};
use super::study::{PartStudy, Reading};
use super::{EditTrial, Keep, Limits, Tie};
use crate::facts::Facts;
use crate::resolve::{Script, ThreadId};
use knotwright_band::Tying;
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;

/// What came of a step.
#[derive(Debug, Clone)]
struct TiedAgain {
    /// By position in the range of the step, from which position of it the strand comes that hangs there then.
    from: Box<[u8]>,
    knots: u64,
}

/// Ties steps of one part again. What a step ties rests on the colors in its range alone; so what came of it is remembered.
pub(crate) struct StepsAgain<'a> {
    tie: Tie<'a>,
    /// By step and the colors of its range; `None` if something was wrong.
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

    /// Ties a step from `order`, every strand being of the thread that `thread` says. Which strand hangs at each position then
    /// is written to `tried`. How many knots it takes; `None` if something is wrong.
    pub(crate) fn tie(
        &mut self,
        reading: &'a Reading,
        order: &[u8],
        thread: impl Fn(u8) -> ThreadId,
        tried: &mut Vec<u8>,
    ) -> Option<u64> {
        let (low, high) = reading.begun.within;
        let range = usize::from(low)..usize::from(high) + 1;
        self.colors.clear();
        self.colors.extend(order[range.clone()].iter().map(|&strand| thread(strand)));
        if !self.known[reading.alike].contains_key(&self.colors[..]) {
            let outcome = self.tie_step(reading, order, thread);
            self.known[reading.alike].insert(self.colors[..].into(), outcome);
        }
        let TiedAgain { from, knots } = self.known[reading.alike].get(&self.colors[..])?.as_ref()?;
        tried.clear();
        tried.extend_from_slice(order);
        for (position, from) in range.clone().zip(from) {
            tried[position] = order[range.start + usize::from(*from)];
        }
        Some(*knots)
    }

    fn tie_step(
        &mut self,
        reading: &'a Reading,
        order: &[u8],
        thread: impl Fn(u8) -> ThreadId,
    ) -> Option<TiedAgain> {
        let statement = self.tie.script.source().parsed.tree.statement_at(reading.statement)?;
        let tie = &mut self.tie;
        let (low, high) = reading.begun.within;
        for &strand in order {
            tie.threads[usize::from(strand)] = thread(strand);
        }
        tie.strands = Tying::without_knots(order.len());
        tie.strands.rehang(0, order);
        tie.frame =
            Frame { low: usize::from(low), high: usize::from(high), mirrored: reading.begun.mirrored };
        (tie.spent, tie.unknown, tie.trial) = (0, None, Some(EditTrial::default()));
        let mark = tie.scope.mark();
        reading.names.iter().for_each(|(name, value)| tie.scope.give(name, *value, None));
        let done = tie.statement(statement);
        tie.scope.back(mark);
        let failed = tie.trial.take().is_some_and(|trial| trial.failed);
        if done.is_err() || failed || tie.unknown.is_some() {
            return None;
        }
        let range = usize::from(low)..usize::from(high) + 1;
        let place = |strand: &u8| order[range.clone()].iter().position(|other| other == strand);
        let from = tie.strands.order()[range.clone()].iter().map(|strand| place(strand).map(ToNumber::to_u8));
        Some(TiedAgain { from: from.collect::<Option<_>>()?, knots: tie.strands.tied() })
    }
}
