//! `over` or `until` without a single knot.

use crate::wording::sentence;
use crate::{Finding, Rule, Severity, Sighting};

pub(crate) static RULE: Rule = Rule {
    name: "nothing-to-tie",
    severity: Severity::Error,
    tags: &[],
    summary: "`over` or `until` comes to not a single knot.",
    why: "`over foam` ties on each next strand as long as it is foam, `until foam` up to the next foam, and both \
          promise at least one knot: a step that ties nothing would be a step for nothing. If the very next strand \
          does not fit, the strands hang differently from what was meant.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 2 kelp 2 foam

set {
  take left 1: forward over foam
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands 2 kelp 2 foam

set {
  take left 2: forward over foam
  take left 1: forward over foam
  take left 2: forward over kelp
  take left 1: forward over kelp
}
"#,
};

/// `found`: the next strand; `None` if the strand in hand hangs at the edge.
pub(super) fn words(word: &str, thread: &str, found: Option<&Sighting>) -> Finding {
    let due = if word == "until" {
        format!("`until {thread}` ties at least one knot before it comes to {thread}")
    } else {
        format!("`{word} {thread}` ties at least one knot")
    };
    let due = sentence(&due);
    match found {
        None => Finding::new(
            &RULE,
            format!("{due}, but the strand in hand hangs at the edge: no strand comes next."),
        )
        .help("Leave this run out, or tie it in the other direction."),
        Some(next) => Finding::new(&RULE, format!("{due}, but the very next strand is {}.", next.thread))
            .moved(next)
            .help("See whether the right strand is in hand, and whether it goes the right way."),
    }
}

#[cfg(test)]
mod tests {
    use super::words;
    use crate::Sighting;

    #[test]
    fn the_next_strand_is_named() {
        let next = |thread: &str| Sighting {
            position: 2,
            thread: thread.into(),
            last_moved: Some(crate::Place::default()),
        };
        let over = words("over", "foam", Some(&next("kelp")));
        assert_eq!(over.message, "`over foam` ties at least one knot, but the very next strand is kelp.");
        let until = words("until", "foam", Some(&next("foam")));
        assert!(until.message.ends_with("before it comes to foam, but the very next strand is foam."));
    }

    #[test]
    fn at_the_edge_no_strand_comes_next() {
        assert!(words("over", "foam", None).message.ends_with("hangs at the edge: no strand comes next."));
    }
}
