//! What git itself runs: `git-diff` and `merge`, in real git.

use super::{LIBRARY, branched, commit, git, git_says, user, with_a_turn};
use crate::stage::{BROKEN, GOOD, Stage};
use std::process::Command;

/// Lets git run the program for patterns.
fn driven(stage: Stage) -> Stage {
    let program = env!("CARGO_BIN_EXE_knotwright");
    git(&stage, &["config", "diff.knot.command", &format!("'{program}' git-diff")]);
    git(&stage, &["config", "merge.knot.driver", &format!("'{program}' merge %O %A %B %P")]);
    stage.write(".git/info/attributes", "*.knot diff=knot merge=knot\n");
    stage
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn the_same_band_gives_no_lines() {
    let stage = driven(branched(&[
        ("a.knot", GOOD),
        ("b.knot", &user("motifs/tide.knot")),
        ("motifs/tide.knot", LIBRARY),
    ]));
    stage.write(
        "a.knot",
        GOOD.replace("forward 3", "forward to edge").replace("kelp", "weed").replace("Low", "High"),
    );
    stage.write("b.knot", user("motifs/tide.knot").replace("Low", "High"));
    assert_eq!(git_says(&stage, &["diff"]), "");
    git(&stage, &["checkout", "--quiet", "a.knot"]);
    git(&stage, &["mv", "a.knot", "c.knot"]);
    stage.write("c.knot", GOOD.replace("Low", "High"));
    assert_eq!(git_says(&stage, &["diff", "-M", "HEAD"]), "", "nor if it is moved");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn another_band_is_reported_in_words() {
    let stage = driven(branched(&[("a b.knot", GOOD)]));
    stage.write("a b.knot", with_a_turn(GOOD));
    let said = git_says(&stage, &["diff"]);
    assert!(said.starts_with("a b.knot: another band\n") && said.contains("set: "), "{said}");
    commit(&stage);
    assert_eq!(git_says(&stage, &["diff", "main", "change"]), said);
    assert!(git_says(&stage, &["log", "-1", "-p", "--ext-diff"]).ends_with(&said));
    stage.write("new.knot", GOOD);
    commit(&stage);
    let said = git_says(&stage, &["show", "--ext-diff", "--format="]);
    assert_eq!(said.trim_start(), "new.knot: a new band, \"Low tide\", 4 strands\n");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn what_has_no_band_is_reported_line_by_line() {
    let stage = driven(branched(&[("a.knot", GOOD), ("motifs/tide.knot", LIBRARY)]));
    stage.write("a.knot", BROKEN);
    stage.write("motifs/tide.knot", with_a_turn(LIBRARY));
    let said = git_says(&stage, &["diff"]);
    assert!(said.contains("--- a/a.knot\n+++ b/a.knot\n@@"), "{said}");
    assert!(said.contains("-  take left 1: forward 3\n"), "{said}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_library_is_read_as_it_was_with_the_pattern() {
    let stage = driven(branched(&[("a.knot", &user("motifs/tide.knot")), ("motifs/tide.knot", LIBRARY)]));
    let renamed = user("tides.knot");
    git(&stage, &["mv", "motifs/tide.knot", "tides.knot"]);
    stage.write("a.knot", &renamed);
    commit(&stage);
    assert_eq!(git_says(&stage, &["diff", "-M", "main", "change"]), "", "each with its own library");
    stage.write("tides.knot", with_a_turn(LIBRARY));
    stage.write("a.knot", renamed.replace("Low", "High"));
    let said = git_says(&stage, &["diff", "HEAD", "--", "a.knot"]);
    assert!(said.starts_with("a.knot: another band\n"), "{said}");
}

/// Two branches, each with a change of one file, and whether git merges them.
fn merged(base: &str, ours: &str, theirs: &str) -> (bool, String) {
    let stage = driven(branched(&[("a.knot", base)]));
    stage.write("a.knot", theirs);
    commit(&stage);
    git(&stage, &["switch", "--quiet", "main"]);
    stage.write("a.knot", ours);
    commit(&stage);
    let mut merge = Command::new("git");
    merge.current_dir(stage.path("")).args(["-c", "user.name=T", "-c", "user.email=t@example.invalid"]);
    let done = merge.args(["merge", "--quiet", "--no-edit", "change"]).output().unwrap();
    (done.status.success(), stage.read("a.knot"))
}

/// Its steps can be told apart, and each can be changed alone.
const STEPS: &str = "\
pattern \"Low tide\"
thread kelp #1f5d50
thread sand #e3c888
strands 2 kelp 2 sand
set {
  take left 1: forward-backward 1
  take left 2: forward-backward 1
  take left 3: forward-backward 1
  expect start
}
";

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn changes_of_different_steps_are_merged_if_the_band_ties() {
    let ours = STEPS.replace("left 1: forward-backward 1", "left 1: forward-backward 2");
    let theirs = STEPS.replace("left 2: forward-backward 1", "left 2: forward-backward 2");
    let both = ours.replace("left 2: forward-backward 1", "left 2: forward-backward 2");
    assert_eq!(merged(STEPS, &ours, &theirs), (true, both), "neighboring lines");
    let (far, title) = (
        STEPS.replace("left 3: forward-backward 1", "left 3: forward-backward 2"),
        STEPS.replace("Low", "High"),
    );
    assert!(merged(STEPS, &far, &title).0, "lines far from each other");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_promise_that_does_not_hold_for_both_is_a_conflict() {
    // Each crosses once and back; both together do not come back to where they began.
    let ours = STEPS.replace(
        "  take left 1: forward-backward 1\n",
        "  take left 1: forward 1\n  take left 1: forward 1\n",
    );
    let theirs =
        STEPS.replace("  expect start\n", "  take left 1 (kelp): forward-backward 1\n  expect start\n");
    let (merges, text) = merged(STEPS, &ours, &theirs);
    assert!(merges, "both are of one color: {text}");
    let ours = STEPS.replacen("2 kelp 2 sand", "kelp sand kelp sand", 1);
    let theirs =
        STEPS.replace("  expect start\n", "  take left 2 (kelp): forward-backward 1\n  expect start\n");
    let (merges, text) = merged(STEPS, &ours, &theirs);
    assert!(!merges && text.contains("<<<<<<< ours\nstrands kelp sand kelp sand\n=======\n"), "{text}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn two_changes_of_one_step_are_a_conflict() {
    let ours = STEPS.replace("left 1: forward-backward 1", "left 1: forward-backward 2");
    let theirs = STEPS.replace("left 1: forward-backward 1", "left 1: forward-backward 3");
    let (merges, text) = merged(STEPS, &ours, &theirs);
    assert!(!merges && text.contains("<<<<<<< ours\n") && text.contains(">>>>>>> theirs\n"), "{text}");
}
