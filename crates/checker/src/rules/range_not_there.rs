//! A range of strands that does not lie within them.

use crate::wording::{count, number, quoted, sentence};
use crate::{Finding, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "range-not-there",
    severity: Severity::Error,
    tags: &[],
    summary: "`on` names strands that are not there, too few to tie, or not in the middle.",
    why: "Inside the braces of `on left 5 { }` only five strands exist, so those five must be there; a range \
          needs at least two strands. `center 4` is in the middle only if the same number of strands is left \
          over on both sides: an even number out of an even one, or an odd number out of an odd one.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 5 kelp

set {
  on left 6 { take left 1: forward to edge }
}
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 5 kelp

set {
  on left 5 { take left 1: forward to edge }
}
"#,
};

pub(super) fn outside(wanted: &str, width: usize) -> Finding {
    let hang = count(width.to_u64(), "strand");
    Finding::new(&RULE, format!("There are no strands {} here: {hang} hang side by side.", quoted(wanted)))
        .help(format!("Choose a range between 1 and {width}, the smaller number first."))
}

pub(super) fn narrow(strands: i64) -> Finding {
    let message = match strands {
        1 => "This range has a single strand, and a knot joins two.".to_owned(),
        _ => "This range has no strand at all.".to_owned(),
    };
    Finding::new(&RULE, message).help("Choose a range of at least two strands.")
}

pub(super) fn off_center(strands: usize, width: usize) -> Finding {
    let (inner, all) = (sentence(&number(strands.to_u64())), count(width.to_u64(), "strand"));
    Finding::new(
        &RULE,
        format!("{inner} of {all} cannot be in the middle: one side would have one strand more."),
    )
    .help(format!("Write `center {}` or `center {}`.", strands.saturating_sub(1).max(2), strands + 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_trouble_has_its_sentence() {
        assert_eq!(
            outside("left 6", 5).message,
            "There are no strands `left 6` here: five strands hang side by side."
        );
        assert_eq!(narrow(1).message, "This range has a single strand, and a knot joins two.");
        assert_eq!(narrow(-1).message, "This range has no strand at all.");
        let off = off_center(3, 8);
        assert_eq!(
            off.message,
            "Three of eight strands cannot be in the middle: one side would have one strand more."
        );
        assert_eq!(off.help.unwrap(), "Write `center 2` or `center 4`.");
    }
}
