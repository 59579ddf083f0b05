//! What the grammar asks for next: the parser itself is asked, with a sign behind the words that fits nowhere.

use crate::line::Zone;
use knotwright_grammar::{ProblemKind, parse};

/// What may follow `prefix` in `zone`, in the words of the grammar.
pub(super) fn due(prefix: &str, zone: Zone) -> Vec<&'static str> {
    let opens = match zone {
        Zone::Colorway => "colorway \"\" {\n",
        Zone::Gauge => "gauge {\n",
        Zone::Body => "set {\n",
        Zone::Top | Zone::Rows | Zone::Leader => "",
    };
    let close = if opens.is_empty() { "" } else { "\n}\n" };
    let at = (opens.len() + prefix.len() + 1) as u32;
    let parsed = parse(&format!("{opens}{prefix} <{close}"));
    let problem = parsed.problems.into_iter().find(|problem| problem.span.start == at);
    match problem.map(|problem| problem.kind) {
        Some(ProblemKind::Unexpected { expected }) => expected,
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_parser_tells_what_may_follow() {
        assert!(due("take", Zone::Body).contains(&"`left`"));
        assert!(due("take", Zone::Body).contains(&"a thread or a label"));
        assert_eq!(due("take left", Zone::Body), ["a number"]);
        assert!(due("take left 1: forward", Zone::Body).contains(&"`over`"));
        assert!(due("length 12", Zone::Top)[0].contains("`mm`"));
        assert!(due("thread kelp", Zone::Top)[0].starts_with("a color"));
        assert_eq!(due("10 knots", Zone::Gauge), ["`use`"]);
    }
}
