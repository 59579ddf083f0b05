//! Random bytes for the parser, the checker and the formatter, guided by coverage.

use crate::run::{is_there, run, run_with};

const TARGETS: [&str; 3] = ["parse", "check", "format"];

/// cargo-fuzz asks the compiler for unstable flags; this lets the stable compiler take them.
const STABLE: [(&str, &str); 1] = [("RUSTC_BOOTSTRAP", "1")];

/// Runs every target for so many seconds; installs cargo-fuzz if it is not there.
pub(crate) fn fuzz(seconds: u32) -> Result<(), String> {
    if !is_there(&["cargo", "fuzz", "--version"]) {
        run(&["cargo", "install", "--locked", "cargo-fuzz"])?;
    }
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
