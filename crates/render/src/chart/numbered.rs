//! Numbers of sets as a person writes them: `1–43, 46, 52–87`.

use knotwright_numbers::ToNumber;

/// Numbers that follow one another are a range from this many on.
const LEAST_RANGE: usize = 3;

/// Numbers that are equally far apart are shortened from this many on: `1, 4, 7, …, 97`.
const LEAST_SERIES: usize = 6;

/// More ranges than these are not told apart.
const MOST_RANGES: usize = 60;

/// Rising numbers, in ranges.
pub(super) fn write_ranges(numbers: &[u64]) -> String {
    let mut ranges = Vec::new();
    let mut rest = numbers;
    while let [first, ..] = rest {
        if ranges.len() == MOST_RANGES {
            ranges.push("\u{2026}".to_owned());
            break;
        }
        let count = equally_far(rest);
        let step = rest.get(1).map_or(1, |next| next - first);
        let last = rest.get(count - 1).unwrap_or(first);
        let taken = match (step, count) {
            (1, LEAST_RANGE..) => {
                ranges.push(format!("{first}\u{2013}{last}"));
                count
            }
            (2.., LEAST_SERIES..) => {
                let (second, third) = (first + step, first + 2 * step);
                ranges.push(format!("{first}, {second}, {third}, \u{2026}, {last}"));
                count
            }
            _ => {
                ranges.push(first.to_string());
                1
            }
        };
        rest = rest.get(taken..).unwrap_or_default();
    }
    ranges.join(", ")
}

/// How many numbers from the first on are as far from each other as the first two.
fn equally_far(numbers: &[u64]) -> usize {
    let step = |pair: &[u64]| pair.last().zip(pair.first()).map(|(next, this)| next - this);
    let mut steps = numbers.windows(2).map(step);
    let first = steps.next();
    first.map_or(1, |first| 2 + steps.take_while(|step| *step == first).count())
}

/// A text in lines of about that width, whose letters are so wide.
pub(super) fn wrap_text(text: &str, width: f64, letter: f64) -> Vec<String> {
    let most = (width / letter).floor().to_usize().max(8);
    let mut lines: Vec<String> = vec![String::new()];
    for word in text.split(' ').flat_map(|word| in_pieces(word, most)) {
        let word = word.as_str();
        let longest = word.chars().count();
        let Some(line) = lines.last_mut() else { break };
        if line.is_empty() {
            line.push_str(word);
        } else if line.chars().count() + 1 + longest <= most {
            line.push(' ');
            line.push_str(word);
        } else {
            lines.push(word.to_owned());
        }
    }
    lines
}

/// A word that has no room in a line, in pieces that have.
fn in_pieces(word: &str, most: usize) -> Vec<String> {
    let letters: Vec<char> = word.chars().collect();
    letters.chunks(most).map(|piece| piece.iter().collect()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_are_written_as_a_person_writes_them() {
        let numbers: Vec<u64> = (1..=43).chain([46]).chain(52..=87).collect();
        assert_eq!(write_ranges(&numbers), "1\u{2013}43, 46, 52\u{2013}87");
        assert_eq!(write_ranges(&[44]), "44");
        assert_eq!(write_ranges(&[1, 2]), "1, 2");
        assert_eq!(write_ranges(&[1, 4, 7]), "1, 4, 7");
        assert_eq!(write_ranges(&[]), "");
    }

    #[test]
    fn every_third_is_not_listed_to_the_end() {
        let numbers: Vec<u64> = (0..33).map(|number| number * 3 + 1).chain([100]).collect();
        assert_eq!(write_ranges(&numbers), "1, 4, 7, \u{2026}, 100");
        assert_eq!(write_ranges(&[2, 4, 6, 8, 10, 12, 15]), "2, 4, 6, \u{2026}, 12, 15");
    }

    #[test]
    fn a_long_text_has_several_lines() {
        assert_eq!(wrap_text("one two three four", 60.0, 6.0), ["one two", "three four"]);
        assert_eq!(wrap_text("short", 60.0, 6.0), ["short"]);
        assert_eq!(wrap_text("awordwithoutroom at all", 60.0, 6.0), ["awordwitho", "utroom at", "all"]);
    }
}
