//! Small words that many answers need.

/// "1 knot", "4 knots"; the plural is the noun with an `s`.
pub(crate) fn count(number: u64, noun: &str) -> String {
    if number == 1 { format!("1 {noun}") } else { format!("{number} {noun}s") }
}

/// 1 is "1st", 12 "12th", 23 "23rd".
pub(crate) fn ordinal(number: u64) -> String {
    let ending = match (number % 100, number % 10) {
        (11..=13, _) => "th",
        (_, 1) => "st",
        (_, 2) => "nd",
        (_, 3) => "rd",
        _ => "th",
    };
    format!("{number}{ending}")
}

/// Text of a pattern as it may stand in an answer: between backticks, without control signs and without signs that
/// turn the direction of writing, at most 60 letters.
pub(crate) fn quoted(text: &str) -> String {
    let mut shown = String::from("`");
    for (at, letter) in text.chars().enumerate() {
        if at == 60 {
            shown.push('…');
            break;
        }
        shown.push(if letter == '`' { '\'' } else { visible(letter) });
    }
    // An empty pair of backticks is no code.
    if text.is_empty() {
        shown.push(' ');
    }
    shown.push('`');
    shown
}

fn visible(letter: char) -> char {
    let turns = matches!(letter, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}');
    if letter.is_control() || turns { '\u{fffd}' } else { letter }
}

/// Millimeters as a person measures them: "4 mm", "15 cm", "2.5 cm".
pub(crate) fn length(millimeters: f64) -> String {
    let (value, unit) =
        if millimeters.abs() < 10.0 { (millimeters, "mm") } else { (millimeters / 10.0, "cm") };
    let text = format!("{value:.1}");
    format!("{} {unit}", text.strip_suffix(".0").unwrap_or(&text))
}

/// "a", "a and b", "a, b and c".
pub(crate) fn both(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [only] => only.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
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
        assert_eq!(
            (length(0.9), length(150.0), length(25.4)),
            ("0.9 mm".into(), "15 cm".into(), "2.5 cm".into())
        );
    }

    #[test]
    fn quoted_text_stays_one_piece_of_code() {
        assert_eq!(quoted("a`b\u{202e}\n"), "`a'b\u{fffd}\u{fffd}`");
        assert_eq!(quoted(""), "` `");
        assert_eq!(quoted(&"k".repeat(80)).chars().count(), 63);
    }
}
