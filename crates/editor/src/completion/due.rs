//! What the grammar asks for next: the parser itself is asked, with a sign after the words that fits nowhere.

use knotwright_grammar::tree::Zone;
use knotwright_grammar::{Expected, ProblemKind, parse, to_offset};

/// What may follow `prefix` in `zone`.
pub(super) fn due(prefix: &str, zone: Zone) -> Vec<Expected> {
    let opens = match zone {
        Zone::Colorway => "colorway \"\" {\n",
        Zone::Gauge => "gauge {\n",
        Zone::Ends => "finish {\n",
        Zone::Body | Zone::Any => "set {\n",
        Zone::Leader => "set {\nleader left 1 {\n",
        Zone::Top | Zone::Rows | Zone::Face => "",
    };
    let close = if opens.is_empty() { "" } else { "\n}\n" };
    let at = to_offset(opens.len() + prefix.len() + 1);
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
        assert!(due("take", Zone::Body).contains(&Expected::Word("left")));
        assert!(due("take", Zone::Body).contains(&Expected::Strand));
        assert_eq!(due("take left", Zone::Body), [Expected::Number]);
        assert!(due("take left 1: forward", Zone::Body).contains(&Expected::Word("over")));
        assert_eq!(due("length 12", Zone::Top), [Expected::Unit]);
        assert_eq!(due("thread kelp", Zone::Top), [Expected::Color]);
        assert_eq!(due("10 knots", Zone::Gauge), [Expected::Word("use")]);
        assert_eq!(due("plait 3", Zone::Ends), [Expected::Word("for")]);
        assert_eq!(due("wrap", Zone::Ends), [Expected::Thread]);
        assert!(due("join left 3", Zone::Body).contains(&Expected::Word("with")));
        assert_eq!(due("join left 3 with", Zone::Body), [Expected::Thread]);
    }
}
