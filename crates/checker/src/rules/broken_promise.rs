//! The strand in hand is not of the promised color.

use crate::wording::{ordinal, sentence, strand_is};
use crate::{Finding, Rule, Severity, Sighting};

pub(crate) static RULE: Rule = Rule {
    name: "broken-promise",
    severity: Severity::Error,
    tags: &[],
    summary: "The strand that you take in hand has another color than promised.",
    why: "The color in parentheses says what you should have in your hand at this step. If it is another \
          color, something went wrong earlier: a knot too many or too few, or left instead of right. The \
          promise moves nothing. It tells you early, close to the slip, and not ten rows further down.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror

set {
  take left 1 (kelp): forward to edge
  take right 2 (foam): backward to edge
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror

set {
  take left 1 (kelp): forward to edge
  take right 2 (kelp): backward to edge
}
"#,
};

/// `nearest`: where the nearest strand of the promised color hangs, from the left of the band, from 1.
pub(super) fn words(promised: &str, found: &Sighting, nearest: Option<usize>) -> Finding {
    let message = format!("{}, but {promised} was promised.", sentence(&strand_is(found)));
    let help = match nearest {
        Some(place) => format!("The nearest {promised} hangs {} from the left.", ordinal(place)),
        None => format!("No {promised} hangs here."),
    };
    Finding::new(&RULE, message).moved(found).help(help)
}

#[cfg(test)]
mod tests {
    use super::words;
    use crate::trial::find_by;
    use crate::{Place, Sighting};

    #[test]
    fn found_promised_moved_and_nearest_are_all_told() {
        let found = Sighting { position: 3, thread: "foam".into(), last_moved: Some(Place::default()) };
        let finding = words("sand", &found, Some(4));
        assert_eq!(finding.message, "The third strand from the left is foam, but sand was promised.");
        assert_eq!(finding.notes[0].text, "foam came here with this step");
        assert_eq!(finding.help.unwrap(), "The nearest sand hangs fourth from the left.");
    }

    /// The strand that is found is counted from the left of the band, and so is the nearest one.
    #[test]
    fn in_a_range_and_in_a_mirror_both_are_counted_alike() {
        for step in
            ["on inside 1 { take left 1 (foam): forward 1 }", "mirrored { take left 1 (foam): forward 1 }"]
        {
            let text = format!(
                "pattern \"A\"\nthread kelp #1f5d50\nthread foam white\nstrands kelp kelp foam kelp\nset {{\n{step}\n}}\n"
            );
            let found = find_by("broken-promise", &text);
            let help = found[0].help.as_deref();
            assert_eq!(help, Some("The nearest foam hangs third from the left."), "{step}");
        }
    }

    #[test]
    fn a_strand_that_was_never_moved_says_so() {
        let found = Sighting { position: 1, thread: "kelp".into(), last_moved: None };
        let finding = words("foam", &found, None);
        assert!(finding.notes.is_empty());
        assert!(finding.message.ends_with("That kelp has hung there from the start."));
        assert_eq!(finding.help.unwrap(), "No foam hangs here.");
    }
}
