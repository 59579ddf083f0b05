//! Which files are looked at, and which settings hold for them.

use crate::stage::{BROKEN, DOUBTFUL, GOOD, Stage};

/// The paths of a short report.
fn shown(stage: &Stage, arguments: &[&str]) -> Vec<String> {
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
    assert_eq!(shown(&stage, &["."]), ["a.knot", "deep/er/b.knot"]);
    assert_eq!(shown(&stage, &["deep"]), ["deep/er/b.knot"]);
    assert_eq!(shown(&stage, &["build/d.knot"]), ["build/d.knot"], "what is named is meant");
    assert_eq!(shown(&stage, &["deep/notes.txt"]), ["deep/notes.txt"]);
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
    assert_eq!(shown(&stage, &["."]), ["a.knot"]);
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

/// How a short report calls what it finds in each file.
fn severities(stage: &Stage) -> Vec<(String, String)> {
    let said = stage.run(&["check", "--format", "short", "."]);
    let of = |line: &str| {
        let mut parts = line.split(": ");
        let (place, severity) = (parts.next().unwrap(), parts.next().unwrap());
        (place.split(':').next().unwrap().to_owned(), severity.split('[').next().unwrap().to_owned())
    };
    said.out.lines().map(of).collect()
}

#[test]
fn settings_of_a_folder_add_to_those_above_and_its_bands_may_use_what_lies_above() {
    let library = "pattern \"Fans\"\nmotif line() {\n  take left 1: forward to edge\n}\n";
    let user = DOUBTFUL
        .replace("strands", "use line from \"../fans.knot\"\nstrands")
        .replace("take left 1: forward 3", "work line()");
    let stage = Stage::with(&[
        ("knotwright.toml", "exclude = [\"*.old.knot\"]\n[rules]\nunused-thread = \"error\"\n"),
        ("fans.knot", library),
        ("bands/a.knot", &user),
        ("bands/a.old.knot", BROKEN),
        ("quiet/knotwright.toml", "[rules]\nunused-thread = \"off\"\n"),
        ("quiet/b.knot", DOUBTFUL),
        ("bands/knotwright.toml", "[rules]\nidle-strand = \"off\"\n"),
    ]);
    let error = |path: &str| (path.to_owned(), "error".to_owned());
    assert_eq!(severities(&stage), [error("bands/a.knot")]);
    stage.write("bands/knotwright.toml", "root = true\n");
    let said = stage.run(&["check", "--format", "short", "bands"]);
    assert!(said.out.contains("[import-not-there]"), "a root of its own is all there is: {}", said.out);
    assert!(said.out.contains("bands/a.old.knot:"), "and nothing above it excludes: {}", said.out);
}

#[test]
fn severities_differ_by_folder() {
    let settings = "[[folder]]\npaths = [\"archive/\"]\nrules = { unused-thread = \"off\" }\n\n\
                    [[folder]]\npaths = [\"/shop\"]\n[folder.rules]\nunused-thread = \"error\"\n";
    let stage = Stage::with(&[("knotwright.toml", settings)]);
    ["a.knot", "archive/b.knot", "deep/archive/c.knot", "shop/d.knot"]
        .iter()
        .for_each(|path| stage.write(path, DOUBTFUL));
    let shown = |path: &str, severity: &str| (path.to_owned(), severity.to_owned());
    assert_eq!(severities(&stage), [shown("a.knot", "warning"), shown("shop/d.knot", "error")]);
}

#[test]
fn what_is_excluded_is_left_out_even_if_it_is_named_where_that_is_asked_for() {
    let settings = "exclude = [\"drafts/\", \"*.old.knot\"]\n";
    let stage = Stage::with(&[("knotwright.toml", settings)]);
    ["a.knot", "b.old.knot", "drafts/deep/c.knot"].iter().for_each(|path| stage.write(path, BROKEN));
    let named = ["a.knot", "b.old.knot", "./drafts/deep/c.knot"];
    assert_eq!(shown(&stage, &named).len(), 3, "what is named is meant");
    assert_eq!(shown(&stage, &[&["--heed-exclude"], &named[..]].concat()), ["a.knot"]);
    let said = stage.run(&["check", "--heed-exclude", "b.old.knot"]);
    assert_eq!(
        (said.code, said.err.as_str()),
        (0, "0 files checked: all is well\n"),
        "a hook has nothing to do"
    );
    let said = stage.run(&["format", "--check", "--heed-exclude", "b.old.knot"]);
    assert_eq!(said.code, 0, "{said:?}");
    let said = stage.run(&["check", "--heed-exclude", "lost.knot"]);
    assert_eq!(said.code, 2, "{said:?}");
}

#[cfg(target_os = "linux")]
#[test]
fn settings_that_are_a_pipe_are_not_waited_for() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    stage.pipe("knotwright.toml");
    let said = stage.run(&["check", "."]);
    assert!(said.code == 2 && said.err.contains("neither a file nor a folder"), "{said:?}");
}

#[test]
fn paths_are_reported_as_people_write_them() {
    let stage = Stage::with(&[("bands/a.knot", BROKEN)]);
    for path in ["bands/a.knot", "./bands/a.knot", ".//bands/a.knot", "bands//./a.knot"] {
        assert_eq!(shown(&stage, &[path]), ["bands/a.knot"], "{path}");
    }
    assert_eq!(shown(&stage, &[".//bands/", "./bands/a.knot"]), ["bands/a.knot"], "once");
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
    assert_eq!(shown(&stage, &["b.knot", ".", "./a.knot"]), ["a.knot", "b.knot"]);
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
    assert_eq!(shown(&stage, &["link"]), ["link/a.knot"]);
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
