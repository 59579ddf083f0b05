//! A `face` that no knots can show.

use crate::wording::count;
use crate::{Finding, Place, Rule, Severity, Tag};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "face-cannot-be-tied",
    severity: Severity::Error,
    tags: &[Tag::NoWay],
    summary: "No knots show this face with these strands.",
    why: "A knot shows one of its two strands. So a face can be tied only if each knot meets a strand of its color. With two colors \
          that is always so if the strands alternate; with more, large areas and slanted lines go well, and single dots of a third \
          color do not. The knots marked are as few as could be found that must show another color.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 4 kelp

sets 1

-- allow uneven-use: a piece of a band
set {
  face k kelp, f foam {
    k f
     k
  }
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp foam

sets 1

-- allow uneven-use: a piece of a band
set {
  face k kelp, f foam {
    k f
     k
  }
  rows {
    \ /
     \
  }
}
"#,
};

/// How many marks are shown besides the first.
const MOST_SHOWN: usize = 8;

pub(super) fn words(marks: &[Place], are_fewest: bool) -> Finding {
    let message = match marks.len() {
        0 => "With these strands, no knots show this face.".to_owned(),
        knots => format!(
            "With these strands, no knots show this face: {} {} no strand of {} color{}.",
            count(knots.to_u64(), "knot"),
            if knots == 1 { "meets" } else { "meet" },
            if knots == 1 { "its" } else { "their" },
            if are_fewest { ", and fewer will not do" } else { "" }
        ),
    };
    let finding = Finding::new(&RULE, message)
        .help("Let the strands hang otherwise (`knotwright design --start free`), or write `?` where any color will do.");
    marks.iter().skip(1).take(MOST_SHOWN).fold(finding, |finding, mark| finding.note(*mark, "and this one"))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::find_by;

    #[test]
    fn the_knots_are_shown() {
        let finding = &find_by(RULE.name, RULE.example)[0];
        assert_eq!(
            finding.message,
            "With these strands, no knots show this face: one knot meets no strand of its color, and fewer will not do."
        );
    }
}
