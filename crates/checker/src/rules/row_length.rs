//! A row of a chart with too few or too many marks.

use crate::wording::{count, number};
use crate::{Finding, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "row-length",
    severity: Severity::Error,
    tags: &[],
    summary: "A row of a chart has more or fewer marks than it needs.",
    why: "In `rows`, the first row pairs strands 1 and 2, 3 and 4, and so on; the next one pairs 2 and 3, 4 \
          and 5, and so on, in turn. Each pair has a mark, and a pair without a knot has a `.`. In `leader`, \
          each row has a mark for every strand that the leader crosses: one fewer than hang there.",
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
    let (found, strands) = (count(marks.to_u64(), "mark"), count(width.to_u64(), "strand"));
    let wanted = number(wanted.to_u64());
    Finding::new(&RULE, format!("This row has {found}; with {strands} it needs {wanted}."))
        .help("Write one mark for each knot of the row. In `rows` and `face`, `.` means no knot; in `leader`, that the leader shows.")
}

#[cfg(test)]
mod tests {
    #[test]
    fn found_and_due_are_reported() {
        assert_eq!(super::words(3, 2, 6).message, "This row has three marks; with six strands it needs two.");
        assert_eq!(super::words(0, 1, 2).message, "This row has no marks; with two strands it needs one.");
    }
}
