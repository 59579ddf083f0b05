//! What a misspelled name was surely meant to be.

use smol_str::SmolStr;

/// Among more names than this none is sought, and longer ones are not compared.
const MOST_NAMES: usize = 2000;
const LONGEST: usize = 40;

/// The name most like `written`, if one is like it: at most a third of its letters differ.
pub(crate) fn nearest_name<'a>(written: &str, names: impl Iterator<Item = &'a SmolStr>) -> Option<SmolStr> {
    nearest_word(written, names.map(SmolStr::as_str)).map(SmolStr::new)
}

/// As [`nearest_name`], among plain words.
pub(crate) fn nearest_word<'a>(written: &str, names: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    alike(written, names).into_iter().map(|(distance, _, name)| (distance, name)).min().map(|(_, name)| name)
}

/// The names like `written`, the likest first: how many letters differ, and which of them it is.
pub(super) fn names_alike<'a>(
    written: &str,
    names: impl Iterator<Item = &'a SmolStr>,
) -> Vec<(usize, usize)> {
    let alike = alike(written, names.map(SmolStr::as_str));
    let mut alike: Vec<_> = alike.into_iter().map(|(distance, at, name)| (distance, name, at)).collect();
    alike.sort_unstable();
    alike.into_iter().map(|(distance, _, at)| (distance, at)).collect()
}

/// How many letters differ, the number of the name, and the name.
fn alike<'a>(written: &str, names: impl Iterator<Item = &'a str>) -> Vec<(usize, usize, &'a str)> {
    let length = written.chars().count();
    let names: Vec<&str> = names.take(MOST_NAMES + 1).collect();
    if length > LONGEST || names.len() > MOST_NAMES {
        return Vec::new();
    }
    let most = (length / 3).max(1);
    let names = names.into_iter().enumerate();
    names
        .filter(|(_, name)| name.len() <= 4 * LONGEST && *name != written)
        .map(|(at, name)| (strsim::osa_distance(written, name), at, name))
        .filter(|&(distance, ..)| distance <= most && distance < length)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::nearest_word;

    #[test]
    fn a_slip_of_the_finger_finds_its_name() {
        let names = ["kelp", "foam", "goldenrod"];
        for (written, found) in [
            ("klep", Some("kelp")),
            ("goldnrod", Some("goldenrod")),
            ("Foam", Some("foam")),
            ("sand", None),
            ("k", None),
            ("", None),
        ] {
            assert_eq!(nearest_word(written, names.into_iter()), found, "{written}");
        }
    }
}
