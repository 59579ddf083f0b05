//! A run that goes on past the edge.

use crate::wording::{count, number, sentence, side};
use crate::{Finding, Rule, Severity, Side};

pub(crate) static RULE: Rule = Rule {
    name: "past-the-edge",
    severity: Severity::Error,
    summary: "More knots are asked for than there are strands left to tie over.",
    why: "Each forward or backward knot takes the strand in hand one place further. When it hangs at the edge, of \
          the band or of the range of `on`, there is no neighbor left. If it is to go as far as it can, write `to \
          edge`: that stays right when the band gets wider.",
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
    let knots = sentence(&count(wanted, "knot"));
    let verb = if wanted == 1 { "is" } else { "are" };
    let message = match tied {
        0 => format!("{knots} {verb} asked for, but the strand in hand hangs at the {edge} edge already."),
        1 => format!("{knots} {verb} asked for, but only one strand is left before the {edge} edge."),
        _ => format!(
            "{knots} {verb} asked for, but only {} strands are left before the {edge} edge.",
            number(tied)
        ),
    };
    let help = match tied {
        0 => "Leave this run out, or tie it the other way.".to_owned(),
        _ => format!("Write {tied}, or `to edge` if it is to go all the way."),
    };
    Finding::new(&RULE, message).help(help)
}

#[cfg(test)]
mod tests {
    use super::words;
    use crate::Side;

    #[test]
    fn what_was_asked_and_what_is_there_are_told() {
        let finding = words(5, 3, Side::Right);
        assert_eq!(
            finding.message,
            "Five knots are asked for, but only three strands are left before the right edge."
        );
        assert_eq!(finding.help.unwrap(), "Write 3, or `to edge` if it is to go all the way.");
        let message = words(2, 1, Side::Left).message;
        assert_eq!(message, "Two knots are asked for, but only one strand is left before the left edge.");
    }

    #[test]
    fn at_the_edge_there_is_nothing_to_tie() {
        let message = words(1, 0, Side::Left).message;
        assert_eq!(message, "One knot is asked for, but the strand in hand hangs at the left edge already.");
    }
}
