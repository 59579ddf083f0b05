//! Knots lie elsewhere than in the `face`.

use crate::wording::count;
use crate::{Finding, Place, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "face-knots",
    severity: Severity::Error,
    tags: &[],
    summary: "The face and the steps do not have their knots in the same places.",
    why: "The knots of a part, each as far up as it can be, must lie where the marks of its `face` lie. A `.` in the face is a place \
          without a knot. The rows of a leader lie straight, but count in bricks here, so a face fits charts in bricks best.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp foam

sets 1

-- allow uneven-use: a piece of a band
set {
  face k kelp, f foam {
    k f
     .
  }
  rows {
    \ /
     \
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

/// `mark`: where the face asks for the first knot that is not there, if one is not; `head`: where the face begins.
pub(super) fn words(wished: usize, tied: usize, mark: Option<Place>, head: Place) -> Finding {
    let message = match wished == tied {
        true => "The face has as many knots as are tied, but they lie in other places.".to_owned(),
        false => format!(
            "The face has {}, and the steps tie {}.",
            count(wished.to_u64(), "knot"),
            count(tied.to_u64(), "knot")
        ),
    };
    let note = match mark {
        Some(_) => "up to this mark all knots lie as in the face",
        None => "the face has no knot there",
    };
    Finding::new(&RULE, message)
        .note(mark.unwrap_or(head), note)
        .help("Write one mark for each knot, row by row as the knots lie in bricks.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::messages_of;

    #[test]
    fn both_numbers_are_told() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            ["The face has two knots, and the steps tie three knots."]
        );
    }
}
