//! Running other programs, and saying which.

use std::env::consts::EXE_SUFFIX;
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

/// The program as the tests have it.
pub(crate) fn program() -> String {
    target().join("debug").join(format!("knotwright{EXE_SUFFIX}")).display().to_string()
}

/// Builds that program; nothing is left to do once `cargo test` has run.
pub(crate) fn build() -> Result<(), String> {
    run(&["cargo", "build", "--profile", "test", "--locked", "--package", "knotwright-cli"])
}

/// Builds the program for release; where it is.
pub(crate) fn released() -> Result<String, String> {
    run(&["cargo", "build", "--release", "--locked", "--package", "knotwright-cli"])?;
    Ok(target().join("release").join(format!("knotwright{EXE_SUFFIX}")).display().to_string())
}

/// Runs one line of a program and its arguments from the top folder; the error is the line that failed.
pub(crate) fn run(line: &[&str]) -> Result<(), String> {
    run_with(line, &[])
}

/// Runs a line from the top folder, with variables of the environment set.
pub(crate) fn run_with(line: &[&str], variables: &[(&str, &str)]) -> Result<(), String> {
    run_with_in(&top(), line, variables)
}

/// Runs a line from another folder.
pub(crate) fn run_in(folder: &Path, line: &[&str]) -> Result<(), String> {
    run_with_in(folder, line, &[])
}

/// Runs a line from another folder and with variables of the environment set.
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_top_folder_is_the_one_of_the_workspace() {
        let manifest = std::fs::read_to_string(top().join("Cargo.toml")).expect("there is a manifest");
        assert!(manifest.starts_with("[workspace]"));
    }

    #[test]
    fn a_step_that_fails_is_named_as_one_would_type_it() {
        assert_eq!(run(&["cargo", "no-such-chore"]), Err("cargo no-such-chore".to_owned()));
        let missing = run(&["no-such-program", "at", "all"]).expect_err("there is no such program");
        assert!(missing.starts_with("no-such-program at all: "), "{missing}");
    }

    #[test]
    fn what_a_program_says_comes_without_its_last_line_break() {
        let version = said(&["cargo", "--version"]).expect("cargo runs the tests");
        assert!(version.starts_with("cargo ") && !version.ends_with('\n'), "{version:?}");
    }

    #[test]
    fn a_folder_is_copied_with_all_that_is_in_it() {
        let folder = tempfile::tempdir().expect("a folder for the test");
        let (from, to) = (folder.path().join("from"), folder.path().join("to"));
        std::fs::create_dir_all(from.join("deep/deeper")).expect("folders can be made");
        std::fs::write(from.join("deep/deeper/knot"), "forward").expect("files can be written");
        copy(&from, &to).expect("it can be copied");
        assert_eq!(std::fs::read_to_string(to.join("deep/deeper/knot")).expect("it was copied"), "forward");
    }
}
