//! A pull request in the sample repository, looked at with the script that the action runs.

use super::{commit, git};
use crate::stage::{GOOD, Said, Stage};
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

fn edit(stage: &Stage, file: &str, from: &str, to: &str) {
    let text = stage.read(file);
    assert!(text.contains(from), "{file}: {text}");
    stage.write(file, text.replace(from, to));
}

/// What the script says with these variables.
fn review(stage: &Stage, variables: &[(&str, &str)]) -> Said {
    let mut script = Command::new("bash");
    script.arg(top().join("packaging/review.sh")).current_dir(stage.path("")).stdin(Stdio::null());
    script.env("KNOTWRIGHT", env!("CARGO_BIN_EXE_knotwright")).envs(variables.iter().copied());
    Said::from(script.output().unwrap())
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn the_sample_repository_is_as_it_should_be() {
    let said = review(&repository(), &[("DENY", "warnings")]);
    assert_eq!((said.code, said.out.as_str()), (0, ""), "{said:?}");
    assert!(said.err.starts_with("4 files checked: all is well\n"), "{}", said.err);
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_change_is_checked_reviewed_and_drawn() {
    let stage = repository();
    edit(&stage, "bands/mooring.knot", "repeat 4", "repeat 8");
    stage.write("bands/new band.knot", stage.read("bands/mooring.knot").replace("Mooring", "Hawser"));
    commit(&stage);
    let files =
        [("SUMMARY", "summary.md"), ("REPORT", "report"), ("REPORT_URL", "https://example.invalid/1/")];
    let said = review(&stage, &[&[("SINCE", "main"), ("SARIF", "findings.sarif")], &files[..]].concat());
    assert_eq!((said.code, said.out.as_str()), (0, ""), "{said:?}");
    assert!(stage.read("findings.sarif").contains("\"version\":\"2.1.0\""));
    assert!(said.err.starts_with("2 files checked: all is well\n"), "{}", said.err);
    let summary = stage.read("summary.md");
    assert!(summary.contains("**Band changed** bands/mooring.knot"), "{summary}");
    assert!(summary.contains("**Added** bands/new band.knot"), "{summary}");
    assert!(summary.contains("(<https://example.invalid/1/>)"), "{summary}");
    assert!(!summary.contains("slack-water"), "{summary}");
    for picture in ["mooring.knot.before.svg", "mooring.knot.after.svg", "new band.knot.after.svg"] {
        assert!(stage.read(&format!("report/pictures/bands/{picture}")).starts_with("<svg"), "{picture}");
    }
    assert!(!stage.path("report/pictures/bands/slack-water.knot.after.svg").exists());
    assert!(stage.read("report/index.html").contains("data:image/svg+xml"));
    let said = review(&stage, &[("SINCE", "main"), ("FAIL_ON", "band")]);
    assert!(said.code == 1 && said.err.contains("Since main: 1 band changed, 1 added."), "{said:?}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_tutorial_that_is_out_of_date_is_reported() {
    let stage = repository();
    let shown = "# ThreadReport\n\n<!-- knotwright write ../bands/mooring.knot -->\n\n<!-- /knotwright -->\n";
    stage.write("tutorials/told.md", shown);
    commit(&stage);
    let said = review(&stage, &[("SINCE", "main")]);
    assert!(said.code == 1 && said.err.contains("tutorials/told.md"), "{said:?}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn paths_that_end_in_a_line_break_are_formatted_and_refreshed_too() {
    let stage = repository();
    edit(&stage, "bands/mooring.knot", "  repeat", "      repeat");
    let shown = "# Told\n\n<!-- knotwright write ../bands/mooring.knot -->\n\n<!-- /knotwright -->\n";
    stage.write("tutorials/told.md", shown);
    for paths in ["bands\ntutorials\n", "bands\n\ntutorials", "\n"] {
        let said = review(&stage, &[("PATHS", paths)]);
        assert_eq!(said.code, 1, "{paths:?}: {said:?}");
        assert!(said.err.contains("bands/mooring.knot"), "{paths:?}: {said:?}");
        assert!(said.err.contains("tutorials/told.md"), "{paths:?}: {said:?}");
    }
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn names_with_any_letters_are_formatted_and_refreshed_too() {
    let stage = repository();
    let band = stage.read("bands/mooring.knot").replace("  repeat", "      repeat");
    stage.write("other/Trosse längs.knot", band);
    let shown = "# Told\n\n<!-- knotwright write \"Trosse längs.knot\" -->\n\n<!-- /knotwright -->\n";
    stage.write("other/erzählt.md", shown);
    let said = review(&stage, &[("PATHS", "other")]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(
        said.err.contains("other/Trosse längs.knot") && said.err.contains("other/erzählt.md"),
        "{said:?}"
    );
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn outside_a_repository_it_ends_with_2() {
    let stage = Stage::with(&[("band.knot", GOOD)]);
    let said = review(&stage, &[("GIT_CEILING_DIRECTORIES", "/")]);
    assert_eq!(said.code, 2, "{said:?}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn what_was_badly_formatted_before_is_not_of_this_change() {
    let stage = repository();
    git(&stage, &["switch", "--quiet", "main"]);
    edit(&stage, "bands/mooring.knot", "  repeat", "      repeat");
    commit(&stage);
    git(&stage, &["switch", "--quiet", "--create", "later"]);
    edit(&stage, "bands/slack-water.knot", "Slack water", "High water");
    commit(&stage);
    let said = review(&stage, &[("SINCE", "main")]);
    assert_eq!(said.code, 0, "{said:?}");
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_motif_that_no_longer_fits_is_reported_at_the_bands_that_use_it() {
    let stage = repository();
    edit(&stage, "motifs/ripple.knot", "forward to edge", "forward 2");
    commit(&stage);
    let said = review(&stage, &[("SINCE", "main"), ("SUMMARY", "summary.md")]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.out.starts_with("::error file=motifs/ripple.knot,line=5,"), "{}", said.out);
    assert!(said.out.contains("in bands/slack-water.knot on line 14"), "{}", said.out);
    assert!(!said.out.contains("mooring"), "{}", said.out);
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_pattern_written_another_way_is_reported_and_its_band_is_the_same() {
    let stage = repository();
    edit(&stage, "bands/mooring.knot", "  repeat", "      repeat");
    commit(&stage);
    let said = review(&stage, &[("SINCE", "main"), ("SUMMARY", "summary.md")]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.err.contains("bands/mooring.knot"), "{}", said.err);
    assert!(stage.read("summary.md").contains("**Only formatted**"), "{}", stage.read("summary.md"));
}

#[test]
#[ignore = "needs git and bash: `cargo xtask test` runs it"]
fn a_revision_that_was_not_fetched_ends_with_2() {
    let said = review(&repository(), &[("SINCE", "origin/main")]);
    assert!(said.code == 2 && said.err.contains("origin/main"), "{said:?}");
}
