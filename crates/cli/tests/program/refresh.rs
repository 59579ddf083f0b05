//! `refresh`

use crate::stage::{BROKEN, GOOD, Stage};

const OPENS: &str = "<!-- knotwright write ../bands/a.knot --sets 3 -->";
const CLOSES: &str = "<!-- /knotwright -->";

fn stage(between: &str) -> Stage {
    let text = format!("# Tides\r\n\r\nBefore.\r\n\r\n{OPENS}\r\n{between}{CLOSES}\r\n\r\nBehind.\r\n");
    Stage::with(&[
        ("bands/a.knot", GOOD),
        ("tutorials/a.md", &text.replace("\r\n", "\n")),
        ("b.md", "# None\n"),
    ])
}

#[test]
fn what_is_between_the_marks_is_rewritten_and_nothing_else() {
    let stage = stage("old words\n");
    let said = stage.run(&["refresh", "."]);
    assert_eq!((said.code, said.err.as_str()), (0, "1 of 2 Markdown files refreshed\n"), "{said:?}");
    let shown = stage.run(&["write", "bands/a.knot", "--sets", "3", "--format", "markdown"]).out;
    let text = stage.read("tutorials/a.md");
    assert_eq!(
        text,
        format!("# Tides\n\nBefore.\n\n{OPENS}\n\n{}\n\n{CLOSES}\n\nBehind.\n", shown.trim_end())
    );
    let said = stage.run(&["refresh", "."]);
    assert_eq!((said.code, said.err.as_str()), (0, "0 of 2 Markdown files refreshed\n"), "{said:?}");
    assert_eq!(stage.read("tutorials/a.md"), text);
}

#[test]
fn line_ends_stay_as_they_are() {
    let stage = stage("");
    stage.write("tutorials/a.md", stage.read("tutorials/a.md").replace('\n', "\r\n"));
    assert_eq!(stage.run(&["refresh", "."]).code, 0);
    let text = stage.read("tutorials/a.md");
    assert!(
        text.contains("Low tide") && text.matches('\n').count() == text.matches("\r\n").count(),
        "{text}"
    );
    assert_eq!(stage.run(&["refresh", "--check", "."]).code, 0);
}

#[test]
fn with_check_a_stale_file_is_named_and_left() {
    let stage = stage("old words\n");
    let before = stage.read("tutorials/a.md");
    let said = stage.run(&["refresh", "--check", "."]);
    assert_eq!((said.code, said.out.as_str()), (1, "tutorials/a.md\n"), "{said:?}");
    assert_eq!(stage.read("tutorials/a.md"), before);
}

#[test]
fn a_pattern_with_errors_or_a_wrong_mark_leaves_the_file_alone() {
    let mut stage = stage("old words\n");
    let before = stage.read("tutorials/a.md");
    stage.write("bands/a.knot", BROKEN);
    let said = stage.run(&["refresh", "."]);
    assert!(said.code == 1 && said.err.contains("a.knot:7"), "{said:?}");
    assert_eq!(stage.read("tutorials/a.md"), before);
    for (mark, why) in [
        ("../bands/none.knot", "none.knot"),
        ("../bands/a.knot --by magic", "magic"),
        ("../bands/a.knot -o b.md", "`--output`"),
        ("-", "standard input"),
    ] {
        stage = Stage::with(&[("bands/a.knot", GOOD), ("tutorials/a.md", "")]);
        let text = format!("<!-- knotwright write {mark} -->\n{CLOSES}\n");
        stage.write("tutorials/a.md", &text);
        let said = stage.run(&["refresh", "."]);
        assert!(said.code == 2 && said.err.contains(why), "{mark}: {said:?}");
        assert_eq!(stage.read("tutorials/a.md"), text);
    }
}
