//! Which files are looked at, and which settings hold for them.

use crate::stage::{BROKEN, DOUBTFUL, GOOD, Stage};

/// The paths of a short report.
fn told(stage: &Stage, arguments: &[&str]) -> Vec<String> {
    let said = stage.run(&[&["check", "--format", "short"], arguments].concat());
    said.out.lines().map(|line| line.split(':').next().unwrap().to_owned()).collect()
}

#[test]
fn folders_are_walked_and_what_is_ignored_or_hidden_is_left_out() {
    let stage = Stage::with(&[
        ("a.knot", BROKEN),
        ("deep/er/b.knot", BROKEN),
        ("deep/notes.txt", BROKEN),
        (".hidden/c.knot", BROKEN),
        (".gitignore", "build/\n"),
        ("build/d.knot", BROKEN),
        ("deep/.gitignore", "*.old.knot\n"),
        ("deep/e.old.knot", BROKEN),
    ]);
    assert_eq!(told(&stage, &["."]), ["a.knot", "deep/er/b.knot"]);
    assert_eq!(told(&stage, &["deep"]), ["deep/er/b.knot"]);
    assert_eq!(told(&stage, &["build/d.knot"]), ["build/d.knot"], "what is named is meant");
    assert_eq!(told(&stage, &["deep/notes.txt"]), ["deep/notes.txt"]);
}

#[test]
fn settings_exclude_and_set_severities_for_all_below() {
    let stage = Stage::with(&[
        ("knotwright.toml", "exclude = [\"drafts/\"]\n\n[rules]\nunused-thread = \"error\"\n"),
        ("drafts/a.knot", BROKEN),
        ("bands/b.knot", DOUBTFUL),
    ]);
    let said = stage.run(&["check", "--format", "short", "."]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.out.starts_with("bands/b.knot:4:8: error[unused-thread]"), "{}", said.out);
    assert_eq!(said.out.lines().count(), 1, "{}", said.out);
}

#[test]
fn the_settings_shown_in_the_docs_are_understood() {
    let page = include_str!("../../../../docs/checking.md");
    let settings = page.split("```toml\n").nth(1).unwrap().split("```").next().unwrap();
    let stage = Stage::with(&[
        ("knotwright.toml", settings),
        ("a.knot", BROKEN),
        ("drafts/b.knot", BROKEN),
        ("c.old.knot", BROKEN),
    ]);
    assert_eq!(told(&stage, &["."]), ["a.knot"]);
}

#[test]
fn settings_that_cannot_be_understood_end_with_2() {
    for settings in
        ["exclude = 3\n", "[rules]\nno-such-rule = \"error\"\n", "not toml\n", "exclude = [\"{\"]\n"]
    {
        let stage = Stage::with(&[("knotwright.toml", settings), ("a.knot", GOOD)]);
        let said = stage.run(&["check", "a.knot"]);
        assert_eq!(said.code, 2, "{settings}: {said:?}");
        assert!(said.err.starts_with("error: ") && said.err.contains("knotwright.toml: "), "{}", said.err);
    }
}

#[test]
fn settings_above_the_repository_do_not_count() {
    let stage = Stage::with(&[
        ("knotwright.toml", "[rules]\nunused-thread = \"error\"\n"),
        ("clone/.git/HEAD", ""),
        ("clone/a.knot", DOUBTFUL),
    ]);
    assert_eq!(stage.run(&["check", "clone"]).code, 0);
}

#[test]
fn a_file_that_is_meant_twice_is_looked_at_once() {
    let stage = Stage::with(&[("a.knot", BROKEN), ("b.knot", BROKEN)]);
    assert_eq!(told(&stage, &["b.knot", ".", "./a.knot"]), ["a.knot", "b.knot"]);
}

#[cfg(unix)]
#[test]
fn a_folder_is_walked_through_a_link_that_was_typed() {
    let stage = Stage::with(&[
        ("bands/knotwright.toml", "exclude = [\"old/\"]\n"),
        ("bands/a.knot", BROKEN),
        ("bands/old/b.knot", BROKEN),
    ]);
    std::os::unix::fs::symlink("bands", stage.path("link")).unwrap();
    assert_eq!(told(&stage, &["link"]), ["link/a.knot"]);
}

#[test]
fn nothing_to_do_is_a_mistake() {
    let stage = Stage::with(&[("notes.txt", "")]);
    let said = stage.run(&["check", "."]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("no `.knot` or `.md` file"), "{}", said.err);
}

#[test]
fn a_library_is_found_beside_the_pattern_and_not_outside() {
    let library = "pattern \"Fans\"\nmotif line() {\n  take left 1: forward to edge\n}\n";
    let user = |path: &str| {
        GOOD.replace("strands", &format!("use line from \"{path}\"\nstrands"))
            .replace("take left 1: forward 3", "work line()")
    };
    let stage =
        Stage::with(&[("work/.git/HEAD", ""), ("work/lib/fans.knot", library), ("fans.knot", library)]);
    stage.write("work/bands/a.knot", user("../lib/fans.knot"));
    stage.write("work/bands/b.knot", user("../../fans.knot"));
    let said = stage.run(&["check", "--format", "short", "work/bands/a.knot"]);
    assert_eq!(said.code, 0, "{said:?}");
    let said = stage.run(&["check", "--format", "short", "work/bands/b.knot"]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.out.contains("[import-not-there]"), "{}", said.out);
}

#[cfg(unix)]
#[test]
fn a_symbolic_link_out_of_the_workspace_is_not_followed() {
    let library = "pattern \"Fans\"\nmotif line() {\n  take left 1: forward to edge\n}\n";
    let user = GOOD.replace("strands", "use line from \"link.knot\"\nstrands");
    let stage = Stage::with(&[("work/.git/HEAD", ""), ("work/a.knot", &user), ("secret.knot", library)]);
    std::os::unix::fs::symlink(stage.path("secret.knot"), stage.path("work/link.knot")).unwrap();
    let said = stage.run(&["check", "--format", "short", "work"]);
    assert!(said.out.contains("work/a.knot:4:") && said.out.contains("[import-not-there]"), "{}", said.out);
    assert!(said.err.starts_with("1 file checked"), "a walk follows no links: {}", said.err);
}
