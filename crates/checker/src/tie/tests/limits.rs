//! No text makes the tie run on, run out of memory or run out of stack.

use crate::NoLibrary;
use crate::testing::{Band, head, set, tied, tied_within};
use crate::tie::{Limits, MOST_BYTES, MOST_IDLE};
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
    assert_eq!(band.tied.set.unwrap().piece.knots().len(), 10_000_000);
    for body in [
        "repeat 10000 { take left 1: forward-backward 1000 }\ntake left 1: forward 1",
        "take left 1: forward-backward 10000001",
        "take left 1: forward-backward 1000000000",
        "take left 1: forward-backward 1000000 down to 0",
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
        "repeat 1000000000 { on left 2 { expect start } }",
        "for n 1 up to 1000000000 { for m 1 up to 1000000000 { } }",
        "repeat 1000000000 { take left 9: forward 1 }",
        "repeat 1000000000 { rows {\n.\n} }",
    ] {
        let band = soon(&set("a b", body));
        assert_eq!(band.kinds().last().map(String::as_str), Some("TooManyPasses"), "{body}");
    }
}

#[test]
fn all_the_statements_that_are_allowed_are_soon_gone_through() {
    let band = tied(&doubling(60));
    assert_eq!(band.kinds(), ["TooManyPasses"]);
    assert_eq!(band.tied.cost, MOST_IDLE + 1, "each pass was counted");
}

#[test]
fn what_ties_may_go_on_for_longer_than_what_does_not() {
    let body = "repeat 200000 { repeat 2 { take left 1: forward-backward 2 } }";
    let limits = Limits { statements: 1000, ..Limits::WHOLE };
    assert_eq!(tied_within(&set("a b", body), &NoLibrary, limits).said(), "");
}

#[test]
fn steps_and_notes_have_room_for_so_many_bytes_and_no_more() {
    let note = format!("repeat 1000000000 {{ note \"{}\" }}", "k".repeat(100_000));
    for body in [
        "repeat 10000000 { take left 2: forward-backward 1 }",
        "repeat 1000000000 { repeat 1000000000 { take left 1: forward 1 } }",
        "repeat 10000000 { take left 2: forward-backward 1, backward-forward 1, forward-backward 1 }",
        "repeat 1000000000 { expect start\ntake left 1: forward-backward 1 }",
        &note,
    ] {
        let limits = Limits { bytes: MOST_BYTES / 50, ..Limits::WHOLE };
        let band = tied_within(&set("a b c", body), &NoLibrary, limits);
        assert_eq!(band.kinds(), ["TooMuchMemory"], "{body:.60}");
        assert!(band.tied.set.is_none());
    }
}

/// Whoever tries edits goes by what a tie costs: what ties nothing must cost something, or its trials have no end.
#[test]
fn what_is_read_is_counted_even_if_it_ties_nothing() {
    let cost = |body: &str| tied(&set("a b", body)).tied.cost;
    let step = "take left 1: forward-backward 1";
    for (piece, count) in
        [("\nthen 0", 1000), ("\nthen forward 0", 1000), (", backward 0", 1000), (" * 1", 20)]
    {
        let grown = |count: usize| cost(&format!("{step}{}", piece.repeat(count)));
        assert_eq!(grown(2 * count) - grown(count), count as u64, "{piece:?}");
    }
    let listed = |count: usize| cost(&format!("expect {}", "a ".repeat(count)));
    assert_eq!(listed(2000) - listed(1000), 250);
}

#[test]
fn a_hundred_thousand_labels_are_each_found_at_once() {
    let steps = (0..100_000).map(|at| format!("take left 1 as l{at}: forward-backward 1\n"));
    let calls = (0..100_000).map(|at| format!("take l{at}: forward-backward 1\n"));
    assert_eq!(tied(&set("a b", &steps.chain(calls).collect::<String>())).said(), "");
}

#[test]
fn motifs_that_work_one_another_many_times_over_end() {
    assert_eq!(soon(&doubling(60)).kinds(), ["TooManyPasses"]);
}

/// Motifs that work one another twice, this many deep, and tie nothing.
fn doubling(depth: usize) -> String {
    let mut text = format!("{}strands a b\n", head());
    for motif in 0..depth {
        let _ = writeln!(text, "motif m{motif}() {{\nwork m{}()\nwork m{}()\n}}", motif + 1, motif + 1);
    }
    let _ = writeln!(text, "motif m{depth}() {{ }}\nset {{ work m0() }}");
    text
}

/// Somebody may be typing the number: it must not take long to know.
#[test]
fn a_loop_that_would_exceed_every_limit_is_not_gone_on_with() {
    for (body, limit) in [
        ("repeat 1000000000 { }", "TooManyPasses"),
        ("repeat 1000000000 { repeat 1000000000 { } }", "TooManyPasses"),
        ("for n 1 up to 1000000000 { expect start }", "TooManyPasses"),
        ("repeat 1000000000 { take left 1: forward 1 }", "TooMuchMemory"),
        ("repeat 10000000 { take left 1: forward 1 }", "TooMuchMemory"),
        ("repeat 1000000000 { take left 1: forward-backward 1000 }", "TooManyKnots"),
        ("repeat 1000000000 {\n take left 1: forward 1\n take left 1: forward 1\n", "TooMuchMemory"),
    ] {
        let band = tied(&set("a b", body));
        assert_eq!(band.kinds(), [limit], "{body}");
        assert!(band.tied.cost < 1_100_000, "{}: {body}", band.tied.cost);
        let (fact, source) = (&band.facts[0], band.script.source());
        assert!(fact.place.span.of(&source.text).starts_with(&body[..6]), "{body}");
    }
    let most = tied(&set("a b", "repeat 1000000 { take left 1: forward-backward 1 }"));
    assert_eq!(most.said(), "", "what fits is tied");
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
fn a_very_long_sum_is_computed_or_refused() {
    let sum = vec!["1"; 200_000].join(" + ");
    let band = tied(&set("a b", &format!("take left 1: forward {sum}")));
    assert!(!band.said().is_empty());
}
