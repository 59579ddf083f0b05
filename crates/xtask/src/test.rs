//! Everything that must hold.

use crate::run::{program, run};
use crate::{browser, colors, editors, fuzz, vscode};

/// Seconds for each fuzz target: three of them make a minute.
const FUZZ_SECONDS: u32 = 20;

pub(crate) fn test(quick: bool) -> Result<(), String> {
    run(&["cargo", "fmt", "--all", "--check"])?;
    run(&["cargo", "clippy", "--workspace", "--all-targets", "--locked", "--", "-D", "warnings"])?;
    run(&["cargo", "test", "--workspace", "--locked"])?;
    run(&["cargo", "build", "--release", "--locked", "--package", "knotwright-cli"])?;
    let program = program();
    run(&[&program, "check", "--deny", "warnings", "shared/patterns"])?;
    run(&[&program, "format", "--check", "shared/patterns"])?;
    browser::browser()?;
    colors::textmate()?;
    if quick {
        return Ok(());
    }
    editors::editors(&program)?;
    vscode::vscode(&program, false)?;
    fuzz::fuzz(FUZZ_SECONDS)
}

/// Only the sessions of real editors.
pub(crate) fn editors() -> Result<(), String> {
    run(&["cargo", "build", "--release", "--locked", "--package", "knotwright-cli"])?;
    editors::editors(&program())
}
