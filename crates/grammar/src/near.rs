//! What a misspelled word was surely meant to be.

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
    let mut near: Vec<(usize, &str)> = words
        .filter(|word| word.len().abs_diff(length) <= most)
        .map(|word| (strsim::osa_distance(written, word), word))
        .filter(|&(slips, _)| 0 < slips && slips <= most && slips < length)
        .collect();
    near.sort_by_key(|&(slips, _)| slips);
    near
}
