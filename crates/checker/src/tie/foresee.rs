//! A loop that would run on past every limit is not tied up to there.

use super::log::MOST_EVENTS;
use super::{Done, Tie};
use crate::FactKind;
use knotwright_band::MOST_KNOTS;
use knotwright_grammar::Span;
use knotwright_numbers::ToNumber;

/// After this many passes of a loop it is foreseen what all of them take. What comes before matters not, so that a stretch
/// tied by itself ends as the whole does.
const PASSES: u64 = 1024;

/// How many times over a limit must be exceeded: passes may differ.
const SURELY: u64 = 4;

/// What was spent when a loop began, and where it stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spent {
    here: Span,
    statements: u64,
    knots: u64,
    /// Bytes of steps.
    step_bytes: u64,
    /// What is read aloud, and its bytes: of these no more than [`MOST_EVENTS`] are kept.
    events: u64,
    event_bytes: u64,
}

impl Tie<'_> {
    pub(super) fn spent_so_far(&self) -> Spent {
        let here = self.here;
        let (step_bytes, events) = (self.log.step_bytes(), self.log.events.len().to_u64());
        let (knots, event_bytes) = (self.strands.tied(), self.log.bytes - step_bytes);
        Spent { here, statements: self.spent, knots, step_bytes, events, event_bytes }
    }

    /// Before the pass of that number of a loop of `passes`, which `begun` when that was spent.
    pub(super) fn foresee(&mut self, begun: Spent, pass: u64, passes: u64) -> Done {
        if pass != PASSES {
            return Ok(());
        }
        let now = self.spent_so_far();
        let all = |now: u64, begun: u64| (now - begun).saturating_mul(passes) / PASSES;
        let knots = all(now.knots, begun.knots);
        let events = all(now.events, begun.events).min(MOST_EVENTS.to_u64());
        let each = (now.event_bytes - begun.event_bytes).checked_div(now.events - begun.events).unwrap_or(0);
        let bytes = all(now.step_bytes, begun.step_bytes).saturating_add(events * each);
        let statements = all(now.statements, begun.statements);
        let limits = self.limits;
        // How many times over each limit; the highest is the one that would be met first.
        let exceeded = [
            (bytes / limits.bytes.max(1), FactKind::TooMuchMemory),
            (knots / limits.knots.clamp(1, MOST_KNOTS.to_u64()), FactKind::TooManyKnots),
            (statements / limits.statements.saturating_add(3 * knots).max(1), FactKind::TooManyPasses),
        ];
        let first = exceeded.into_iter().max_by_key(|(times, _)| *times);
        match first.filter(|(times, _)| *times >= SURELY) {
            Some((_, limit)) => {
                self.here = begun.here;
                self.stop(limit)
            }
            None => Ok(()),
        }
    }
}
