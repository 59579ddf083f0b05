//! Text from a file never gives orders to a terminal.

use crate::stage::{BROKEN, Stage};

const NASTY: [char; 4] = ['\u{1b}', '\u{7}', '\u{202e}', '\u{9b}'];

fn nasty_pattern() -> String {
    BROKEN
        .replace("(sand)", "(sand)  -- \u{1b}]0;title\u{7} \u{202e}\u{9b}31m")
        .replace("pattern", "@\u{1b}[2J pattern")
}

#[test]
fn findings_show_nasty_signs_and_do_not_send_them() {
    let stage = Stage::with(&[("a\u{1b}[31m.knot", &nasty_pattern())]);
    for form in ["human", "short", "json", "sarif", "github", "gitlab", "junit"] {
        let said = stage.run(&["check", "--format", form, "."]);
        assert_eq!(said.code, 1, "{form}: {said:?}");
        assert!(!said.out.contains(NASTY) && !said.err.contains(NASTY), "{form}: {said:?}");
    }
    let said = stage.run(&["check", "."]);
    assert!(said.out.contains("[ a<U+001B>[31m.knot:"), "{}", said.out);
}

#[test]
fn names_on_stderr_are_shown_too() {
    let said = Stage::with(&[]).run(&["check", "none\u{1b}[2J.knot"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("none<U+001B>[2J.knot: there is no such file"), "{}", said.err);
}

#[test]
fn a_difference_in_color_is_for_people() {
    let stage = Stage::with(&[("a.knot", &nasty_pattern().replace("  take", "     take"))]);
    let said = stage.run(&["format", "--diff", "--color", "always", "a.knot"]);
    assert!(said.out.contains("<U+001B>]0;title<U+0007> <U+202E><U+009B>31m"), "{}", said.out);
    let plain = stage.run(&["format", "--diff", "a.knot"]);
    assert!(plain.out.contains("\u{1b}]0;title\u{7}"), "for `patch`, byte for byte");
}
