//! Text from a file never gives orders to a terminal.

use crate::stage::{BROKEN, GOOD, Stage};

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

/// Signs that turn the direction of writing: `Bidi_Control` in Unicode's `PropList.txt`.
const TURNING: [char; 12] = [
    '\u{61c}', '\u{200e}', '\u{200f}', '\u{202a}', '\u{202b}', '\u{202c}', '\u{202d}', '\u{202e}',
    '\u{2066}', '\u{2067}', '\u{2068}', '\u{2069}',
];

#[test]
fn pictures_words_and_the_sheet_hold_no_hidden_signs() {
    let hidden: String = TURNING.iter().collect();
    let pattern = GOOD
        .replace("pattern \"", &format!("pattern \"{hidden}"))
        .replace("set {", &format!("set {{\n  section \"in{hidden}\" {{\n    note \"slowly{hidden}\"\n  }}"));
    assert!(pattern.matches('\u{202e}').count() == 3, "{pattern}");
    let other = pattern.replace("forward", "backward");
    let page = "# Pier\n\n<!-- knotwright write a.knot -->\n<!-- /knotwright -->\n";
    let stage = Stage::with(&[("a.knot", &pattern), ("b.knot", &other), ("page.md", page)]);
    for arguments in [
        &["draw", "a.knot", "--format", "svg"][..],
        &["draw", "a.knot", "--chart"],
        &["draw", "a.knot"],
        &["write", "a.knot"],
        &["write", "a.knot", "--format", "markdown"],
        &["write", "a.knot", "--format", "plain"],
        &["sheet", "a.knot", "--sets", "2"],
        &["measure", "a.knot", "--sets", "2"],
        &["kit", "a.knot", "--sets", "2"],
    ] {
        let said = stage.run(arguments);
        assert_eq!(said.code, 0, "{arguments:?}: {said:?}");
        assert!(!said.out.contains(TURNING) && !said.err.contains(TURNING), "{arguments:?}: {}", said.out);
    }
    for arguments in [
        &["check", "."][..],
        &["check", "--format", "json", "."],
        &["check", "--format", "sarif", "."],
        &["check", "--format", "junit", "."],
        &["plan", "a.knot", "--format", "words"],
        &["export", "a.knot"],
        &["compare", "a.knot", "b.knot"],
        &["compare", "--format", "json", "a.knot", "b.knot"],
        &["compare", "--format", "markdown", "a.knot", "b.knot"],
        &["gallery", ".", "-o", "site"],
        &["refresh", "page.md"],
    ] {
        let said = stage.run(arguments);
        assert!(said.code < 2, "{arguments:?}: {said:?}");
        assert!(!said.out.contains(TURNING) && !said.err.contains(TURNING), "{arguments:?}: {}", said.out);
    }
    let written =
        ["site/index.html", "site/pictures/a.svg", "site/words/a.html", "site/sheets/a.html", "page.md"];
    for file in written {
        assert!(!stage.read(file).contains(TURNING), "{file}");
    }
}
