//! Packages for those who install: Debian's, and the extension of the editor.

use super::{Dist, tools::DistTools};
use crate::run::run_with_in;
use crate::vscode;
use std::path::Path;

/// The Debian package, as `crates/cli/Cargo.toml` describes it.
pub(super) fn debian(dist: &Dist, tools: &DistTools) -> Result<(), String> {
    let (deb, target) = (tools.cargo("cargo-deb"), dist.build.to_string_lossy());
    let folder = format!("{}/", dist.folder.display());
    let options = ["--package", "knotwright-cli", "--no-build", "--no-strip", "--no-dbgsym", "--quiet"];
    let what = ["--profile", "dist", "--target", &dist.triple, "--output", &folder];
    let variables = [("CARGO_TARGET_DIR", &*target), ("SOURCE_DATE_EPOCH", &dist.commit.epoch)];
    run_with_in(&dist.source, &[&[deb.as_str()], &options[..], &what].concat(), &variables)
}

/// The extension for VS Code, with this very program in it.
pub(super) fn extension(dist: &Dist, program: &Path) -> Result<(), String> {
    let (from, to) =
        (vscode::pack(&program.to_string_lossy())?, dist.folder.join(format!("{}.vsix", dist.name())));
    std::fs::copy(&from, &to).map(|_| ()).map_err(|error| format!("{}: {error}", from.display()))
}
