//! A range of strands that does not lie within them.

use crate::wording::{count, number, quoted, sentence};
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "range-not-there",
    severity: Severity::Error,
    summary: "`on` names strands that are not there, too few to tie, or not in the middle.",
    why: "`on left 5 { }` lets only five strands exist within its braces, so that the five must be there, and at \
          least two to be tied. `center 4` lies in the middle only if as many strands are left over on one side \
          as on the other: an even number out of an even one, an odd out of an odd.",
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
    let hang = count(width as u64, "strand");
    Finding::new(&RULE, format!("There are no strands {} here: {hang} hang side by side.", quoted(wanted)))
        .help(format!("Choose a range within 1 to {width}, the smaller number first."))
}

pub(super) fn narrow(strands: i64) -> Finding {
    let message = match strands {
        1 => "This range holds a single strand, and a knot joins two.".to_owned(),
        _ => "This range holds no strand at all.".to_owned(),
    };
    Finding::new(&RULE, message).help("Let the range hold at least two strands.")
}

pub(super) fn off_center(strands: usize, width: usize) -> Finding {
    let (inner, all) = (sentence(&number(strands as u64)), count(width as u64, "strand"));
    Finding::new(
        &RULE,
        format!("{inner} of {all} cannot lie in the middle: one side would hold one strand more."),
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
        assert_eq!(narrow(1).message, "This range holds a single strand, and a knot joins two.");
        assert_eq!(narrow(-1).message, "This range holds no strand at all.");
        let off = off_center(3, 8);
        assert_eq!(
            off.message,
            "Three of eight strands cannot lie in the middle: one side would hold one strand more."
        );
        assert_eq!(off.help.unwrap(), "Write `center 2` or `center 4`.");
    }
}
