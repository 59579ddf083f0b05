//! A `face` without steps: still to be tied.

use crate::faces::face_in;
use crate::woven::Sound;
use crate::{Finding, PartKind, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "face-not-tied",
    severity: Severity::Warning,
    tags: &[],
    summary: "A face is wished for, and nothing ties it yet.",
    why: "An opening, a set or a closing that has a `face` and no steps is a wish. `knotwright design` finds knots that show it, and \
          editors offer to tie it.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam kelp foam

sets 1

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

pub(super) fn find(sound: &Sound) -> Vec<Finding> {
    let wish = |kind: PartKind| {
        let face = face_in(sound.pattern.script(), kind).filter(|_| sound.pattern.is_wish(kind))?;
        let message = format!("This {} has a face, but no steps that tie it yet.", kind.word());
        let help = "`knotwright design` writes the knots that show it; in an editor, use \"Tie this face\".";
        Some(Finding::new(&RULE, message).at(face.head).help(help))
    };
    PartKind::ALL.into_iter().filter_map(wish).collect()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::trial::{assert_silent, messages_of};

    #[test]
    fn a_wish_is_still_to_be_tied() {
        assert_eq!(
            messages_of(RULE.name, RULE.example),
            ["This set has a face, but no steps that tie it yet."]
        );
        assert_silent(RULE.name, RULE.instead);
    }
}
