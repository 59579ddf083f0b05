//! What needs git and bash: `cargo xtask test` installs them and runs these tests; `cargo test` alone passes over them, so that
//! it needs nothing but Rust.

mod changed;
mod compare;
mod completions;
mod drivers;
mod pull_request;
mod review;

use crate::stage::{GOOD, Stage};
use std::process::Command;

fn git(stage: &Stage, arguments: &[&str]) {
    let done = Command::new("git")
        .current_dir(stage.path(""))
        .args(["-c", "user.name=Tidewatch", "-c", "user.email=tide@example.invalid"])
        .args(["-c", "commit.gpgsign=false", "-c", "init.defaultBranch=main"])
        .args(arguments)
        .output()
        .unwrap();
    assert!(done.status.success(), "{arguments:?}: {done:?}");
}

/// Commits all that is there.
fn commit(stage: &Stage) {
    git(stage, &["add", "--all"]);
    git(stage, &["commit", "--quiet", "--message", "as it is"]);
}

/// A repository with one commit of these on `main`, and the branch `change`.
fn branched(files: &[(&str, &str)]) -> Stage {
    let stage = Stage::with(files);
    git(&stage, &["init", "--quiet", "--initial-branch=main"]);
    commit(&stage);
    git(&stage, &["switch", "--quiet", "--create", "change"]);
    stage
}

/// What git writes.
fn git_says(stage: &Stage, arguments: &[&str]) -> String {
    let said = Command::new("git").current_dir(stage.path("")).args(arguments).output().unwrap();
    assert!(said.status.success(), "{arguments:?}: {said:?}");
    String::from_utf8(said.stdout).unwrap()
}

/// A library with a motif.
const LIBRARY: &str = "pattern \"Tides\"\n\nmotif across() {\n  take left 1: forward 3\n}\n";

/// A pattern that ties the motif of the library at `path`.
fn user(path: &str) -> String {
    GOOD.replace("strands", &format!("use across from \"{path}\"\nstrands"))
        .replace("take left 1: forward 3", "work across()")
}

/// Another band of as many strands, that closes as well.
fn with_a_turn(text: &str) -> String {
    text.replace("take left 1: forward 3\n", "take left 1: forward 2, forward-backward 1, forward 1\n")
}
