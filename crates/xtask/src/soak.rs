//! The attack: random edits, texts, files, settings, bytes and interruptions, for as long as it is told.

use crate::run::{build, program, run, top};
use std::time::{SystemTime, UNIX_EPOCH};

/// Builds what is attacked as the tests have it, and attacks it. Without a seed, the time is one.
pub(crate) fn soak(seconds: u64, seed: Option<u64>) -> Result<(), String> {
    build()?;
    let since = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_secs());
    let (seconds, seed) = (seconds.to_string(), seed.unwrap_or(since).to_string());
    let line = ["cargo", "run", "--quiet", "--profile", "test", "--locked", "--package", "knotwright-tests"];
    let top = top().display().to_string();
    run(&[&line[..], &["--example", "soak", "--", &seconds, &seed, &top, &program()]].concat())
}
