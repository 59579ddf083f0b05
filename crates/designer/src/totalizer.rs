//! Counts how many of some literals are true.
//!
//! Source: O. Bailleux and Y. Boufkhad, Efficient CNF Encoding of Boolean Cardinality Constraints, CP 2003. Only the
//! clauses for upper bounds are made, and no count above the one that is known already.

use crate::clauses::Clauses;
use batsat::Lit;

/// By number from 0: true if more than that number of `inputs` are true. There are as many as `most`, or as there are
/// inputs if those are fewer.
pub(crate) fn count_true(inputs: &[Lit], most: usize, clauses: &mut Clauses<'_>) -> Vec<Lit> {
    if inputs.len() < 2 {
        return inputs.iter().copied().take(most).collect();
    }
    let (left, right) = inputs.split_at(inputs.len() / 2);
    let (left, right) = (count_true(left, most, clauses), count_true(right, most, clauses));
    let sums: Vec<Lit> = (0..(left.len() + right.len()).min(most)).map(|_| clauses.variable()).collect();
    for few in 0..=left.len() {
        for more in 0..=right.len() {
            let Some(sum) = (few + more).min(sums.len()).checked_sub(1) else { continue };
            let mut clause = vec![sums[sum]];
            clause.extend(few.checked_sub(1).map(|at| !left[at]));
            clause.extend(more.checked_sub(1).map(|at| !right[at]));
            clauses.add(&clause);
        }
    }
    sums
}
