//! A place beyond the edge, or a middle that is not there.

use crate::wording::{count, ordinal, side};
use crate::{Finding, Rule, Severity, Side};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "place-not-there",
    severity: Severity::Error,
    tags: &[],
    summary: "A strand is named by a position where no strand hangs.",
    why: "Positions are counted from 1 at either edge, up to the number of strands. Inside `on`, only the \
          strands of its range count. An even number of strands has two in the middle, `center left` and \
          `center right`; an odd number has one, `center`.",
    example: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 5: backward to edge }
"#,
    instead: r#"pattern "Kelp forest"

thread kelp #1f5d50

strands 4 kelp

set { take left 4: backward to edge }
"#,
};

pub(super) fn beyond(number: i64, from: Side, width: usize) -> Finding {
    let from = side(from);
    let hang = count(width.to_u64(), "strand");
    let verb = if width == 1 { "hangs" } else { "hang" };
    let message = match usize::try_from(number) {
        Ok(number) if number > 0 => {
            format!("There is no {} strand from the {from}: {hang} {verb} here.", ordinal(number))
        }
        _ => format!("There is no strand {number} from the {from}: positions are counted from 1."),
    };
    Finding::new(&RULE, message).help(format!("The positions here are `{from} 1` to `{from} {width}`."))
}

/// `center left`, `center right` or `meet center` among an odd number of strands.
pub(super) fn no_middle_two(width: usize) -> Finding {
    let hang = count(width.to_u64(), "strand");
    let message = format!("With {hang} there is one in the middle, not two.");
    Finding::new(&RULE, message)
        .help("Write `center` for the one in the middle, or choose an even number of strands.")
}

/// `center` among an even number of strands.
pub(super) fn no_middle_one(width: usize) -> Finding {
    let hang = count(width.to_u64(), "strand");
    Finding::new(&RULE, format!("With {hang} there are two in the middle, not one."))
        .help("Write `center left` or `center right`, or choose an odd number of strands.")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_beyond_the_edge_is_reported_with_those_that_are_there() {
        let finding = beyond(5, Side::Left, 4);
        assert_eq!(finding.message, "There is no fifth strand from the left: four strands hang here.");
        assert_eq!(finding.help.unwrap(), "The positions here are `left 1` to `left 4`.");
    }

    #[test]
    fn places_are_counted_from_one() {
        assert_eq!(
            beyond(0, Side::Right, 4).message,
            "There is no strand 0 from the right: positions are counted from 1."
        );
        assert!(beyond(-2, Side::Right, 4).message.contains("strand -2"));
    }

    #[test]
    fn the_middle_is_one_or_two() {
        assert!(no_middle_two(5).message.starts_with("With five strands there is one in the middle"));
        assert!(no_middle_one(6).message.starts_with("With six strands there are two in the middle"));
    }
}
