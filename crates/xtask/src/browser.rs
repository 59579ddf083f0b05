//! The sheet and the live picture in a real browser.

use crate::editors;
use crate::run::{is_there, run, run_with, target};

/// Debian's name of the browser, and of its program.
const BROWSER: &str = "chromium";

/// Installs the browser if it is missing.
pub(crate) fn install() -> Result<(), String> {
    if is_there(&[BROWSER, "--version"]) {
        return Ok(());
    }
    // A new machine knows no packages before it has asked once.
    run(&["apt-get", "update", "--quiet"])?;
    run(&["apt-get", "install", "--yes", "--no-install-recommends", BROWSER])
}

/// Installs what is missing (a browser, and the packages that the lock file names), and runs `tests/browser`.
pub(crate) fn browser() -> Result<(), String> {
    install()?;
    run(&["npm", "ci", "--prefix", "tests/browser", "--no-audit", "--no-fund"])?;
    run(&["cargo", "build", "--locked", "--package", "knotwright-cli"])?;
    let program = target().join("debug/knotwright").display().to_string();
    let neovim = editors::neovim()?;
    run_with(&["npm", "test", "--prefix", "tests/browser"], &[("KNOTWRIGHT", &program), ("NEOVIM", &neovim)])
}
