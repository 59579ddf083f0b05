//! Whose work is in the program: the licenses, and a bill of materials.

use super::{Dist, tools::DistTools};
use crate::run::{run, run_with_in};
use std::fs;

/// What the tool calls the bill of materials of every crate.
const BILL: &str = "bill-of-materials";

/// The list of licenses with their texts. Fails if one is not among those that are accepted.
pub(super) fn licenses(dist: &Dist, tools: &DistTools) -> Result<(), String> {
    // Also those of other systems, which the tool wants to look at.
    run_with_in(&dist.source, &["cargo", "fetch", "--locked", "--quiet"], &[])?;
    let list = dist.stage().join("THIRD-PARTY.txt");
    let about = tools.cargo("cargo-about");
    let options = ["--config", "packaging/licenses.toml", "--manifest-path", "crates/cli/Cargo.toml"];
    let output =
        ["--target", &dist.triple, "--output-file", &list.to_string_lossy(), "packaging/licenses.hbs"];
    let line =
        [&[about.as_str(), "generate", "--offline", "--locked", "--fail"], &options[..], &output].concat();
    run_with_in(&dist.source, &line, &[])
}

/// The bill of materials, held to its published schema.
pub(super) fn bill_of_materials(dist: &Dist, tools: &DistTools) -> Result<(), String> {
    let cyclonedx = tools.cargo("cargo-cyclonedx");
    let options = ["--format", "json", "--spec-version", "1.5", "--no-build-deps", "--quiet"];
    let what = ["--manifest-path", "crates/cli/Cargo.toml", "--target", &dist.triple];
    let line =
        [&[cyclonedx.as_str(), "cyclonedx"], &options[..], &what, &["--override-filename", BILL]].concat();
    run_with_in(&dist.source, &line, &[("SOURCE_DATE_EPOCH", &dist.commit.epoch)])?;
    let (from, to) = (
        dist.source.join(format!("crates/cli/{BILL}.json")),
        dist.folder.join(format!("{}.cdx.json", dist.name())),
    );
    let text = fs::read_to_string(&from).map_err(|error| format!("{}: {error}", from.display()))?;
    // The tool names our crates by where they lie.
    let text = text.replace(&*dist.source.to_string_lossy(), "/knotwright");
    fs::write(&to, text).map_err(|error| format!("{}: {error}", to.display()))?;
    run(&[&tools.python(), "packaging/bom.py", &to.to_string_lossy()])
}
