//! A face as clauses.
//!
//! By place and color, a variable says that a strand of that color hangs there; what hangs at a place is the same from
//! one knot there to the next. A knot has a variable that its strands stay where they are, one that it is a turning knot
//! (they stay and their colors differ), and, where a face need not be kept everywhere, one that it is given up.

use crate::clauses::Clauses;
use crate::design::{DesignStart, DesignTask};
use batsat::Lit;

/// What hangs at a place: by color, whether it does.
type Hung = Vec<Lit>;

/// The clauses of a face, and what their variables mean.
pub(crate) struct EncodedFace {
    /// By position at the start, by color.
    start: Vec<Hung>,
    /// By knot, that its strands stay where they are.
    stays: Vec<Lit>,
    /// By knot, that it is a turning knot.
    pub(crate) turning: Vec<Lit>,
    /// By knot that must show a color, that it is given up; empty if none may be.
    pub(crate) given_up: Vec<Lit>,
}

impl EncodedFace {
    /// `colors`: all there are, those of the task by their place among them. `may_give_up`: knots may show another color.
    pub(crate) fn new(
        task: &DesignTask,
        colors: &[u16],
        may_give_up: bool,
        clauses: &mut Clauses<'_>,
    ) -> Self {
        let number = |color: u16| colors.iter().position(|one| *one == color);
        let strands = usize::from(task.face.strands());
        let start: Vec<Hung> = (0..strands).map(|_| make_place(colors.len(), clauses)).collect();
        let mut encoded = Self { start, stays: Vec::new(), turning: Vec::new(), given_up: Vec::new() };
        encoded.begin(task, number, clauses);
        let mut now = encoded.start.clone();
        for knot in task.face.knots() {
            let gap = usize::from(knot.gap);
            let (left, right) = (now[gap].clone(), now[gap + 1].clone());
            let after = (make_place(colors.len(), clauses), make_place(colors.len(), clauses));
            let (stays, turns) = (clauses.variable(), clauses.variable());
            for color in 0..colors.len() {
                let (a, b, c, d) = (left[color], right[color], after.0[color], after.1[color]);
                cross_unless(stays, [a, b, c, d], clauses);
                // Two of one color cross, so that no answer comes twice; otherwise, who stays turns.
                clauses.add(&[!a, !b, !stays]);
                clauses.add(&[!a, b, !stays, turns]);
                clauses.add(&[a, !b, !stays, turns]);
            }
            if let Some(color) = knot.color.and_then(number) {
                let mut seen = vec![left[color], right[color]];
                if may_give_up {
                    let given_up = clauses.variable();
                    encoded.given_up.push(given_up);
                    seen.push(given_up);
                }
                clauses.add(&seen);
            }
            encoded.stays.push(stays);
            encoded.turning.push(turns);
            (now[gap], now[gap + 1]) = after;
        }
        if task.closes {
            for (first, last) in encoded.start.iter().zip(&now) {
                equate(first, last, clauses);
            }
        }
        encoded
    }

    fn begin(&self, task: &DesignTask, number: impl Fn(u16) -> Option<usize>, clauses: &mut Clauses<'_>) {
        match &task.start {
            DesignStart::Free => {}
            DesignStart::Even => {
                for (left, right) in self.start.iter().zip(self.start.iter().rev()) {
                    equate(left, right, clauses);
                }
            }
            DesignStart::Given(given) => {
                for (place, color) in self.start.iter().zip(given) {
                    if let Some(color) = number(*color) {
                        clauses.add(&[place[color]]);
                    }
                }
            }
        }
    }

    /// By position, the number of the color that hangs there at the start.
    pub(crate) fn read_start(&self, clauses: &Clauses<'_>) -> Vec<usize> {
        let color = |place: &Hung| place.iter().position(|color| clauses.is_true(*color)).unwrap_or(0);
        self.start.iter().map(color).collect()
    }

    /// By knot of the face, whether its strands stay where they are.
    pub(crate) fn read_stays(&self, clauses: &Clauses<'_>) -> Vec<bool> {
        self.stays.iter().map(|stays| clauses.is_true(*stays)).collect()
    }
}

/// A place where a strand of exactly one color hangs. Two colors are one variable.
fn make_place(colors: usize, clauses: &mut Clauses<'_>) -> Hung {
    if colors == 2 {
        let one = clauses.variable();
        return vec![one, !one];
    }
    let hung: Hung = (0..colors).map(|_| clauses.variable()).collect();
    clauses.add(&hung);
    for (at, one) in hung.iter().enumerate() {
        hung[at + 1..].iter().for_each(|other| clauses.add(&[!*one, !*other]));
    }
    hung
}

/// Of one color, whether it hangs left and right before and after a knot.
fn cross_unless(stays: Lit, [a, b, c, d]: [Lit; 4], clauses: &mut Clauses<'_>) {
    for (stays, from, to) in [(stays, a, d), (stays, b, c), (!stays, a, c), (!stays, b, d)] {
        clauses.add(&[stays, !from, to]);
        clauses.add(&[stays, from, !to]);
    }
    // Whichever way they go: two alike stay alike. The solver gets further with it.
    for to in [c, d] {
        clauses.add(&[!a, !b, to]);
        clauses.add(&[a, b, !to]);
    }
}

fn equate(one: &Hung, other: &Hung, clauses: &mut Clauses<'_>) {
    for (one, other) in one.iter().zip(other).filter(|(one, other)| one != other) {
        clauses.add(&[!*one, *other]);
        clauses.add(&[*one, !*other]);
    }
}
