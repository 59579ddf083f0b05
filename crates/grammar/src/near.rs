//! What a misspelled word was surely meant to be.

use knotwright_numbers::ToNumber;

/// Longer words are not compared.
const LONGEST: usize = 20;

/// Those of `words` that differ from `written` by a slip of the finger, or by two if it is long; with the number of
/// slips, the fewest first.
pub(crate) fn near(written: &str, words: impl Iterator<Item = &'static str>) -> Vec<(usize, &'static str)> {
    let length = written.chars().count();
    if length > LONGEST {
        return Vec::new();
    }
    let most = if length <= 4 { 1 } else { 2 };
    let there = letters(written);
    let mut near: Vec<(usize, &str)> = words
        .filter(|word| word.len().abs_diff(length) <= most)
        // A slip exchanges one letter at most for another. This is seen at once, and leaves few words to compare.
        .filter(|word| (letters(word) ^ there).count_ones().to_usize() <= 2 * most)
        .map(|word| (strsim::osa_distance(written, word), word))
        .filter(|&(slips, _)| 0 < slips && slips <= most && slips < length)
        .collect();
    near.sort_by_key(|&(slips, _)| slips);
    near
}

/// Which letters there are, as bits; some share one.
fn letters(word: &str) -> u32 {
    word.chars().fold(0, |letters, letter| letters | 1 << (u32::from(letter) % 32))
}

#[cfg(test)]
mod tests {
    use super::near;
    use crate::words::WORDS;

    /// The words are compared with all others as they are, and with slips of every kind.
    #[test]
    fn no_near_word_is_passed_over() {
        let words = || WORDS.iter().map(|word| word.text);
        for word in words().filter(|word| word.len() > 2) {
            let (first, rest) = word.split_at(1);
            let swapped = format!("{}{first}{}", &rest[..1], &rest[1..]);
            for slip in
                [rest.to_owned(), format!("{word}q"), format!("z{rest}"), swapped, format!("\u{e9}{rest}")]
            {
                let wanted: Vec<&str> =
                    words().filter(|known| strsim::osa_distance(&slip, known) == 1).collect();
                let found: Vec<&str> = near(&slip, words())
                    .into_iter()
                    .filter(|(slips, _)| *slips == 1)
                    .map(|(_, word)| word)
                    .collect();
                let wanted = if slip.chars().count() > 1 { wanted } else { Vec::new() };
                assert_eq!(found, wanted, "{slip}");
            }
        }
    }
}
