//! `check --changed`: what a change concerns, in repositories of real git.

use super::{commit, git};
use crate::stage::{BROKEN, GOOD, Stage};

/// A library with a motif that a user ties.
const LIBRARY: &str = "pattern \"Tides\"\n\nmotif across() {\n  take left 1: forward 3\n}\n";

/// A pattern that ties the motif of `path`, and breaks a promise.
fn user(path: &str) -> String {
    GOOD.replace("strands", &format!("use across from \"{path}\"\nstrands"))
        .replacen("take left 1: forward 3", "work across()", 1)
        .replace("expect start", "expect sand kelp kelp sand")
}

/// A repository in which these were committed.
fn repository(files: &[(&str, &str)]) -> Stage {
    let stage = Stage::with(files);
    git(&stage, &["init", "--quiet"]);
    commit(&stage);
    stage
}

/// The files with findings; every file has some.
fn shown(stage: &Stage, arguments: &[&str]) -> Vec<String> {
    let said = stage.run(&[&["check", "--format", "short", "--changed"], arguments].concat());
    assert!(said.code < 2, "{said:?}");
    let mut shown: Vec<String> =
        said.out.lines().map(|line| line.split(':').next().unwrap().to_owned()).collect();
    shown.dedup();
    shown
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn nothing_changed_is_nothing_to_say() {
    let stage = repository(&[("a.knot", BROKEN)]);
    let said = stage.run(&["check", "--changed", "HEAD", "."]);
    assert_eq!((said.code, said.err.as_str()), (0, "0 files checked: all is well\n"), "{said:?}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn changed_new_and_renamed_files_are_checked_committed_or_not() {
    let stage = repository(&[
        ("changed.knot", GOOD),
        ("old name.knot", BROKEN),
        ("staged.knot", GOOD),
        ("untouched.knot", BROKEN),
        ("deep/committed.md", "# Tides\n"),
    ]);
    stage.write("deep/committed.md", format!("# Tides\n\n```knot\n{BROKEN}```\n"));
    commit(&stage);
    stage.write("changed.knot", BROKEN);
    stage.write("staged.knot", BROKEN);
    stage.write("new.knot", BROKEN);
    git(&stage, &["mv", "old name.knot", "näher.knot"]);
    git(&stage, &["add", "staged.knot"]);
    assert_eq!(shown(&stage, &["HEAD", "."]), ["changed.knot", "new.knot", "näher.knot", "staged.knot"]);
    let since = shown(&stage, &["HEAD~1", "."]);
    assert_eq!(since, ["changed.knot", "deep/committed.md", "new.knot", "näher.knot", "staged.knot"]);
    assert_eq!(shown(&stage, &["HEAD~1", "deep"]), ["deep/committed.md"], "only what was named");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn what_went_on_elsewhere_is_not_part_of_a_branch() {
    let stage = repository(&[("ours.knot", GOOD), ("theirs.knot", BROKEN)]);
    git(&stage, &["switch", "--quiet", "--create", "tides"]);
    stage.write("ours.knot", BROKEN);
    commit(&stage);
    git(&stage, &["switch", "--quiet", "main"]);
    stage.write("theirs.knot", GOOD);
    commit(&stage);
    git(&stage, &["switch", "--quiet", "tides"]);
    assert_eq!(shown(&stage, &["main", "."]), ["ours.knot"]);
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn those_who_use_a_changed_file_are_checked_through_any_number_of_files() {
    let between =
        "pattern \"Waves\"\n\nuse across from \"motifs/tide.knot\"\n\nmotif wave() {\n  work across()\n}\n";
    let far = user("between.knot").replace("across", "wave");
    let stage = repository(&[
        ("bands/near.knot", &user("../motifs/tide.knot")),
        ("between.knot", between),
        ("far.knot", &far),
        ("motifs/tide.knot", LIBRARY),
        ("motifs/other.knot", LIBRARY),
        ("stranger.knot", &user("motifs/other.knot")),
    ]);
    stage.write("motifs/tide.knot", format!("{LIBRARY}-- slack water\n"));
    let near_and_far = shown(&stage, &["HEAD", "."]);
    assert!(near_and_far.contains(&"bands/near.knot".to_owned()), "{near_and_far:?}");
    assert!(near_and_far.contains(&"far.knot".to_owned()), "{near_and_far:?}");
    assert!(!near_and_far.contains(&"stranger.knot".to_owned()), "{near_and_far:?}");
    git(&stage, &["rm", "--quiet", "--force", "motifs/tide.knot"]);
    let gone = shown(&stage, &["HEAD", "."]);
    assert!(gone.contains(&"bands/near.knot".to_owned()), "what it uses is gone: {gone:?}");
    assert!(!gone.contains(&"stranger.knot".to_owned()), "{gone:?}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn other_settings_concern_all_below_them() {
    let stage = repository(&[("a.knot", BROKEN), ("deep/b.knot", BROKEN), ("deep/deeper/c.knot", BROKEN)]);
    stage.write("deep/knotwright.toml", "");
    assert_eq!(shown(&stage, &["HEAD", "."]), ["deep/b.knot", "deep/deeper/c.knot"]);
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_file_that_is_not_there_is_told_whatever_changed() {
    let stage = repository(&[("a.knot", GOOD)]);
    let said = stage.run(&["check", "--changed", "HEAD", "a.knot", "lost.knot"]);
    assert!(said.code == 2 && said.err.contains("lost.knot"), "{said:?}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_repository_within_another_has_changes_of_its_own() {
    let stage = repository(&[("a.knot", BROKEN), ("inner/b.knot", BROKEN), (".gitignore", "/other/\n")]);
    stage.write("other/c.knot", BROKEN);
    git(&stage, &["init", "--quiet", "other"]);
    git(&stage, &["-C", "other", "add", "--all"]);
    git(&stage, &["-C", "other", "commit", "--quiet", "--message", "as it is"]);
    stage.write("other/c.knot", format!("{BROKEN}-- slack water\n"));
    assert_eq!(shown(&stage, &["HEAD", "a.knot", "inner", "other/c.knot"]), ["other/c.knot"]);
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_revision_that_is_none_is_reported() {
    let stage = repository(&[("a.knot", GOOD)]);
    for (revision, why) in [
        ("nowhere", "git knows no revision `nowhere`"),
        ("--output=x", "`--output=x` is not a revision"),
        ("HEAD:a.knot", "`HEAD:a.knot` is not a revision"),
    ] {
        let said = stage.run(&["check", &format!("--changed={revision}"), "."]);
        assert!(said.code == 2 && said.err.contains(why), "{said:?}");
    }
    git(&stage, &["switch", "--quiet", "--orphan", "alone"]);
    stage.write("a.knot", BROKEN);
    commit(&stage);
    let said = stage.run(&["check", "--changed", "main", "."]);
    assert!(said.code == 2 && said.err.contains("no commit in common"), "{said:?}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn outside_of_a_repository_nothing_can_have_changed() {
    let said = Stage::with(&[("a.knot", GOOD)]).run(&["check", "--changed", "HEAD", "a.knot"]);
    assert!(said.code == 2 && said.err.contains("no git repository"), "{said:?}");
    let said = Stage::with(&[]).run_with_input(&["check", "--changed", "HEAD", "-"], GOOD);
    assert!(said.code == 2 && said.err.contains("`--changed`"), "{said:?}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn only_what_changed_is_formatted() {
    let untidy = || GOOD.replace("  take", "     take");
    let stage = repository(&[("old.knot", &untidy()), ("changed.knot", GOOD), ("knotwright.toml", "")]);
    let said = stage.run(&["format", "--check", "--changed", "HEAD", "."]);
    assert_eq!((said.code, said.out.as_str()), (0, ""), "{said:?}");
    stage.write("changed.knot", untidy());
    stage.write("new.knot", untidy());
    stage.write("knotwright.toml", "exclude = []\n");
    let said = stage.run(&["format", "--check", "--changed", "HEAD", "."]);
    assert_eq!((said.code, said.out.as_str()), (1, "changed.knot\nnew.knot\n"), "{said:?}");
    let said = stage.run(&["format", "--changed", "HEAD", "."]);
    assert_eq!((said.code, said.err.as_str()), (0, "2 of 2 files formatted\n"), "{said:?}");
    assert_eq!(stage.read("old.knot"), untidy());
    assert_eq!(stage.run(&["format", "--changed", "HEAD", "-"]).code, 2);
}
