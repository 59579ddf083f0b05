//! Random bytes for the parser, the checker, the formatter and what else takes bytes from outside, guided by coverage.

use crate::run::{is_there, run, run_with};

const TARGETS: [&str; 7] = ["parse", "check", "format", "compare", "markdown", "settings", "wire"];

/// cargo-fuzz asks the compiler for unstable flags; this lets the stable compiler take them.
const STABLE: [(&str, &str); 1] = [("RUSTC_BOOTSTRAP", "1")];

/// Installs cargo-fuzz if it is not there.
pub(crate) fn install() -> Result<(), String> {
    if is_there(&["cargo", "fuzz", "--version"]) {
        return Ok(());
    }
    run(&["cargo", "install", "--locked", "cargo-fuzz"])
}

/// Runs every target for some seconds.
pub(crate) fn fuzz(seconds: u32) -> Result<(), String> {
    install()?;
    let time = format!("-max_total_time={seconds}");
    for target in TARGETS {
        let line = ["cargo", "fuzz", "run", "--fuzz-dir", "tests/fuzz", "--sanitizer", "none", target];
        let samples = ["tests/fuzz/corpus", target].join("/");
        let found = [samples.as_str(), "shared/patterns", "shared/corpus/accepted", "shared/corpus/refused"];
        let limits = ["--", time.as_str(), "-max_len=4096", "-timeout=10", "-rss_limit_mb=4096"];
        std::fs::create_dir_all(crate::run::top().join(&samples)).map_err(|error| error.to_string())?;
        run_with(&[&line[..], &found[..], &limits[..]].concat(), &STABLE)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::TARGETS;

    #[test]
    fn every_target_that_there_is_is_run() {
        let folder = crate::run::top().join("tests/fuzz/fuzz_targets");
        let files = std::fs::read_dir(folder).expect("there are targets");
        let mut there: Vec<_> = files
            .map(|file| file.expect("a folder can be read").path())
            .map(|path| path.file_stem().unwrap_or_default().to_string_lossy().into_owned())
            .collect();
        there.sort();
        let mut run = TARGETS;
        run.sort_unstable();
        assert_eq!(there, run);
    }
}
