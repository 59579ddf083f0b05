//! What was measured, as it is shown.

use std::fmt;
use std::time::Duration;

/// How long something took, again and again.
#[derive(Debug, Default)]
pub(super) struct Times {
    all: Vec<Duration>,
    /// Whether it could not be measured.
    is_missing: bool,
}

impl Times {
    /// One more time; `None` if there is none to be had.
    pub(super) fn add(&mut self, time: Option<Duration>) {
        match time {
            Some(time) => self.all.push(time),
            None => self.is_missing = true,
        }
    }

    fn at(&self, hundredths: usize) -> f64 {
        let mut sorted = self.all.clone();
        sorted.sort();
        let time = sorted.get(sorted.len() * hundredths / 100).copied().unwrap_or_default();
        time.as_secs_f64() * 1e3
    }
}

/// The median, and what one in twenty takes longer than, in milliseconds.
impl fmt::Display for Times {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_missing || self.all.is_empty() {
            return out.write_str("-");
        }
        write!(out, "{:.2} ({:.2})", self.at(50), self.at(95))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_and_the_slowest_are_shown() {
        let mut times = Times::default();
        (1..=20).rev().for_each(|time| times.add(Some(Duration::from_millis(time))));
        assert_eq!(times.to_string(), "11.00 (20.00)");
        times.add(None);
        assert_eq!(times.to_string(), "-");
    }
}
