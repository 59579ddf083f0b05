//! A letter of a `face` that stands for nothing.

use crate::wording::quoted;
use crate::{Finding, Place, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "face-letter",
    severity: Severity::Error,
    tags: &[],
    summary: "A letter in a face stands for no thread.",
    why: "In a `face`, each letter stands for a thread: `face k kelp, f foam { ... }`. Besides letters, `.` is no knot and `?` a knot \
          of whatever color.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp foam

sets 1

-- allow uneven-use: a piece of a band
set {
  face k kelp, f foam {
    k s
     k
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

/// `again`: where it stands again.
pub(super) fn words(letter: char, again: &[Place]) -> Finding {
    Finding::new(&RULE, format!("{} stands for no thread in this face.", quoted(&letter.to_string())))
        .again(again)
        .help("Say which thread it is after `face`, as in `face k kelp, f foam {`, or write a letter that is there.")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::messages_of;

    #[test]
    fn the_letter_is_told() {
        assert_eq!(messages_of(RULE.name, RULE.example), ["`s` stands for no thread in this face."]);
    }
}
