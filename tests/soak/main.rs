//! Attacks Knotwright for as long as it is told: `cargo xtask soak`. From one seed come the same cases in the same order.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stderr,
    clippy::print_stdout,
    reason = "a chore reads files, looks at the clock and talks"
)]

mod cases;
mod chance;
#[allow(dead_code, reason = "the protocol's own tests use all of it")]
#[path = "../protocol/client.rs"]
mod client;
mod make;
#[path = "../protocol/model.rs"]
mod model;
mod program;
mod sabotage;
#[allow(dead_code, reason = "the protocol's own tests use all of it")]
#[path = "../protocol/stage.rs"]
mod stage;
mod texts;
mod typed;
mod wire;

use cases::Case;
use chance::Rng;
use make::{KINDS, Maker};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// The most attempts to make a failing case smaller.
const SMALLER: usize = 200;

/// How often it says what it has tried so far.
const REPORT: Duration = Duration::from_secs(60);

/// The time of one attempt that is to be remarked upon.
const SLOW: Duration = Duration::from_secs(20);

/// `soak SECONDS SEED TOP PROGRAM`: how long, from which seed, the top folder of the checkout, and the program.
fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let mut number = || arguments.next().and_then(|number| number.parse::<u64>().ok());
    let (Some(seconds), Some(seed)) = (number(), number()) else { return ExitCode::from(2) };
    let (Some(top), Some(program)) = (arguments.next(), arguments.next()) else { return ExitCode::from(2) };
    program::name(PathBuf::from(program));
    // Panics are caught and reported with their case.
    std::panic::set_hook(Box::new(|_| {}));
    let soak = Soak { top: PathBuf::from(top), seed, end: Instant::now() + Duration::from_secs(seconds) };
    soak.run()
}

struct Soak {
    top: PathBuf,
    seed: u64,
    end: Instant,
}

impl Soak {
    fn run(&self) -> ExitCode {
        println!("seed {}", self.seed);
        let maker = Maker::new(samples(&self.top));
        let mut counts = [0_usize; KINDS.len()];
        let (mut found, mut reported) = (0, Instant::now());
        for round in 0.. {
            if reported.elapsed() > REPORT {
                reported = Instant::now();
                println!("so far {}; {found} found", listed(&counts));
            }
            for (at, (kind, times)) in KINDS.into_iter().enumerate() {
                for nth in 0..times {
                    if Instant::now() >= self.end {
                        return said(&counts, found);
                    }
                    // Each case has a seed of its own, whatever came before.
                    let mut rng =
                        Rng::with_seed(self.seed ^ (round << 20 | (at as u64) << 12 | nth as u64) << 8);
                    counts[at] += 1;
                    found += usize::from(!self.holds(&maker, kind, &mut rng));
                }
            }
        }
        said(&counts, found)
    }

    fn holds(&self, maker: &Maker, kind: &str, rng: &mut Rng) -> bool {
        let begun = Instant::now();
        let Some(case) = maker.case(kind, rng) else {
            let interrupted = (0..4).try_for_each(|_| sabotage::interrupted(rng));
            let ended = interrupted.and_then(|()| sabotage::unread(rng));
            ended.iter().for_each(drop);
            return ended.map_err(|why| println!("found: {why}")).is_ok();
        };
        let ended = case.attempt();
        if begun.elapsed() > SLOW {
            println!("slow: {} seconds for {case:.300?}", begun.elapsed().as_secs());
        }
        ended.map_err(|why| self.keep(case, why)).is_ok()
    }

    /// Makes a failing case as small as it gets, and writes it where the tests replay it.
    fn keep(&self, mut case: Case, mut why: String) {
        let mut left = SMALLER;
        'smaller: while left > 0 {
            for smaller in case.smaller() {
                left -= 1;
                if let Err(reason) = smaller.attempt() {
                    (case, why) = (smaller, reason);
                    continue 'smaller;
                }
                if left == 0 {
                    break;
                }
            }
            break;
        }
        let text = serde_json::to_string(&case).unwrap_or_default();
        let name = text.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
        });
        let path = self.top.join(format!("tests/soak/replay/{name:016x}.json"));
        let written = std::fs::write(&path, text + "\n");
        println!("found: {why}\n  {} ({written:?})", path.display());
    }
}

/// The sample patterns, and those of the corpus.
fn samples(top: &Path) -> Vec<String> {
    let folders = ["shared/patterns", "shared/corpus/accepted", "shared/corpus/refused"];
    let mut files: Vec<PathBuf> = folders
        .iter()
        .filter_map(|folder| std::fs::read_dir(top.join(folder)).ok())
        .flat_map(|entries| entries.filter_map(|entry| Some(entry.ok()?.path())))
        .collect();
    files.sort();
    files.iter().filter_map(|path| std::fs::read_to_string(path).ok()).collect()
}

fn listed(counts: &[usize; KINDS.len()]) -> String {
    KINDS
        .iter()
        .zip(counts)
        .map(|((kind, _), count)| format!("{count} {kind}"))
        .collect::<Vec<_>>()
        .join(", ")
}

fn said(counts: &[usize; KINDS.len()], found: usize) -> ExitCode {
    for ((kind, _), count) in KINDS.iter().zip(counts) {
        println!("{count:>9} {kind}");
    }
    println!("{found:>9} found");
    if found == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
