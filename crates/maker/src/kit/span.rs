//! Times as a clock shows them.

use knotwright_numbers::ToNumber;

/// Hours and minutes, to the next minute: `1 h 05 min`, `20 min`.
pub fn in_hours(seconds: f64) -> String {
    let minutes = (seconds / 60.0).ceil().to_u64();
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, minutes) => format!("{hours} h {minutes:02} min"),
    }
}

/// As the counter of a camera shows it: `1:05:20`.
pub(super) fn on_counter(seconds: f64) -> String {
    let seconds = seconds.round().to_u64();
    format!("{}:{:02}:{:02}", seconds / 3600, seconds / 60 % 60, seconds % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minutes_are_whole_and_never_too_few() {
        assert_eq!(in_hours(1.0), "1 min");
        assert_eq!(in_hours(3601.0), "1 h 01 min");
        assert_eq!(in_hours(7200.0), "2 h 00 min");
    }

    #[test]
    fn a_counter_shows_hours_minutes_and_seconds() {
        assert_eq!((on_counter(0.2), on_counter(3725.0)), ("0:00:00".to_owned(), "1:02:05".to_owned()));
    }
}
