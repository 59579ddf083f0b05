//! Small words that many sentences need: ordinals, counts, lists, a strand and its place, quoted text.

use crate::{Side, Sighting};
use std::fmt::Write;

const ONES: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const ORDINALS: [&str; 20] = [
    "zeroth",
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
    "tenth",
    "eleventh",
    "twelfth",
    "thirteenth",
    "fourteenth",
    "fifteenth",
    "sixteenth",
    "seventeenth",
    "eighteenth",
    "nineteenth",
];
const TENS: [&str; 10] =
    ["", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

/// 3 is "third", 21 "twenty-first", 112 "112th".
pub(crate) fn ordinal(number: usize) -> String {
    match (number, number / 10, number % 10) {
        (0..=19, ..) => ORDINALS[number].to_owned(),
        (20..=99, tens, 0) => format!("{}ieth", TENS[tens].trim_end_matches('y')),
        (20..=99, tens, ones) => format!("{}-{}", TENS[tens], ORDINALS[ones]),
        _ => format!("{number}{}", ending(number)),
    }
}

fn ending(number: usize) -> &'static str {
    match (number % 100, number % 10) {
        (11..=13, _) => "th",
        (_, 1) => "st",
        (_, 2) => "nd",
        (_, 3) => "rd",
        _ => "th",
    }
}

/// "no strands", "one strand", "four strands", "24 strands"; the plural is the noun with an `s`.
pub(crate) fn count(number: u64, noun: &str) -> String {
    match number {
        0 => format!("no {noun}s"),
        1 => format!("one {noun}"),
        2..=12 => format!("{} {noun}s", ONES[number as usize]),
        _ => format!("{number} {noun}s"),
    }
}

/// Up to twelve in letters, from there in digits.
pub(crate) fn number(number: u64) -> String {
    if number <= 12 { ONES[number as usize].to_owned() } else { number.to_string() }
}

/// The first letter large, as a sentence begins.
pub(crate) fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// "a", "a or b", "a, b or c".
pub(crate) fn either(words: &[&str]) -> String {
    list(words, "or")
}

/// "a", "a and b", "a, b and c".
pub(crate) fn both(words: &[&str]) -> String {
    list(words, "and")
}

fn list(words: &[&str], joint: &str) -> String {
    match words {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [most @ .., last] => format!("{} {joint} {last}", most.join(", ")),
    }
}

/// Text of a pattern as it may stand in a sentence: in quotation marks of the notation, without control
/// signs, without marks that turn the direction of writing, and not longer than 40 letters.
pub(crate) fn quoted(text: &str) -> String {
    let mut shown = String::from("`");
    for (at, letter) in text.chars().enumerate() {
        if at == 40 {
            shown.push('…');
            break;
        }
        shown.push(if letter == '`' { '\'' } else { visible(letter) });
    }
    shown.push('`');
    shown
}

/// Text from outside (a path, a reason) without anything that could steer a terminal.
pub(crate) fn cleaned(text: &str) -> String {
    text.chars().map(visible).collect()
}

fn visible(letter: char) -> char {
    let turns = matches!(letter, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}');
    if letter.is_control() || turns { '\u{fffd}' } else { letter }
}

/// "left" or "right".
pub(crate) fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

/// "the third strand from the left".
pub(crate) fn strand_at(position: usize) -> String {
    format!("the {} strand from the left", ordinal(position))
}

/// "the third strand from the left is foam".
pub(crate) fn strand_is(sighting: &Sighting) -> String {
    format!("{} is {}", strand_at(sighting.position), sighting.thread)
}

/// Millimeters as a person measures them: "4 mm", "15 cm", "2.5 cm".
pub(crate) fn length(millimeters: f64) -> String {
    let (value, unit) =
        if millimeters.abs() < 10.0 { (millimeters, "mm") } else { (millimeters / 10.0, "cm") };
    let mut text = format!("{value:.1}");
    if text.ends_with(".0") {
        text.truncate(text.len() - 2);
    }
    let _ = write!(text, " {unit}");
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ordinals_are_spelled_as_people_write_them() {
        let spelled = |n| ordinal(n);
        assert_eq!(
            [1, 2, 3, 5, 8, 9, 12, 20, 21, 22, 40, 53, 80, 99].map(spelled),
            [
                "first",
                "second",
                "third",
                "fifth",
                "eighth",
                "ninth",
                "twelfth",
                "twentieth",
                "twenty-first",
                "twenty-second",
                "fortieth",
                "fifty-third",
                "eightieth",
                "ninety-ninth"
            ]
        );
        assert_eq!(
            [100, 101, 111, 112, 113, 122, 183].map(ordinal).join(" "),
            "100th 101st 111th 112th 113th 122nd 183rd"
        );
    }

    #[test]
    fn counts_agree_with_their_noun() {
        assert_eq!(count(0, "knot"), "no knots");
        assert_eq!(count(1, "knot"), "one knot");
        assert_eq!(count(12, "knot"), "twelve knots");
        assert_eq!(count(13, "knot"), "13 knots");
    }

    #[test]
    fn quoted_text_cannot_steer_a_terminal_or_run_on() {
        assert_eq!(quoted("a\u{1b}[31m"), "`a\u{fffd}[31m`");
        assert_eq!(quoted("a`b\u{202e}"), "`a'b\u{fffd}`");
        assert_eq!(quoted(&"k".repeat(50)).chars().count(), 43);
    }

    #[test]
    fn lists_read_aloud() {
        assert_eq!(either(&["a"]), "a");
        assert_eq!(either(&["a", "b", "c"]), "a, b or c");
        assert_eq!(both(&["a", "b"]), "a and b");
    }

    #[test]
    fn lengths_take_the_unit_a_person_would() {
        assert_eq!(length(0.9), "0.9 mm");
        assert_eq!(length(150.0), "15 cm");
        assert_eq!(length(25.4), "2.5 cm");
    }
}
