//! The fewest knots given up, then the fewest turning knots: each answer asks for a better one, until there is none.

use crate::clauses::{Clauses, Verdict};
use crate::design::{DesignEnd, DesignTask, DesignWatch, Designed, look_at_answer};
use crate::encoded::EncodedFace;
use crate::totalizer::count_true;
use batsat::Lit;

/// Looks for the answer with clauses.
pub(crate) fn find_least(task: &DesignTask, colors: &[u16], watch: &mut DesignWatch<'_>) -> DesignEnd {
    let mut search = ClauseSearch::new(task, colors, false, watch.stop);
    match search.first(watch) {
        Verdict::Found => {
            let is_least = search.lower(Goal::Turning, watch);
            search.end(true, is_least).map_or(DesignEnd::Stopped, DesignEnd::Tied)
        }
        Verdict::None => DesignEnd::Cannot(find_nearest(task, colors, watch)),
        Verdict::Stopped => DesignEnd::Stopped,
    }
}

fn find_nearest(task: &DesignTask, colors: &[u16], watch: &mut DesignWatch<'_>) -> Option<Designed> {
    let mut search = ClauseSearch::new(task, colors, true, watch.stop);
    if search.first(watch) != Verdict::Found {
        return None;
    }
    let is_fewest = search.lower(Goal::GivenUp, watch);
    let is_least = is_fewest && search.lower(Goal::Turning, watch);
    search.end(is_fewest, is_least)
}

/// What is to become fewer.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Goal {
    GivenUp,
    Turning,
}

struct ClauseSearch<'a> {
    task: &'a DesignTask,
    colors: &'a [u16],
    clauses: Clauses<'a>,
    encoded: EncodedFace,
    best: Option<Designed>,
}

impl<'a> ClauseSearch<'a> {
    fn new(task: &'a DesignTask, colors: &'a [u16], may_give_up: bool, stop: &'a dyn Fn() -> bool) -> Self {
        let mut clauses = Clauses::new(stop);
        let encoded = EncodedFace::new(task, colors, may_give_up, &mut clauses);
        Self { task, colors, clauses, encoded, best: None }
    }

    fn first(&mut self, watch: &mut DesignWatch<'_>) -> Verdict {
        let verdict = self.clauses.solve(&[]);
        if verdict == Verdict::Found {
            self.take(watch);
        }
        verdict
    }

    /// Takes the answer that was found, if it is better.
    fn take(&mut self, watch: &mut DesignWatch<'_>) {
        let start =
            self.encoded.read_start(&self.clauses).into_iter().map(|color| self.colors[color]).collect();
        let found = look_at_answer(self.task, start, &self.encoded.read_stays(&self.clauses));
        if self.best.as_ref().is_none_or(|best| found.cost() < best.cost()) {
            (watch.better)(&found);
            self.best = Some(found);
        }
    }

    /// Asks for fewer until there are none, which is then kept as a bound; `false` if it was stopped before.
    fn lower(&mut self, goal: Goal, watch: &mut DesignWatch<'_>) -> bool {
        let inputs = match goal {
            Goal::GivenUp => &self.encoded.given_up,
            Goal::Turning => &self.encoded.turning,
        };
        // One more than there are now: later, it keeps them from becoming more.
        let counted = count_true(inputs, self.now(goal) + 1, &mut self.clauses);
        // If there are none, or nothing is counted, there are no fewer.
        let bound = |now: usize| counted.get(now.checked_sub(1)?).map(|more| !*more);
        while let Some(bound) = bound(self.now(goal)) {
            match self.clauses.solve(&[bound]) {
                Verdict::Found => {
                    let before = self.now(goal);
                    self.take(watch);
                    if self.now(goal) >= before {
                        return false;
                    }
                }
                Verdict::None => break,
                Verdict::Stopped => return false,
            }
        }
        self.keep(&counted, self.now(goal));
        true
    }

    /// From now on, no more than this.
    fn keep(&mut self, counted: &[Lit], most: usize) {
        for more in counted.iter().skip(most) {
            self.clauses.add(&[!*more]);
        }
    }

    fn now(&self, goal: Goal) -> usize {
        self.best.as_ref().map_or(0, |best| match goal {
            Goal::GivenUp => best.given_up.len(),
            Goal::Turning => best.turning,
        })
    }

    fn end(self, is_fewest_given_up: bool, is_least: bool) -> Option<Designed> {
        self.best.map(|best| Designed { is_fewest_given_up, is_least, ..best })
    }
}
