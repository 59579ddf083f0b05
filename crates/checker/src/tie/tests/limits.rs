//! No text makes the tie run on, run out of memory or run out of stack.

use crate::NoLibrary;
use crate::testing::{Band, head, set, tied, tied_within};
use crate::tie::Limits;
use std::fmt::Write;

/// Ties with a hundredth of the statements that are allowed, so that the test itself ends soon.
fn soon(text: &str) -> Band {
    let limits = Limits { statements: Limits::WHOLE.statements / 100, ..Limits::WHOLE };
    tied_within(text, &NoLibrary, limits)
}

#[test]
fn ten_million_knots_and_not_one_more() {
    let band = tied(&set("a b", "repeat 10000 { take left 1: forward-backward 1000 }"));
    assert_eq!(band.said(), "");
    assert_eq!(band.tied.set.unwrap().knots.len(), 10_000_000);
    for body in [
        "repeat 10000 { take left 1: forward-backward 1000 }\ntake left 1: forward 1",
        "take left 1: forward-backward 10000001",
        "take left 1: forward-backward 1000000000",
    ] {
        let band = tied(&set("a b", body));
        assert_eq!(band.kinds(), ["TooManyKnots"], "{body}");
        assert!(band.tied.set.is_none());
    }
}

#[test]
fn loops_within_loops_end_even_if_they_tie_nothing() {
    for body in [
        "repeat 1000000000 { repeat 1000000000 { } }",
        "repeat 1000000000 { repeat 1000000000 { take left 1: forward 1 } }",
        "repeat 1000000000 { on left 2 { expect start } }",
        "for n 1 up to 1000000000 { for m 1 up to 1000000000 { } }",
        "take left 1: forward-backward 1000000 down to 0",
        "repeat 1000000000 { take left 9: forward 1 }",
        "repeat 1000000000 { rows {\n.\n} }",
    ] {
        let band = soon(&set("a b", body));
        assert_eq!(band.kinds().last().map(String::as_str), Some("TooManyKnots"), "{body}");
    }
}

#[test]
fn all_the_statements_that_are_allowed_are_soon_gone_through() {
    assert_eq!(tied(&set("a b", "repeat 1000000000 { repeat 1000000000 { } }")).kinds(), ["TooManyKnots"]);
}

#[test]
fn motifs_that_work_one_another_many_times_over_end() {
    let mut text = format!("{}strands a b\n", head());
    for motif in 0..60 {
        let _ = writeln!(text, "motif m{motif}() {{\nwork m{}()\nwork m{}()\n}}", motif + 1, motif + 1);
    }
    text.push_str("motif m60() { }\nset { work m0() }\n");
    assert_eq!(soon(&text).kinds(), ["TooManyKnots"]);
}

#[test]
fn a_long_chain_of_motifs_is_refused_not_followed() {
    let mut text = format!("{}strands a b\n", head());
    for motif in 0..20_000 {
        let _ = writeln!(
            text,
            "motif m{motif}() {{ on left 2 {{ on left 2 {{ section \"in\" {{ work m{}() }} }} }} }}",
            motif + 1
        );
    }
    text.push_str("motif m20000() { take left 1: forward 1 }\nset { work m0() }\n");
    assert_eq!(tied(&text).kinds(), ["WorkTooDeep"]);
}

#[test]
fn long_lists_are_counted_not_laid_out() {
    let many = "1000000000 a 1000000000 a 1000000000 a";
    let text = format!("{}strands {many}\nset {{ }}\n", head());
    let band = tied(&text);
    assert!(band.said().contains("TooManyStrands { count: 3000000000 }"), "{}", band.said());
    assert_eq!(tied(&set("a b", &format!("expect {many}"))).kinds(), ["ExpectLength"]);
    let most = format!("{}strands 200 a\nset {{ take left 1: forward 199 }}\n", head());
    assert_eq!(tied(&most).said(), "");
    assert_eq!(tied(&most.replace("200", "201")).kinds(), ["TooManyStrands"]);
}

#[test]
fn a_sum_without_end_is_reckoned_or_refused() {
    let sum = vec!["1"; 200_000].join(" + ");
    let band = tied(&set("a b", &format!("take left 1: forward {sum}")));
    assert!(!band.said().is_empty());
}
