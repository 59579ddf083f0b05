//! From a statement to the steps that were tied from it.

use knotwright_checker::{FileId, PartKind, Pattern, Step};
use knotwright_grammar::Span;
use std::collections::HashMap;

/// The steps of one statement of the checked file: a `take`, a `then`, a `meet`, a row of a chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct TiedMoment {
    /// Where it is written.
    pub(crate) span: Span,
    /// In which part it is tied first.
    pub(crate) part: PartKind,
    /// The first of its steps in that part.
    pub(crate) step: u32,
    /// How many steps of all parts were tied from it.
    pub(crate) times: u32,
}

/// The moments of a file, in order of place.
#[derive(Debug, Default)]
pub(crate) struct Moments {
    list: Vec<TiedMoment>,
}

impl Moments {
    /// Goes once over all steps of a pattern.
    pub(crate) fn of(pattern: Option<&Pattern>) -> Self {
        let mut found: HashMap<Span, TiedMoment> = HashMap::new();
        let parts = pattern.into_iter().flat_map(Pattern::parts);
        for (which, part) in parts {
            for (step_number, step) in (0_u32..).zip(&part.steps).filter(|(_, step)| is_here(step)) {
                let first = TiedMoment { span: step.place.span, part: which, step: step_number, times: 0 };
                found.entry(step.place.span).or_insert(first).times += 1;
            }
        }
        let mut list: Vec<TiedMoment> = found.into_values().collect();
        list.sort_unstable_by_key(|moment| moment.span);
        Self { list }
    }

    /// The moment written around `offset`.
    pub(crate) fn at(&self, offset: u32) -> Option<&TiedMoment> {
        let before = &self.list[..self.list.partition_point(|moment| moment.span.start <= offset)];
        before.last().filter(|moment| moment.span.touches(offset))
    }

    /// The moment that begins at `start`.
    pub(crate) fn from(&self, start: u32) -> Option<&TiedMoment> {
        let at = self.list.partition_point(|moment| moment.span.start < start);
        self.list.get(at).filter(|moment| moment.span.start == start)
    }

    /// Those that are within `span`.
    pub(crate) fn within(&self, span: Span) -> &[TiedMoment] {
        let first = self.list.partition_point(|moment| moment.span.start < span.start);
        let last = self.list.partition_point(|moment| moment.span.start < span.end);
        &self.list[first..last.max(first)]
    }
}

fn is_here(step: &Step) -> bool {
    step.place.file == FileId::CHECKED
}
