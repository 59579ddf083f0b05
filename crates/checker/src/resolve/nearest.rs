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
    let length = written.chars().count();
    let names: Vec<&str> = names.take(MOST_NAMES + 1).collect();
    if length > LONGEST || names.len() > MOST_NAMES {
        return None;
    }
    let most = (length / 3).max(1);
    names
        .into_iter()
        .filter(|name| name.len() <= 4 * LONGEST && *name != written)
        .map(|name| (strsim::osa_distance(written, name), name))
        .filter(|&(distance, _)| distance <= most && distance < length)
        .min()
        .map(|(_, name)| name)
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
