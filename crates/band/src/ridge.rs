//! Three unknown figures from measured sums.
//!
//! What was measured is a sum of three parts, each a figure times a known count. Least squares find the figures. People
//! measure little, and what they measure is often alike, so plain least squares would give figures far from any that a
//! person has; each figure is therefore drawn to what a model says (ridge regression). All is relative: a part of what was
//! measured, and a multiple of the model's figure. Three equations are solved by hand: a library of linear algebra would be
//! more to read.

/// The normal equations of what was measured so far. The unknowns are multiples of the model's three figures.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Ridge {
    matrix: [[f64; 3]; 3],
    right: [f64; 3],
}

impl Ridge {
    /// Nothing is measured, and all is as the model says. `trust`: the square of how far off a measurement is over how far
    /// off the model is, both as parts of what they say.
    pub(crate) fn new(trust: f64) -> Self {
        let mut matrix = [[0.0; 3]; 3];
        (0..3).for_each(|at| matrix[at][at] = trust);
        Self { matrix, right: [trust; 3] }
    }

    /// Adds something measured: which parts of it the model's three figures would make up.
    pub(crate) fn add(&mut self, parts: [f64; 3]) {
        for ((row, right), of_row) in self.matrix.iter_mut().zip(&mut self.right).zip(parts) {
            row.iter_mut().zip(parts).for_each(|(sum, part)| *sum += of_row * part);
            *right += of_row;
        }
    }

    /// What to multiply the model's figures by.
    pub(crate) fn solve(&self) -> [f64; 3] {
        self.solve_for(self.right)
    }

    /// How sure something is that is made up of these parts: the product of the parts, the inverse of the matrix and the
    /// parts. Times the square of how far off a measurement is, it is the square of how far off what is computed may be.
    pub(crate) fn spread(&self, parts: [f64; 3]) -> f64 {
        self.solve_for(parts).iter().zip(parts).map(|(solved, part)| solved * part).sum()
    }

    /// Solves the equations, which are positive definite, by elimination.
    fn solve_for(&self, right: [f64; 3]) -> [f64; 3] {
        let (mut matrix, mut right) = (self.matrix, right);
        for pivot in 0..3 {
            let by = matrix[pivot][pivot];
            let of_pivot = matrix[pivot].map(|value| value / by);
            let of_right = right[pivot] / by;
            (matrix[pivot], right[pivot]) = (of_pivot, of_right);
            for at in (0..3).filter(|at| *at != pivot) {
                let times = matrix[at][pivot];
                matrix[at].iter_mut().zip(of_pivot).for_each(|(value, own)| *value -= times * own);
                right[at] -= times * of_right;
            }
        }
        right
    }
}
