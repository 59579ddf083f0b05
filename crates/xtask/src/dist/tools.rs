//! The tools: installed once, next to what they make, in versions that are known to work.

use crate::run::{is_there, run, run_with};
use std::path::{Path, PathBuf};

/// Crates, their versions, and what has to be asked for.
const CRATES: [(&str, &str, &[&str]); 3] = [
    ("cargo-about", "0.9.3", &["--features", "cli"]),
    ("cargo-cyclonedx", "0.5.9", &[]),
    ("cargo-deb", "3.8.0", &[]),
];
/// Holds the bill of materials to its schema.
const PYTHON: &str = "cyclonedx-python-lib[json-validation]==11.12.0";

/// Where they are.
pub(super) struct DistTools {
    folder: PathBuf,
}

impl DistTools {
    /// Installs what is not there, below a folder.
    pub(super) fn install(folder: &Path) -> Result<Self, String> {
        let tools = Self { folder: folder.join("tools") };
        std::fs::create_dir_all(&tools.folder).map_err(|error| error.to_string())?;
        let (root, build) = (tools.path(""), tools.path("build"));
        for (name, version, more) in CRATES {
            let line =
                ["cargo", "install", "--quiet", "--locked", "--root", &root, "--version", version, name];
            // Cargo itself knows whether it is there in this version.
            run_with(&[&line[..], more].concat(), &[("CARGO_TARGET_DIR", &build)])?;
        }
        if !is_there(&[&tools.python(), "-c", "import cyclonedx.validation.json, jsonschema"]) {
            run(&["python3", "-m", "venv", &tools.path("venv")])?;
            run(&[&tools.python(), "-m", "pip", "install", "--quiet", PYTHON])?;
        }
        Ok(tools)
    }

    /// A program of cargo's.
    pub(super) fn cargo(&self, name: &str) -> String {
        self.path(&format!("bin/{name}"))
    }

    /// The Python that has the library.
    pub(super) fn python(&self) -> String {
        self.path("venv/bin/python")
    }

    fn path(&self, name: &str) -> String {
        self.folder.join(name).to_string_lossy().into_owned()
    }
}
