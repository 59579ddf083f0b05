//! Where two texts differ.

use std::iter::zip;

/// Bytes that are compared at a time.
const AT_ONCE: usize = 256;

/// What stands between the beginning and the end that two texts have in common.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Difference {
    /// The first byte that may differ.
    pub start: usize,
    /// The byte after the last, in the text before.
    pub before: usize,
    /// The same in the text as it is now.
    pub now: usize,
}

impl Difference {
    /// `None` if the texts are the same. All three places are boundaries of characters.
    pub fn of(before: &str, now: &str) -> Option<Self> {
        let mut start = same_start(before.as_bytes(), now.as_bytes());
        if start == before.len() && start == now.len() {
            return None;
        }
        while !before.is_char_boundary(start) || !now.is_char_boundary(start) {
            start -= 1;
        }
        let mut end = same_end(&before.as_bytes()[start..], &now.as_bytes()[start..]);
        while !before.is_char_boundary(before.len() - end) || !now.is_char_boundary(now.len() - end) {
            end -= 1;
        }
        Some(Self { start, before: before.len() - end, now: now.len() - end })
    }

    /// By how many bytes what stands behind it has moved.
    pub fn by(self) -> i32 {
        self.now as i32 - self.before as i32
    }
}

/// How many bytes both begin with.
fn same_start(one: &[u8], other: &[u8]) -> usize {
    let (ours, theirs) = (one.chunks_exact(AT_ONCE), other.chunks_exact(AT_ONCE));
    let sure = AT_ONCE * zip(ours, theirs).take_while(|(one, other)| one == other).count();
    sure + zip(&one[sure..], &other[sure..]).take_while(|(one, other)| one == other).count()
}

/// How many bytes both end with.
fn same_end(one: &[u8], other: &[u8]) -> usize {
    let (ours, theirs) = (one.rchunks_exact(AT_ONCE), other.rchunks_exact(AT_ONCE));
    let sure = AT_ONCE * zip(ours, theirs).take_while(|(one, other)| one == other).count();
    let (one, other) = (&one[..one.len() - sure], &other[..other.len() - sure]);
    sure + zip(one.iter().rev(), other.iter().rev()).take_while(|(one, other)| one == other).count()
}

#[cfg(test)]
mod tests {
    use super::Difference;

    fn parts<'t>(before: &'t str, now: &'t str) -> (&'t str, &'t str) {
        let found = Difference::of(before, now).expect("they differ");
        (&before[found.start..found.before], &now[found.start..found.now])
    }

    #[test]
    fn the_least_part_that_differs_is_found() {
        assert_eq!(Difference::of("forward 3", "forward 3"), None);
        assert_eq!(parts("forward 3", "forward 4"), ("3", "4"));
        assert_eq!(parts("aaa", "aaaa"), ("", "a"), "what is the same is counted once");
        assert_eq!(parts("", "set"), ("", "set"));
        let long = "meet center\n".repeat(99);
        assert_eq!(parts(&format!("{long}ab{long}"), &format!("{long}axb{long}")), ("", "x"));
    }

    #[test]
    fn no_character_is_torn_apart() {
        // Both letters begin, and these signs end, with the same byte.
        assert_eq!(parts("\u{e9}", "\u{e8}"), ("\u{e9}", "\u{e8}"));
        assert_eq!(parts("\u{1f600}", "\u{1f640}"), ("\u{1f600}", "\u{1f640}"));
    }
}
