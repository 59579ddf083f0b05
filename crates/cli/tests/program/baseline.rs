//! `check --baseline`: an old folder full of warnings, and only what comes to them counts.

use crate::stage::{BROKEN, DOUBTFUL, GOOD, Stage, held_to};

/// Three bands with warnings, one without, and one in Markdown.
fn old() -> Stage {
    let stage = Stage::with(&[("bands/a.knot", DOUBTFUL), ("bands/b.knot", GOOD), ("c.knot", &idle(2))]);
    stage.write("tutorial.md", format!("# Low tide\n\n```knot\n{DOUBTFUL}```\n"));
    stage
}

/// A band with this number of strands at the right that are never tied.
fn idle(strands: usize) -> String {
    GOOD.replace("2 kelp 2 sand", &format!("2 kelp 2 sand {strands} kelp")).replace("  expect start\n", "")
}

fn denied(stage: &Stage) -> (i32, String, String) {
    let said =
        stage.run(&["check", "--deny", "warnings", "--format", "short", "--baseline", "known.json", "."]);
    (said.code, said.out, said.err)
}

#[test]
fn what_is_written_down_does_not_count_and_what_comes_to_it_does() {
    let stage = old();
    assert_eq!(stage.run(&["check", "--deny", "warnings", "."]).code, 1);
    let said = stage.run(&["check", "--deny", "warnings", "--write-baseline", "known.json", "."]);
    assert_eq!((said.code, said.out.as_str()), (0, ""), "{said:?}");
    held_to("baseline-1", serde_json::from_str(&stage.read("known.json")).unwrap());
    let (code, out, err) = denied(&stage);
    assert_eq!((code, out.as_str()), (0, ""), "{err}");
    assert!(err.starts_with("4 files checked: all is well; ") && err.contains("in the baseline"), "{err}");

    stage.write("bands/b.knot", DOUBTFUL);
    let (code, out, _) = denied(&stage);
    assert!(code == 1 && out.starts_with("bands/b.knot:4:8: warning[unused-thread]"), "{out}");
    assert_eq!(out.lines().count(), 1, "{out}");
}

#[test]
fn lines_that_move_and_are_set_otherwise_change_nothing() {
    let stage = old();
    stage.run(&["check", "--write-baseline", "known.json", "."]);
    let first = stage.read("known.json");
    stage.write(
        "bands/a.knot",
        format!("-- from the harbor\n\n\n{}", DOUBTFUL.replace("thread coral", "thread   coral")),
    );
    stage
        .write("tutorial.md", format!("# Low tide\n\nMore words.\n\n> ```knot\n{}> ```\n", quoted(DOUBTFUL)));
    let (code, out, err) = denied(&stage);
    assert_eq!((code, out.as_str()), (0, ""), "{err}");
    assert!(!err.contains("no longer"), "{err}");
    stage.run(&["check", "--write-baseline", "known.json", "."]);
    assert_eq!(stage.read("known.json"), first, "it is the same, byte for byte");
}

fn quoted(text: &str) -> String {
    text.lines().map(|line| format!("> {line}\n")).collect()
}

#[test]
fn one_more_of_the_same_is_not_hidden_by_those_before_it() {
    let stage = old();
    let twice = DOUBTFUL.replace("thread coral #e2725b\n", "thread coral #e2725b\nthread shell #ffeedd\n");
    stage.run(&["check", "--write-baseline", "known.json", "."]);
    stage.write("bands/a.knot", twice);
    let (code, out, _) = denied(&stage);
    assert!(code == 1 && out.contains("shell") && !out.contains("coral"), "{out}");
}

#[test]
fn what_no_longer_occurs_is_reported_and_is_no_fault() {
    let stage = old();
    stage.run(&["check", "--write-baseline", "known.json", "."]);
    stage.write("bands/a.knot", GOOD);
    std::fs::remove_file(stage.path("c.knot")).unwrap();
    let (code, out, err) = denied(&stage);
    assert_eq!((code, out.as_str()), (0, ""), "{err}");
    assert!(
        err.contains("known.json: no longer there: bands/a.knot: unused-thread, in `thread coral #e2725b`\n"),
        "{err}"
    );
    assert!(err.contains("no longer there: c.knot: "), "{err}");
    stage.run(&["check", "--write-baseline", "known.json", "."]);
    assert!(!denied(&stage).2.contains("no longer"));
    assert!(!stage.read("known.json").contains("c.knot"));
}

#[test]
fn errors_are_never_written_down() {
    let stage = Stage::with(&[("a.knot", BROKEN), ("b.knot", DOUBTFUL)]);
    let said = stage.run(&["check", "--format", "short", "--write-baseline", "known.json", "."]);
    assert!(said.code == 1 && said.out.starts_with("a.knot:7:"), "{said:?}");
    assert!(said.err.contains("fix the errors, and write it again"), "{}", said.err);
    let (code, out, _) = denied(&stage);
    assert!(code == 1 && out.starts_with("a.knot:7:") && !out.contains("b.knot"), "{out}");
    stage.write("b.knot", DOUBTFUL.replace("expect start", "expect sand"));
    let (code, _, err) = denied(&stage);
    assert!(code == 1 && !err.contains("no longer there"), "warnings are not looked for now: {err}");
    stage.write("b.knot", DOUBTFUL);
    stage.write("knotwright.toml", "[rules]\nunused-thread = \"error\"\n");
    let (_, out, _) = denied(&stage);
    assert!(!out.contains("b.knot"), "a warning that was made an error was known: {out}");
}

#[test]
fn its_files_are_found_from_its_own_folder() {
    let stage = old();
    stage.write("checks/here.txt", "");
    stage.run(&["check", "--write-baseline", "checks/known.json", "."]);
    let mut there =
        stage.command(&["check", "--deny", "warnings", "--baseline", "../checks/known.json", "a.knot"]);
    let output = there.current_dir(stage.path("bands")).output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{output:?}");
}

#[test]
fn what_is_no_baseline_is_reported() {
    let stage = old();
    for (text, why) in [
        ("", "no baseline"),
        ("<<<<<<< HEAD\n", "no baseline"),
        ("{\"schema\": \"knotwright/baseline/9\", \"known\": []}", "is needed here"),
    ] {
        stage.write("known.json", text);
        let (code, _, err) = denied(&stage);
        assert!(code == 2 && err.starts_with("error: known.json: ") && err.contains(why), "{err}");
    }
    let said = stage.run(&["check", "--write-baseline", "new.json", "--changed", "HEAD", "."]);
    assert!(said.code == 2 && said.err.contains("what all files have"), "{said:?}");
    assert!(!stage.path("new.json").exists());
    let said = stage.run(&["check", "--write-baseline", "a.knot", "bands"]);
    assert!(said.code == 2 && said.err.contains("name of a pattern"), "{said:?}");
}
