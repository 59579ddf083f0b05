//! A thread where a number is due, or a number where a thread is due.

use crate::{Finding, Place, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "wrong-sort",
    severity: Severity::Error,
    summary: "A thread stands where a number is needed, or a number where a thread is.",
    why: "A parameter of a motif is a number or a thread, whichever the motif makes of it: what is counted with \
          must be a number, what is tied over or promised must be a thread. Mostly two arguments were given in the \
          wrong order.",
    example: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 3 foam

motif sweep(ground, size) {
  take left 1: forward size over ground
}

set {
  work sweep(3, foam)
  take right 1: backward to edge
}
"#,
    instead: r#"pattern "Slack tide"

thread kelp #1f5d50
thread foam #f4f1e8

strands kelp 3 foam

motif sweep(ground, size) {
  take left 1: forward size over ground
}

set {
  work sweep(foam, 3)
  take right 1: backward to edge
}
"#,
};

/// A thread where a number is due.
pub(super) fn not_a_number(name: &str, given: Option<Place>) -> Finding {
    finding(format!("`{name}` is a thread, but a number is needed here."), name, given)
}

/// A number where a thread is due.
pub(super) fn not_a_thread(name: &str, given: Option<Place>) -> Finding {
    finding(format!("`{name}` is a number, but a thread is needed here."), name, given)
}

fn finding(message: String, name: &str, given: Option<Place>) -> Finding {
    let finding = Finding::new(&RULE, message);
    match given {
        Some(place) => finding
            .note(place, format!("`{name}` was given this here"))
            .help("See whether the arguments stand in the order in which the motif names its parameters."),
        None => finding,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_ways_are_told_apart() {
        assert_eq!(not_a_number("foam", None).message, "`foam` is a thread, but a number is needed here.");
        assert_eq!(not_a_thread("size", None).message, "`size` is a number, but a thread is needed here.");
    }

    #[test]
    fn the_argument_is_shown_where_it_was_given() {
        assert_eq!(not_a_number("size", Some(Place::default())).notes[0].text, "`size` was given this here");
    }
}
