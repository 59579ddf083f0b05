//! `check`: exit codes, forms, colors.

use crate::stage::{BROKEN, DOUBTFUL, GOOD, Stage, held_to};
use serde_json::Value;

#[test]
fn a_good_pattern_ends_with_0_and_one_line_on_stderr() {
    let said = Stage::with(&[("a.knot", GOOD)]).run(&["check", "a.knot"]);
    assert_eq!((said.code, said.out.as_str()), (0, ""), "{said:?}");
    assert_eq!(said.err, "1 file checked: all is well\n");
}

#[test]
fn an_error_ends_with_1_and_shows_its_line() {
    let said = Stage::with(&[("a.knot", BROKEN)]).run(&["check", "a.knot"]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(
        said.out.contains("[ a.knot:7:16 ]") && said.out.contains("take left 1 (sand): forward 3"),
        "{}",
        said.out
    );
    assert!(said.err.starts_with("1 file checked: 1 error"), "{}", said.err);
}

#[test]
fn warnings_do_no_harm_unless_denied() {
    let stage = Stage::with(&[("a.knot", DOUBTFUL)]);
    let said = stage.run(&["check", "--format", "short", "a.knot"]);
    assert_eq!(said.code, 0, "{said:?}");
    assert!(said.out.starts_with("a.knot:4:8: warning[unused-thread]: "), "{}", said.out);
    assert_eq!(stage.run(&["check", "--deny", "warnings", "a.knot"]).code, 1);
}

#[test]
fn files_are_reported_in_the_order_of_their_names() {
    let names: Vec<String> = (0..1200).map(|number| format!("bands/{number:04}.knot")).collect();
    let files: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), BROKEN)).collect();
    let said = Stage::with(&files).run(&["check", "--format", "short", "bands"]);
    let shown: Vec<&str> = said.out.lines().map(|line| line.split(':').next().unwrap()).collect();
    assert_eq!(shown, names);
    assert!(said.err.starts_with("1200 files checked: 1200 errors"), "{}", said.err);
}

#[test]
fn a_circle_of_files_is_reported_once_however_many_there_are() {
    let file = |next: &str| {
        format!("pattern \"A\"\n\nuse m from \"{next}.knot\"\n\nmotif m() {{\n  take left 1: forward 1\n}}\n")
    };
    let stage = Stage::with(&[("a.knot", &*file("b")), ("b.knot", &*file("c")), ("c.knot", &*file("a"))]);
    let circles = |said: &str| said.matches("[import-circular]").count();
    let said = stage.run(&["check", "--format", "short", "."]);
    assert_eq!((said.code, circles(&said.out)), (1, 1), "{said:?}");
    assert!(said.out.contains("a.knot:3:"), "{said:?}");
    let alone = stage.run(&["check", "--format", "short", "b.knot"]);
    assert_eq!((alone.code, circles(&alone.out)), (1, 1), "{alone:?}");
}

#[test]
fn the_json_form_holds_to_its_schema() {
    let stage = Stage::with(&[("a.knot", BROKEN), ("b.knot", GOOD), ("c.knot", DOUBTFUL)]);
    stage.write("d.knot", b"\xff");
    let said = stage.run(&["check", "--format", "json", "."]);
    let report = held_to("findings-1", serde_json::from_str(&said.out).unwrap());
    let paths: Vec<&str> =
        report["files"].as_array().unwrap().iter().map(|file| file["path"].as_str().unwrap()).collect();
    assert_eq!(paths, ["a.knot", "c.knot", "d.knot"]);
    assert_eq!(report["summary"]["errors"], 1);
    assert_eq!(said.code, 1);
}

#[test]
fn every_form_is_whole_when_there_is_nothing_to_tell() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    for form in ["json", "sarif", "gitlab"] {
        let said = stage.run(&["check", "--format", form, "a.knot"]);
        assert!(serde_json::from_str::<Value>(&said.out).is_ok(), "{form}: {}", said.out);
        assert_eq!(said.code, 0);
    }
    let said = stage.run(&["check", "--format", "junit", "a.knot"]);
    assert!(said.out.ends_with("</testsuites>\n"), "{}", said.out);
    assert_eq!(stage.run(&["check", "--format", "github", "a.knot"]).out, "");
}

#[test]
fn color_is_for_terminals_and_for_those_who_ask() {
    let stage = Stage::with(&[("a.knot", BROKEN)]);
    let colored = |arguments: &[&str], variable: Option<&str>| {
        let mut command = stage.command(arguments);
        variable.map(|value| command.env("NO_COLOR", value));
        let output = command.output().unwrap();
        let has = |bytes: &[u8]| bytes.contains(&0x1b);
        (has(&output.stdout), has(&output.stderr))
    };
    assert_eq!(colored(&["check", "a.knot"], None), (false, false), "no terminal");
    let asked = colored(&["check", "--color", "always", "a.knot"], Some("1"));
    assert!(asked.0, "asked for, whatever NO_COLOR says");
    assert_eq!(colored(&["--color=never", "check", "a.knot"], None), (false, false));
    assert!(colored(&["check", "--color=always", "--help"], None).0);
    assert!(!colored(&["check", "--color=never", "--help"], None).0);
}

#[test]
fn what_is_typed_wrongly_ends_with_2() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    for arguments in [
        &["check"][..],
        &["check", "--format", "poem", "a.knot"],
        &["check", "-", "a.knot"],
        &["check", "--stdin-name", "b.knot", "a.knot"],
        &["check", "--mend", "--format", "json", "-"],
        &["tie", "a.knot"],
        &[],
    ] {
        let said = stage.run(arguments);
        assert_eq!(said.code, 2, "{arguments:?}: {said:?}");
        assert!(said.out.is_empty() && !said.err.is_empty(), "{arguments:?}: {said:?}");
    }
}

#[test]
fn the_parent_of_all_commands_says_what_they_are_for() {
    let said = Stage::with(&[]).run(&["--help"]);
    assert_eq!(said.code, 0);
    for command in ["check", "format", "export", "explain", "new", "completions", "man"] {
        assert!(said.out.contains(&format!("\n  {command}")), "{}", said.out);
    }
}
