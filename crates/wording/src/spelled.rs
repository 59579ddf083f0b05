//! Counts and ordinals in letters, as a sentence has them.

use knotwright_numbers::ToNumber;

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
pub fn ordinal(number: usize) -> String {
    match (number, number / 10, number % 10) {
        (0..=19, ..) => ORDINALS[number].to_owned(),
        (20..=99, tens, 0) => format!("{}ieth", TENS[tens].trim_end_matches('y')),
        (20..=99, tens, ones) => format!("{}-{}", TENS[tens], ORDINALS[ones]),
        _ => format!("{number}{}", crate::ordinal_ending(number.to_u64())),
    }
}

/// "no strands", "one strand", "four strands", "24 strands"; the plural is the noun with an `s`.
pub fn count(number: u64, noun: &str) -> String {
    match number {
        0 => format!("no {noun}s"),
        1 => format!("one {noun}"),
        2..=12 => format!("{} {noun}s", ONES[number.to_usize()]),
        _ => format!("{number} {noun}s"),
    }
}

/// Up to twelve in letters, from there in digits.
pub fn number(number: u64) -> String {
    if number <= 12 { ONES[number.to_usize()].to_owned() } else { number.to_string() }
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
}
