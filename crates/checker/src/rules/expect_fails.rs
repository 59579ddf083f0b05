//! An `expect` that does not hold.

use crate::wording::{number, ordinal};
use crate::{Finding, Rule, Severity, Sighting};

pub(crate) static RULE: Rule = Rule {
    name: "expect-fails",
    severity: Severity::Error,
    summary: "The strands do not hang as `expect` says.",
    why: "`expect` is a checkpoint: at this step the strands should hang like this, so that whoever ties can \
          compare. If they do not, the slip lies above it, and below the last `expect` that held. The more \
          checkpoints a long pattern has, the shorter the stretch to search.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror

set {
  take left 1: forward to edge
  take right 2: backward 1
  expect kelp 2 foam kelp
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp foam | mirror

set {
  take left 1: forward to edge
  take right 2: backward 2
  expect kelp 2 foam kelp
}
"#,
};

/// `position` counts in the range, `differing` is how many strands differ in all.
pub(super) fn words(position: usize, promised: &str, found: &Sighting, differing: usize) -> Finding {
    let place = ordinal(position);
    let within = if position == found.position { "" } else { " of this range" };
    let thread = &found.thread;
    let message =
        format!("The {place} strand from the left{within} is {thread}, but {promised} is expected here.");
    let help = match differing {
        0 | 1 => "All the other strands hang as they should.".to_owned(),
        _ => format!(
            "It is the first of {} that differ. Look between here and the last `expect` that held.",
            number(differing as u64)
        ),
    };
    Finding::new(&RULE, message).moved(found).help(help)
}

#[cfg(test)]
mod tests {
    use super::words;
    use crate::{Place, Sighting};

    fn foam() -> Sighting {
        Sighting { position: 3, thread: "foam".into(), last_moved: Some(Place::default()) }
    }

    #[test]
    fn the_first_strand_that_differs_is_named() {
        let finding = words(3, "kelp", &foam(), 2);
        assert_eq!(finding.message, "The third strand from the left is foam, but kelp is expected here.");
        assert!(finding.help.unwrap().starts_with("It is the first of two that differ."));
    }

    #[test]
    fn within_a_range_it_is_said_that_places_count_there() {
        assert!(
            words(1, "kelp", &foam(), 1)
                .message
                .starts_with("The first strand from the left of this range is foam")
        );
    }
}
