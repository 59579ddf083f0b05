//! How long it takes to tie a band.

use crate::measured::Measured;
use knotwright_band::pace::{FittedPace, TimeSpan, TimedWork, TyingWork};
use knotwright_numbers::ToNumber;

/// To cut, sort and fasten one strand, and to close and trim it at the end, in seconds. Common practice, no source.
const STRAND_SECONDS: f64 = 45.0;

/// How long one band takes, in seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BandTime {
    /// What is tied.
    pub work: TyingWork,
    /// To cut, sort, fasten, and to close it at the end.
    pub set_up: TimeSpan,
    /// To tie it.
    pub tying: TimeSpan,
}

impl BandTime {
    /// Of one band.
    pub(super) fn of(measured: &Measured, pace: &FittedPace) -> Self {
        let work = work_until(measured, measured.sets).and(TyingWork::of(&measured.whole.closing));
        let set_up = TimeSpan::usual(STRAND_SECONDS * measured.lengths.len().to_f64());
        Self { work, set_up, tying: pace.time(work) }
    }

    /// In all.
    pub fn whole(&self) -> TimeSpan {
        self.set_up.and(self.tying)
    }
}

/// What is done in the opening and the first `sets` sets.
pub(super) fn work_until(measured: &Measured, sets: u64) -> TyingWork {
    let sets = if measured.pattern.set.is_some() { sets } else { 0 };
    TyingWork::of(&measured.whole.opening).and(TyingWork::of_sets(&measured.whole.sets, sets))
}

/// The names of the columns of a file of times.
const COLUMNS: &str = "knots,turning_knots,pick_ups,seconds";

/// Reads measured times: comma-separated values (RFC 4180) whose first line is [`COLUMNS`], then a line for each time.
///
/// # Errors
/// In words, with the number of the line.
pub fn read_times(text: &str) -> Result<Vec<TimedWork>, String> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut lines = (1..).zip(text.lines()).filter(|(_, line)| !line.trim().is_empty());
    if lines.next().is_none_or(|(_, line)| line.trim() != COLUMNS) {
        return Err(format!("its first line must be `{COLUMNS}`"));
    }
    let timed: Vec<TimedWork> =
        lines.map(|(number, line)| read_time(number, line)).collect::<Result<_, _>>()?;
    if timed.is_empty() {
        Err("it has no times, only the names of the columns".to_owned())
    } else {
        Ok(timed)
    }
}

fn read_time(number: u32, line: &str) -> Result<TimedWork, String> {
    let wrong = || {
        format!(
            "line {number}: write three whole numbers and how many seconds they took, such as `120,8,24,900`; there \
             are at most as many turning knots and pick-ups as knots"
        )
    };
    let fields: Vec<&str> = line.split(',').map(str::trim).collect();
    let [knots, turning, pick_ups, seconds] = fields[..] else { return Err(wrong()) };
    let whole = |text: &str| text.parse::<u32>().map(u64::from).map_err(|_| wrong());
    let work = TyingWork { knots: whole(knots)?, turning: whole(turning)?, pick_ups: whole(pick_ups)? };
    let seconds: f64 = seconds.parse().map_err(|_| wrong())?;
    let is_time = seconds > 0.0 && seconds <= 1e7;
    let is_work = work.knots > 0 && work.turning <= work.knots && work.pick_ups <= work.knots;
    if is_time && is_work { Ok(TimedWork { work, seconds }) } else { Err(wrong()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_line_by_line() {
        let text = "\u{feff}knots,turning_knots,pick_ups,seconds\r\n120,8,24,900\r\n\r\n60, 0, 12, 430.5\r\n";
        let timed = read_times(text).unwrap();
        assert_eq!(timed[0].work, TyingWork { knots: 120, turning: 8, pick_ups: 24 });
        assert_eq!((timed.len(), timed[1].seconds), (2, 430.5));
    }

    #[test]
    fn what_is_no_time_is_reported_with_its_line() {
        let wrong = |lines: &str| read_times(&format!("{COLUMNS}\n{lines}")).unwrap_err();
        for line in ["120,8,24", "120,8,24,0", "120,121,24,900", "0,0,0,5", "a,8,24,900", "120,8,24,inf"] {
            assert!(wrong(&format!("1,0,1,6\n{line}")).starts_with("line 3: "), "{line}");
        }
        assert_eq!(wrong(""), "it has no times, only the names of the columns");
        assert_eq!(read_times("knots\n").unwrap_err(), format!("its first line must be `{COLUMNS}`"));
    }
}
