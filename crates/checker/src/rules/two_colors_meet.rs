//! A knot that does not say who works, between two colors.

use crate::wording::ordinal;
use crate::{Finding, Rule, Severity, Sighting};

pub(crate) static RULE: Rule = Rule {
    name: "two-colors-meet",
    severity: Severity::Error,
    tags: &[],
    summary: "`meet center`, or `x` in a chart, joins two strands of different colors.",
    why: "`meet center` and the mark `x` leave it open which of the two strands works, because with one color \
          nobody can see it. With two colors you can: the strand that works is the one that shows. So either \
          the strands are not where you meant them to be, or the knot must say which of them works.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam

set {
  repeat 2 { meet center }
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam

set {
  repeat 2 { take left 1: forward 1 }
}
"#,
};

pub(super) fn words(left: &Sighting, right: &Sighting) -> Finding {
    let (one, other) = (ordinal(left.position), ordinal(right.position));
    let message = format!(
        "Two strands of one color should meet here, but the {one} from the left is {} and the {other} is {}.",
        left.thread, right.thread
    );
    let finding = Finding::new(&RULE, message);
    let finding =
        [left, right].into_iter().filter(|strand| strand.last_moved.is_some()).fold(finding, Finding::moved);
    finding.help(
        "Write `take center left: forward 1` or `take center right: backward 1` to say which one shows.",
    )
}

#[cfg(test)]
mod tests {
    use crate::{Place, Sighting};

    #[test]
    fn both_strands_are_named_and_the_moved_one_is_shown() {
        let left = Sighting { position: 3, thread: "kelp".into(), last_moved: Some(Place::default()) };
        let right = Sighting { position: 4, thread: "foam".into(), last_moved: None };
        let finding = super::words(&left, &right);
        assert_eq!(
            finding.message,
            "Two strands of one color should meet here, but the third from the left is kelp and the fourth is foam."
        );
        assert_eq!(finding.notes.len(), 1);
        assert_eq!(finding.notes[0].text, "kelp came here with this step");
    }
}
