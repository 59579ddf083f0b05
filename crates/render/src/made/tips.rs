//! What hangs free at the tip of an end that is closed: it is trimmed when the closure is tied, and lies beyond it.

use knotwright_band::ends::EndWork;

/// What hangs free at the tip of an end, or at that of each of its parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct HangingFree {
    pub(crate) length: f64,
    pub(crate) is_of_parts: bool,
}

/// An end without what hangs free at its tip, and that.
pub(crate) fn without_tassel(works: &[EndWork]) -> (Vec<EndWork>, Option<HangingFree>) {
    match works {
        [before @ .., EndWork::Tassel { length }] => {
            (before.to_vec(), Some(HangingFree { length: *length, is_of_parts: false }))
        }
        [before @ .., EndWork::Split { parts, works }] => {
            let (works, hanging) = without_tassel(works);
            let mut tied = before.to_vec();
            tied.push(EndWork::Split { parts: *parts, works });
            (tied, hanging.map(|hanging| HangingFree { is_of_parts: true, ..hanging }))
        }
        _ => (works.to_vec(), None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tassel_of_parts_is_taken_from_them() {
        let (knot, tassel) = (EndWork::Knot, EndWork::Tassel { length: 20.0 });
        let split = |works: Vec<EndWork>| EndWork::Split { parts: 2, works };
        let hanging = |is_of_parts| Some(HangingFree { length: 20.0, is_of_parts });
        let whole = [knot.clone(), tassel.clone()];
        assert_eq!(without_tassel(&whole), (vec![knot.clone()], hanging(false)));
        let within = [split(vec![split(whole.to_vec())])];
        assert_eq!(without_tassel(&within), (vec![split(vec![split(vec![knot.clone()])])], hanging(true)));
        let tied = [knot];
        assert_eq!(without_tassel(&tied), (tied.to_vec(), None));
    }
}
