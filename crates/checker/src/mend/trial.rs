//! Trying a candidate: the pattern is tied with its edit, and what is wrong then is counted.

use super::candidates::Candidate;
use super::search::Goal;
use super::shape::Blemishes;
use crate::facts::Facts;
use crate::tie::{Limits, Overlay, tie};
use crate::{Checked, Fact, FactKind, Pattern, Place};
use std::mem::{Discriminant, discriminant};
use std::sync::Arc;

/// What all trials of one kind may cost together, in knots and statements.
pub(super) const BUDGET: u64 = 6_000_000;

/// How much more a look at the woven band costs than a tie.
const WEAVING: u64 = 20;

/// What tells one mistake from another.
pub(super) type Fault = (Place, Discriminant<FactKind>);

pub(super) fn fault(fact: &Fact) -> Fault {
    (fact.place, discriminant(&fact.kind))
}

/// What came of a candidate.
#[derive(Debug)]
pub(super) struct Trial {
    pub(super) candidate: Candidate,
    /// What is still wrong.
    pub(super) faults: Vec<Fault>,
    pub(super) closes: bool,
}

/// Where candidates are tried until the budget is used up.
pub(super) struct Workshop<'a> {
    goal: Goal<'a>,
    budget: u64,
}

impl<'a> Workshop<'a> {
    pub(super) fn new(goal: &Goal<'a>) -> Self {
        Self { goal: *goal, budget: BUDGET }
    }

    /// Those candidates after which nothing is wrong, if `keep` wants them too; and whether all could be tried.
    pub(super) fn settle_all(
        &mut self,
        all: &[Candidate],
        keep: impl Fn(&Trial) -> bool,
    ) -> (Vec<Trial>, bool) {
        let mut kept = Vec::new();
        for candidate in all {
            if self.budget < self.goal.cost {
                return (kept, false);
            }
            kept.extend(self.tried(candidate, 0).filter(&keep));
        }
        (kept, true)
    }

    /// Those candidates after which less is wrong than `before`, and nothing new.
    pub(super) fn settle_some(&mut self, all: &[Candidate], before: &[Fault]) -> Vec<Trial> {
        let mut kept = Vec::new();
        for candidate in all {
            if self.budget < self.goal.cost {
                break;
            }
            kept.extend(self.tried(candidate, before.len()).filter(|trial| {
                trial.faults.len() < before.len() && trial.faults.iter().all(|fault| before.contains(fault))
            }));
        }
        kept
    }

    /// Ties the pattern with the candidate's edit. `None` if it comes to no end, or more than `most` is wrong.
    fn tried(&mut self, candidate: &Candidate, most: usize) -> Option<Trial> {
        let mut facts = Facts::default();
        let limits = Limits { facts: most, ..Limits::trial(self.goal.cost) };
        let tied = tie(self.goal.script, Some(&candidate.overlay), limits, &mut facts)?;
        self.budget = self.budget.saturating_sub(tied.cost);
        let faults: Vec<Fault> = facts.into_list().iter().map(fault).collect();
        let closes = tied.closes != Some(false);
        tied.whole.then_some(Trial { candidate: *candidate, faults, closes })
    }

    /// How the band looks that an edit makes. `None` if it cannot be tied, or the budget is used up.
    pub(super) fn blemishes(&mut self, overlay: Option<&Overlay>) -> Option<Blemishes> {
        let cost = WEAVING * self.goal.cost;
        if self.budget < cost {
            return None;
        }
        self.budget -= cost;
        let script = self.goal.script;
        let mut facts = Facts::default();
        let limits = Limits { keep: true, ..Limits::trial(self.goal.cost) };
        let tied = tie(script, overlay, limits, &mut facts)?;
        let closes = tied.closes;
        let pattern = Pattern::new(Arc::clone(script), tied)?;
        let checked = Checked {
            source: script.source(),
            script,
            pattern: Some(&pattern),
            facts: &[],
            closes,
            sound: facts.count() == 0,
        };
        Some(Blemishes::of(&pattern, &checked))
    }
}
