//! What the tests need beyond Rust: looked for, and installed where that can be done.
//!
//! Python's package index serves most systems alike, so Node, the newest Neovim and libraries come from there into one
//! folder of their own, `tools` where cargo builds. Only what it lacks (a browser, older editors) is asked of Debian.

mod browser;
mod debian;
mod node;
mod python;

pub(crate) use browser::browser;
pub(crate) use debian::{ask_for, ask_for_package};
pub(crate) use node::{NodeJs, code_server};
pub(crate) use python::{neovim, protocol_types, venv};

use crate::run::target;
use std::path::{Path, PathBuf};

/// The folder of what is installed for this checkout alone.
pub(crate) fn home() -> Result<PathBuf, String> {
    let home = target().join("tools");
    std::fs::create_dir_all(&home).map_err(|error| format!("{}: {error}", home.display()))?;
    Ok(home)
}

/// Where a program is, by the variable PATH.
pub(crate) fn found(program: &str) -> Option<PathBuf> {
    let paths = std::env::var_os("PATH")?;
    let exact = |folder: PathBuf| folder.join(format!("{program}{}", std::env::consts::EXE_SUFFIX));
    std::env::split_paths(&paths).map(exact).find(|path| path.is_file())
}

/// Has a link to a place that only Python knows.
fn link(python: &Path, place: &str, link: &Path) -> Result<(), String> {
    let python = python.display().to_string();
    let code = format!(
        "{place}\nimport sys, os\n\
         if os.path.realpath(sys.argv[1]) != os.path.realpath(place):\n    \
         if os.path.lexists(sys.argv[1]): os.remove(sys.argv[1])\n    \
         os.symlink(place, sys.argv[1])"
    );
    crate::run::said(&[&python, "-c", &code, &link.display().to_string()]).map(|_| ())
}
