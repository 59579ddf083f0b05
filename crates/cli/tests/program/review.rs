//! A pull request in the sample repository, looked at with the script that the action runs.

use crate::stage::{Said, Stage};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).ancestors().nth(2).unwrap().to_path_buf()
}

const FILES: [&str; 5] = [
    "knotwright.toml",
    "motifs/ripple.knot",
    "bands/slack-water.knot",
    "bands/mooring.knot",
    "tutorials/first-band.md",
];

/// The sample repository with one commit on `main`, and a branch for the change.
fn repository() -> Stage {
    let stage = Stage::with(&[]);
    for file in FILES {
        stage.write(file, std::fs::read(top().join("tests/repository").join(file)).unwrap());
    }
    git(&stage, &["init", "--quiet", "--initial-branch=main"]);
    commit(&stage);
    git(&stage, &["switch", "--quiet", "--create", "change"]);
    stage
}

fn git(stage: &Stage, arguments: &[&str]) {
    let mut git = Command::new("git");
    git.current_dir(stage.path("")).args([
        "-c",
        "user.name=Tidewatch",
        "-c",
        "user.email=tide@example.invalid",
    ]);
    let done = git.args(["-c", "commit.gpgsign=false"]).args(arguments).output().unwrap();
    assert!(done.status.success(), "{arguments:?}: {done:?}");
}

fn commit(stage: &Stage) {
    git(stage, &["add", "--all"]);
    git(stage, &["commit", "--quiet", "--message", "as it is"]);
}

fn edit(stage: &Stage, file: &str, from: &str, to: &str) {
    let text = stage.read(file);
    assert!(text.contains(from), "{file}: {text}");
    stage.write(file, text.replace(from, to));
}

/// What the script says with these variables.
fn review(stage: &Stage, variables: &[(&str, &str)]) -> Said {
    let mut script = Command::new("bash");
    script.arg(top().join("templates/review.sh")).current_dir(stage.path("")).stdin(Stdio::null());
    script.env("KNOTWRIGHT", env!("CARGO_BIN_EXE_knotwright")).envs(variables.iter().copied());
    Said::from(script.output().unwrap())
}

#[test]
fn the_sample_repository_is_as_it_should_be() {
    let said = review(&repository(), &[("DENY", "warnings")]);
    assert_eq!((said.code, said.out.as_str()), (0, ""), "{said:?}");
    assert!(said.err.starts_with("4 files checked: all is well\n"), "{}", said.err);
}

#[test]
fn a_change_is_checked_compared_and_drawn() {
    let stage = repository();
    edit(&stage, "bands/mooring.knot", "repeat 4", "repeat 8");
    stage.write("bands/new band.knot", stage.read("bands/mooring.knot").replace("Mooring", "Hawser"));
    commit(&stage);
    let said = review(&stage, &[("SINCE", "main"), ("SUMMARY", "summary.md"), ("PICTURES", "pictures")]);
    assert_eq!((said.code, said.out.as_str()), (0, ""), "{said:?}");
    assert!(said.err.starts_with("2 files checked: all is well\n"), "{}", said.err);
    let summary = stage.read("summary.md");
    assert!(summary.contains("mooring.knot") && summary.contains("added"), "{summary}");
    assert!(!summary.contains("slack-water"), "{summary}");
    for picture in ["pictures/bands-mooring.knot.svg", "pictures/bands-new band.knot.svg"] {
        assert!(stage.read(picture).starts_with("<svg"), "{picture}");
    }
    assert!(!stage.path("pictures/bands-slack-water.knot.svg").exists());
}

#[test]
fn a_motif_that_no_longer_fits_is_told_at_the_bands_that_use_it() {
    let stage = repository();
    edit(&stage, "motifs/ripple.knot", "forward to edge", "forward 2");
    commit(&stage);
    let said = review(&stage, &[("SINCE", "main"), ("SUMMARY", "summary.md")]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.out.starts_with("::error file=bands/slack-water.knot,"), "{}", said.out);
    assert!(!said.out.contains("mooring"), "{}", said.out);
}

#[test]
fn a_pattern_written_another_way_is_told_and_its_band_is_the_same() {
    let stage = repository();
    edit(&stage, "bands/mooring.knot", "  repeat", "      repeat");
    commit(&stage);
    let said = review(&stage, &[("SINCE", "main"), ("SUMMARY", "summary.md")]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.err.contains("bands/mooring.knot"), "{}", said.err);
    assert!(stage.read("summary.md").contains("same band"), "{}", stage.read("summary.md"));
}

#[test]
fn a_revision_that_was_not_fetched_ends_with_2() {
    let said = review(&repository(), &[("SINCE", "origin/main")]);
    assert!(said.code == 2 && said.err.contains("origin/main"), "{said:?}");
}
