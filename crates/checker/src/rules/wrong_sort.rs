//! A thread where a number is due, or a number where a thread is due.

use crate::{Finding, Place, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "wrong-sort",
    severity: Severity::Error,
    tags: &[],
    summary: "A thread is given where a number is needed, or a number where a thread is needed.",
    why: "A parameter of a motif is a number or a thread, depending on how the motif uses it: what it counts \
          with must be a number, what it ties over or promises must be a thread. Usually two arguments are \
          in the wrong order.",
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

/// A thread in parentheses, which would be a promise, right behind `left` or `right`.
pub(crate) fn numberless(side: &str, name: &str) -> Finding {
    Finding::new(&RULE, format!("A number is missing between `{side}` and `({name})`."))
        .help(format!("Say which strand it is, such as `{side} 1 ({name})`."))
}

fn finding(message: String, name: &str, given: Option<Place>) -> Finding {
    let finding = Finding::new(&RULE, message);
    match given {
        Some(place) => finding
            .note(place, format!("`{name}` gets its value here"))
            .help("Check that the arguments are in the same order as the parameters of the motif."),
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
        assert_eq!(not_a_number("size", Some(Place::default())).notes[0].text, "`size` gets its value here");
    }
}
