//! The program: one file that needs no library of the machine it runs on.

use super::Dist;
use crate::run::{run_with_in, said};
use std::path::PathBuf;

/// The wanted target; else the one with musl if rustup has it, else this machine's own with glibc linked in.
pub(super) fn triple(wanted: Option<String>) -> Result<String, String> {
    if let Some(wanted) = wanted {
        return Ok(wanted);
    }
    let version = said(&["rustc", "--version", "--verbose"])?;
    let host = version.lines().find_map(|line| line.strip_prefix("host: ")).unwrap_or_default();
    let installed = said(&["rustup", "target", "list", "--installed"]).unwrap_or_default();
    Ok(without_libraries(host, &installed))
}

/// The target like `host` with musl, if it is among those that are installed; else `host`.
fn without_libraries(host: &str, installed: &str) -> String {
    let musl = host.replace("-gnu", "-musl");
    if installed.lines().any(|line| line == musl) {
        return musl;
    }
    eprintln!("note: {musl} is not installed (`rustup target add {musl}`): glibc is linked in instead");
    host.to_owned()
}

/// Builds it, and answers where it is.
pub(super) fn build(dist: &Dist) -> Result<PathBuf, String> {
    let home = std::env::var("CARGO_HOME")
        .or_else(|_| std::env::var("HOME").map(|home| format!("{home}/.cargo")))
        .map_err(|_| "where is cargo's home? Neither CARGO_HOME nor HOME is set".to_owned())?;
    // Messages of a program that fails name files: not those of this machine.
    let flags = format!(
        "-C target-feature=+crt-static --remap-path-prefix={home}=cargo --remap-path-prefix={}=knotwright",
        dist.source.display()
    );
    let target = dist.build.to_string_lossy();
    let variables = [
        ("RUSTFLAGS", flags.as_str()),
        ("CARGO_TARGET_DIR", &target),
        ("SOURCE_DATE_EPOCH", &dist.commit.epoch),
    ];
    let line = ["cargo", "build", "--locked", "--profile", "dist", "--package", "knotwright-cli", "--target"];
    run_with_in(&dist.source, &[&line[..], &[&dist.triple]].concat(), &variables)?;
    Ok(dist.built().join("knotwright"))
}

#[cfg(test)]
mod tests {
    use super::without_libraries;

    #[test]
    fn musl_is_taken_where_it_is_installed_for_this_machine() {
        let installed = "aarch64-unknown-linux-musl\nx86_64-unknown-linux-gnu\n";
        let ask = |host| without_libraries(host, installed);
        assert_eq!(ask("aarch64-unknown-linux-gnu"), "aarch64-unknown-linux-musl");
        assert_eq!(ask("x86_64-unknown-linux-gnu"), "x86_64-unknown-linux-gnu");
    }
}
