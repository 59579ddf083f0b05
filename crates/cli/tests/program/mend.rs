//! `check --mend`

use crate::stage::{BROKEN, Stage};

/// Four strands of four colors: each goes across once.
const GOOD: &str = "\
pattern \"High tide\"
thread kelp #1f5d50
thread sand #f3e3b8
thread coral #e2725b
thread night #0b1030
strands kelp coral sand night

set {
  take left 1: forward 3
  take left 1: forward 3
  take left 1: forward 3
  take left 1: forward 3
  expect start
}
";

/// One word is misspelled, on line 9; only one cure makes all hold.
fn slip() -> String {
    GOOD.replacen("forward 3", "forwrad 3", 1)
}

#[test]
fn the_only_cure_is_applied_and_told() {
    let stage = Stage::with(&[("a.knot", &slip()), ("b.knot", GOOD)]);
    let before = stage.run(&["check", "."]);
    assert_eq!(before.code, 1);
    assert!(before.err.contains("`--mend` can mend 1"), "{before:?}");
    let said = stage.run(&["check", "--mend", "."]);
    assert_eq!(said.code, 0, "{said:?}");
    assert_eq!(stage.read("a.knot"), GOOD);
    assert!(said.err.contains("a.knot:") && said.err.contains(": mended: "), "{}", said.err);
    assert!(said.err.ends_with("2 files checked: all is well\n"), "{}", said.err);
}

#[test]
fn line_ends_and_the_byte_order_mark_are_kept() {
    let windows = |text: &str| format!("\u{feff}{}", text.replace('\n', "\r\n"));
    let stage = Stage::with(&[("a.knot", &windows(&slip()))]);
    assert_eq!(stage.run(&["check", "--mend", "a.knot"]).code, 0);
    assert_eq!(stage.read("a.knot"), windows(GOOD));
}

#[test]
fn what_has_no_certain_cure_is_reported_and_left() {
    let hopeless = BROKEN.replace("(sand)", "(coral)");
    let stage = Stage::with(&[("a.knot", &hopeless)]);
    let said = stage.run(&["check", "--mend", "a.knot"]);
    assert_eq!(said.code, 1, "{said:?}");
    assert_eq!(stage.read("a.knot"), hopeless);
}

#[test]
fn from_stdin_the_mended_text_is_written_out_and_the_report_to_stderr() {
    let stage = Stage::with(&[]);
    let said = stage.run_with_input(&["check", "--mend", "-"], slip());
    assert_eq!((said.code, said.out.as_str()), (0, GOOD), "{said:?}");
    let hopeless = BROKEN.replace("(sand)", "(coral)");
    let said = stage.run_with_input(&["check", "--mend", "-"], &hopeless);
    assert_eq!((said.code, said.out), (1, hopeless));
    assert!(said.err.contains("[ stdin.knot:7:"), "{}", said.err);
}

#[test]
fn a_fenced_pattern_is_mended_in_its_place() {
    let markdown = |text: &str| {
        format!(
            "# Tides\n\n> ```knot\n{}> ```\n\nend",
            text.lines().map(|line| format!("> {line}\n")).collect::<String>()
        )
    };
    let stage = Stage::with(&[("a.md", &markdown(&slip()))]);
    let said = stage.run(&["check", "--mend", "a.md"]);
    assert_eq!(said.code, 0, "{said:?}");
    assert_eq!(stage.read("a.md"), markdown(GOOD));
}
