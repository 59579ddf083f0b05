//! A run that goes on past the edge.

use crate::wording::{count, number, side};
use crate::{Finding, Rule, Severity, Side};

pub(crate) static RULE: Rule = Rule {
    name: "past-the-edge",
    severity: Severity::Error,
    tags: &[],
    summary: "A run has more knots than there are strands left to tie over.",
    why: "Each forward or backward knot moves the strand in hand one position. When it hangs at the edge, of \
          the band or of the range of `on`, it has no neighbor left on that side. To go as far as it can, \
          write `to edge`: that stays right when the band gets wider.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward 5 }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 1: forward 3 }
"#,
};

pub(super) fn words(wanted: u64, tied: u64, edge: Side) -> Finding {
    let edge = side(edge);
    let knots = count(wanted, "knot");
    let message = match tied {
        0 => format!("The run has {knots}, but the strand in hand already hangs at the {edge} edge."),
        1 => format!("The run has {knots}, but only one strand is left before the {edge} edge."),
        _ => {
            format!("The run has {knots}, but only {} strands are left before the {edge} edge.", number(tied))
        }
    };
    let help = match tied {
        0 => "Leave this run out, or tie it in the other direction.".to_owned(),
        _ => format!("Write {tied}, or `to edge` to go all the way."),
    };
    Finding::new(&RULE, message).help(help)
}

#[cfg(test)]
mod tests {
    use super::words;
    use crate::Side;

    #[test]
    fn what_was_asked_and_what_is_there_are_reported() {
        let finding = words(5, 3, Side::Right);
        assert_eq!(
            finding.message,
            "The run has five knots, but only three strands are left before the right edge."
        );
        assert_eq!(finding.help.unwrap(), "Write 3, or `to edge` to go all the way.");
        let message = words(2, 1, Side::Left).message;
        assert_eq!(message, "The run has two knots, but only one strand is left before the left edge.");
    }

    #[test]
    fn at_the_edge_there_is_nothing_to_tie() {
        let message = words(1, 0, Side::Left).message;
        assert_eq!(message, "The run has one knot, but the strand in hand already hangs at the left edge.");
    }
}
