//! Two commands in turn, A B A B: what they share of the machine's moods cancels out.

use std::fmt;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// How long A takes for each second that B takes, pair by pair, sorted.
pub(crate) struct Outcome {
    ratios: Vec<f64>,
    median_of_first: Duration,
}

impl fmt::Display for Outcome {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (least, most) = (self.ratios[0], self.ratios[self.ratios.len() - 1]);
        let median = self.ratios[self.ratios.len() / 2];
        write!(out, "{median:.2} ({least:.2} to {most:.2}; ours {} ms)", self.median_of_first.as_millis())
    }
}

/// Runs both once to warm up, then so many pairs.
pub(crate) fn compare(first: &[&str], second: &[&str], pairs: usize) -> Result<Outcome, String> {
    time(first)?;
    time(second)?;
    let mut times = Vec::with_capacity(pairs);
    for _ in 0..pairs {
        times.push((time(first)?, time(second)?));
    }
    let mut ratios: Vec<f64> = times.iter().map(|(a, b)| a.as_secs_f64() / b.as_secs_f64()).collect();
    ratios.sort_by(f64::total_cmp);
    let mut ours: Vec<Duration> = times.iter().map(|(a, _)| *a).collect();
    ours.sort();
    Ok(Outcome { ratios, median_of_first: ours[pairs / 2] })
}

fn time(line: &[&str]) -> Result<Duration, String> {
    let [program, arguments @ ..] = line else { return Err("nothing to run".to_owned()) };
    let begun = Instant::now();
    let status = Command::new(program)
        .args(arguments)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .map_err(|error| format!("{program}: {error}"))?;
    let took = begun.elapsed();
    if status.success() { Ok(took) } else { Err(format!("{program} {} failed", arguments.join(" "))) }
}
