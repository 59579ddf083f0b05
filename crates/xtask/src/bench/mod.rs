//! How fast, always as a ratio: against a floor or a peer that runs in turn with us on the same files.

mod growth;
mod outline;
mod pairs;
mod samples;
mod serve;
mod slips;

pub(crate) use serve::null_server;

use crate::run::{is_there, released, run, target};
use pairs::{Ratios, compare};
use samples::Samples;

const FILES: usize = 10_000;
const LINES: usize = 10_000;

/// Measures everything and prints Markdown.
pub(crate) fn bench() -> Result<(), String> {
    let program = released()?;
    let samples = Samples::write(FILES, LINES)?;
    let ruff = peer()?;
    println!("\n| what | against | ratio: median (least to most) |\n| --- | --- | --- |");
    let check = [program.as_str(), "check", samples.patterns.as_str()];
    row("`check`, 10,000 files", "`cat` of the same files", &compare(&check, &samples.cat(), 7)?);
    let peer = [ruff.as_str(), "check", "--no-cache", "--isolated", "--quiet", samples.python.as_str()];
    row(
        "`check`, 10,000 files",
        "`ruff check --no-cache`, as many lines of Python",
        &compare(&check, &peer, 7)?,
    );
    let long = [program.as_str(), "check", samples.long.as_str()];
    row(
        "`check`, one file of 10,000 lines",
        "`cat` of the file",
        &compare(&long, &["cat", &samples.long], 15)?,
    );
    let long_peer =
        [ruff.as_str(), "check", "--no-cache", "--isolated", "--quiet", samples.long_python.as_str()];
    row(
        "`check`, one file of 10,000 lines",
        "`ruff check --no-cache`, as many lines",
        &compare(&long, &long_peer, 15)?,
    );
    if let Some(before) = program_before() {
        let before = |path| [before.as_str(), "check", path];
        row("`check`, 10,000 files", "an earlier build", &compare(&check, &before(&samples.patterns), 7)?);
        row(
            "`check`, one file of 10,000 lines",
            "an earlier build",
            &compare(&long, &before(&samples.long), 15)?,
        );
    }
    slips::slips(&program)?;
    growth::growth(&program)?;
    serve::serve(&program)?;
    println!("\nWhat happens inside one process, each next to its floor:\n");
    run(&["cargo", "bench", "--locked", "--workspace", "--exclude", "xtask"])
}

/// An earlier build of the program to compare with, if `KNOTWRIGHT_BEFORE` names one.
fn program_before() -> Option<String> {
    std::env::var("KNOTWRIGHT_BEFORE").ok()
}

fn row(what: &str, against: &str, outcome: &Ratios) {
    println!("| {what} | {against} | {outcome} |");
}

/// A linter of another language, as a yardstick: ruff, from the Python package index.
fn peer() -> Result<String, String> {
    let home = target().join("bench/tools").display().to_string();
    let ruff = format!("{home}/bin/ruff");
    if !is_there(&[&ruff, "--version"]) {
        run(&["python3", "-m", "venv", &home])?;
        run(&[&format!("{home}/bin/pip"), "install", "--quiet", "ruff"])?;
    }
    Ok(ruff)
}

/// Measures only what must grow with the work and no faster.
pub(crate) fn bench_growth() -> Result<(), String> {
    growth::growth(&released()?)
}

/// Measures only what a slip in each file costs.
pub(crate) fn bench_slips() -> Result<(), String> {
    slips::slips(&released()?)
}

/// Measures the language servers only.
pub(crate) fn bench_serve() -> Result<(), String> {
    serve::serve(&released()?)
}
