//! Counts and ordinals in digits, for tables, margins and other places without much room.

/// "1 knot", "4 knots"; the plural is the noun with an `s`.
pub fn count(number: u64, noun: &str) -> String {
    if number == 1 { format!("1 {noun}") } else { format!("{number} {noun}s") }
}

/// 1 is "1st", 12 "12th", 23 "23rd".
pub fn ordinal(number: u64) -> String {
    format!("{number}{}", crate::ordinal_ending(number))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_aloud() {
        assert_eq!(
            [1, 2, 3, 4, 11, 12, 13, 21, 112].map(ordinal).join(" "),
            "1st 2nd 3rd 4th 11th 12th 13th 21st 112th"
        );
        assert_eq!((count(1, "knot"), count(0, "knot")), ("1 knot".to_owned(), "0 knots".to_owned()));
    }
}
