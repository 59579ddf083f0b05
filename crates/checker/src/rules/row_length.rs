//! A row of a chart with too few or too many marks.

use crate::wording::{count, number};
use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "row-length",
    severity: Severity::Error,
    summary: "A row of a chart has not as many marks as knots to be tied.",
    why: "In `rows`, the first row pairs the strands 1 and 2, 3 and 4 and so on, the next one 2 and 3, 4 and 5 and \
          so on, by turns; each pair has its mark, and a pair without a knot has a `.`. In `leader`, each row has a \
          mark for every strand that the leader crosses: one fewer than hang there.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 6 kelp

set {
  rows {
    \ x /
     \ x /
  }
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50

strands 6 kelp

set {
  rows {
    \ x /
     \ /
  }
}
"#,
};

pub(super) fn words(marks: usize, wanted: usize, width: usize) -> Finding {
    let (found, strands) = (count(marks as u64, "mark"), count(width as u64, "strand"));
    let wanted = number(wanted as u64);
    let verb = if wanted == "one" { "is" } else { "are" };
    Finding::new(&RULE, format!("This row has {found}; on {strands}, {wanted} {verb} due here."))
        .help("Write one mark for each knot of the row, and `.` where the chart leaves one plain.")
}

#[cfg(test)]
mod tests {
    #[test]
    fn found_and_due_are_told() {
        assert_eq!(
            super::words(3, 2, 6).message,
            "This row has three marks; on six strands, two are due here."
        );
        assert_eq!(super::words(0, 1, 2).message, "This row has no marks; on two strands, one is due here.");
    }
}
