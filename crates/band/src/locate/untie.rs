//! What to untie when it is known what was tied.

use crate::Knot;
use crate::compare::common_start;
use knotwright_numbers::ToNumber;

/// The knots that must be untied, in the order to untie them, so that nothing is left but what the plan begins with.
/// Numbers are those of `tied`. There is no way with fewer: it is all but the greatest common beginning of both.
///
/// `strands`: of both. Takes time in proportion to the knots.
pub fn list_untied(strands: usize, tied: &[Knot], plan: &[Knot]) -> Vec<u32> {
    let gaps = strands.saturating_sub(1);
    let fits = |knots: &[Knot]| knots.iter().all(|knot| usize::from(knot.gap) < gaps);
    if !fits(tied) || !fits(plan) {
        return (0..tied.len().to_u32()).rev().collect();
    }
    let mut good = common_start(gaps, tied, plan);
    let mut wrong: Vec<u32> = Vec::new();
    for (number, knot) in (0..).zip(tied) {
        let good = &mut good[usize::from(knot.gap)];
        match good.checked_sub(1) {
            Some(left) => *good = left,
            None => wrong.push(number),
        }
    }
    wrong.reverse();
    wrong
}
