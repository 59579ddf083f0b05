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

pub(super) fn words(wanted: u64, tied: u64, edge: Side, is_computed: bool) -> Finding {
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
        // Whoever wrote a constant there would untie the loop or the motif.
        _ if is_computed => format!(
            "The number is computed, and comes to {wanted} here; {tied} is the most that fits. Look for the slip in the \
             numbers that it comes from: those of a `for`, a series or a `work`."
        ),
        0 => "Leave this run out, or tie it in the other direction.".to_owned(),
        _ => format!("Write {tied}, or `to edge` to go all the way."),
    };
    Finding::new(&RULE, message).help(help)
}

#[cfg(test)]
mod tests {
    use super::{RULE, words};
    use crate::Side;
    use crate::trial::find_by;

    #[test]
    fn what_was_asked_and_what_is_there_are_reported() {
        let finding = words(5, 3, Side::Right, false);
        assert_eq!(
            finding.message,
            "The run has five knots, but only three strands are left before the right edge."
        );
        assert_eq!(finding.help.unwrap(), "Write 3, or `to edge` to go all the way.");
        let message = words(2, 1, Side::Left, false).message;
        assert_eq!(message, "The run has two knots, but only one strand is left before the left edge.");
    }

    #[test]
    fn nobody_is_told_to_write_a_number_over_a_name() {
        let set = "for row 5 down to 2 { take left 1: forward row - 1 }";
        let found = find_by(RULE.name, &RULE.example.replace("take left 1: forward 5", set));
        let help = found[0].help.as_ref().unwrap();
        assert!(
            help.starts_with("The number is computed, and comes to 4 here; 3 is the most that fits."),
            "{help}"
        );
        assert!(!help.contains("Write") && !help.contains("to edge"), "{help}");
    }

    #[test]
    fn at_the_edge_there_is_nothing_to_tie() {
        let message = words(1, 0, Side::Left, false).message;
        assert_eq!(message, "The run has one knot, but the strand in hand already hangs at the left edge.");
    }
}
