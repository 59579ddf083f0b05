//! Running other programs, and saying which.

use std::path::{Path, PathBuf};
use std::process::Command;

/// The top folder of the checkout.
pub(crate) fn top() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).unwrap_or(here).to_path_buf()
}

/// Where cargo puts what it builds.
pub(crate) fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| top().join("target"), |target| top().join(target))
}

/// The program, as it was built for release.
pub(crate) fn program() -> String {
    target().join("release/knotwright").display().to_string()
}

/// Runs one line of a program and its arguments from the top folder; the error is the line that failed.
pub(crate) fn run(line: &[&str]) -> Result<(), String> {
    run_with(line, &[])
}

/// The same, with variables of the environment set.
pub(crate) fn run_with(line: &[&str], variables: &[(&str, &str)]) -> Result<(), String> {
    run_with_in(&top(), line, variables)
}

/// The same, from another folder.
pub(crate) fn run_in(folder: &Path, line: &[&str]) -> Result<(), String> {
    run_with_in(folder, line, &[])
}

/// The same, from another folder and with variables of the environment set.
pub(crate) fn run_with_in(folder: &Path, line: &[&str], variables: &[(&str, &str)]) -> Result<(), String> {
    let said = line.join(" ");
    eprintln!("\n> {said}");
    let [program, arguments @ ..] = line else { return Ok(()) };
    let status = Command::new(program)
        .args(arguments)
        .envs(variables.iter().copied())
        .current_dir(folder)
        .status()
        .map_err(|error| format!("{said}: {error}"))?;
    if status.success() { Ok(()) } else { Err(said) }
}

/// Copies what is in a folder, and in those within it, to another.
pub(crate) fn copy(from: &Path, to: &Path) -> std::io::Result<()> {
    std::fs::create_dir_all(to)?;
    for entry in std::fs::read_dir(from)? {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            copy(&entry.path(), &target)?;
        } else {
            std::fs::copy(entry.path(), target)?;
        }
    }
    Ok(())
}

/// What a program says, run from the top folder; the error is the line that failed.
pub(crate) fn said(line: &[&str]) -> Result<String, String> {
    let [program, arguments @ ..] = line else { return Ok(String::new()) };
    let output = Command::new(program).args(arguments).current_dir(top()).output();
    let output = output.map_err(|error| format!("{}: {error}", line.join(" ")))?;
    let text = String::from_utf8_lossy(&output.stdout).trim_end().to_owned();
    if output.status.success() { Ok(text) } else { Err(line.join(" ")) }
}

/// Whether a program can be started and is content.
pub(crate) fn is_there(line: &[&str]) -> bool {
    let [program, arguments @ ..] = line else { return false };
    Command::new(program).args(arguments).output().is_ok_and(|output| output.status.success())
}
