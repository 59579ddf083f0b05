//! The solver of clauses, behind a door of its own.

use batsat::{Callbacks, Lit, Solver, SolverInterface, SolverOpts, lbool};

/// Asks whether to stop.
struct Until<'a>(&'a dyn Fn() -> bool);

impl Callbacks for Until<'_> {
    fn stop(&self) -> bool {
        self.0()
    }
}

/// What the solver says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Verdict {
    /// There is an answer; read it with [`Clauses::is_true`].
    Found,
    /// There is none.
    None,
    /// It was stopped before it knew.
    Stopped,
}

/// Variables and clauses. It tries `false` first for each variable, so a variable says what is to be avoided.
pub(crate) struct Clauses<'a> {
    solver: Solver<Until<'a>>,
    clause: Vec<Lit>,
}

impl<'a> Clauses<'a> {
    /// None yet; `stop` is asked now and then.
    pub(crate) fn new(stop: &'a dyn Fn() -> bool) -> Self {
        Self { solver: Solver::new(SolverOpts::default(), Until(stop)), clause: Vec::new() }
    }

    /// A new variable.
    pub(crate) fn variable(&mut self) -> Lit {
        Lit::new(self.solver.new_var_default(), true)
    }

    /// One of these must be true.
    pub(crate) fn add(&mut self, clause: &[Lit]) {
        self.clause.clear();
        self.clause.extend_from_slice(clause);
        self.solver.add_clause_reuse(&mut self.clause);
    }

    /// Looks for an answer in which all of these are true.
    pub(crate) fn solve(&mut self, assumed: &[Lit]) -> Verdict {
        match self.solver.solve_limited(assumed) {
            found if found == lbool::TRUE => Verdict::Found,
            none if none == lbool::FALSE => Verdict::None,
            _ => Verdict::Stopped,
        }
    }

    /// Whether it is true in the answer that was found last.
    pub(crate) fn is_true(&self, literal: Lit) -> bool {
        self.solver.value_lit(literal) == lbool::TRUE
    }
}
