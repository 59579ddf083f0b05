//! Two commands in turn, A B A B: what they share of the machine's moods cancels out.

use std::fmt;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// How long A takes for each second that B takes, pair by pair, sorted.
pub(crate) struct Ratios {
    ratios: Vec<f64>,
    median_of_first: Duration,
}

impl fmt::Display for Ratios {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (least, most) = (self.ratios[0], self.ratios[self.ratios.len() - 1]);
        let median = self.ratios[self.ratios.len() / 2];
        write!(out, "{median:.2} ({least:.2} to {most:.2}; ours {} ms)", self.median_of_first.as_millis())
    }
}

/// Runs both once to warm up, then in pairs.
pub(crate) fn compare(first: &[&str], second: &[&str], pairs: usize) -> Result<Ratios, String> {
    compare_times(|| time(first), || time(second), pairs)
}

/// Runs two that are timed otherwise: both once to warm up, then in pairs.
pub(crate) fn compare_times(
    first: impl Fn() -> Result<Duration, String>,
    second: impl Fn() -> Result<Duration, String>,
    pairs: usize,
) -> Result<Ratios, String> {
    first()?;
    second()?;
    let mut times = Vec::with_capacity(pairs);
    for _ in 0..pairs {
        times.push((first()?, second()?));
    }
    Ok(Ratios::of(&times))
}

impl Ratios {
    /// From how long both took, pair by pair; there is at least one.
    fn of(times: &[(Duration, Duration)]) -> Self {
        let mut ratios: Vec<f64> = times.iter().map(|(a, b)| a.as_secs_f64() / b.as_secs_f64()).collect();
        ratios.sort_by(f64::total_cmp);
        let mut ours: Vec<Duration> = times.iter().map(|(a, _)| *a).collect();
        ours.sort();
        Self { ratios, median_of_first: ours[ours.len() / 2] }
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_that_of_the_pairs_and_not_of_the_times() {
        let ms = Duration::from_millis;
        // In the second pair the machine was busy: both took four times as long.
        let ratios = Ratios::of(&[(ms(30), ms(10)), (ms(80), ms(40)), (ms(10), ms(10))]);
        assert_eq!(ratios.to_string(), "2.00 (1.00 to 3.00; ours 30 ms)");
    }
}
