//! Names of files that every file system and every address takes.

use sha2::{Digest as _, Sha256};
use std::collections::BTreeSet;

/// Longer names are cut.
const LONGEST: usize = 80;

/// The names that were given.
#[derive(Debug, Default)]
pub(super) struct Slugs(BTreeSet<String>);

impl Slugs {
    /// A name for a file that no other has. It depends on the file alone, unless two are in different workspaces under the
    /// same name.
    pub(super) fn of(&mut self, file: &str) -> String {
        let name = slug(file);
        let mut free = name.clone();
        let mut number = 2;
        while !self.0.insert(free.clone()) {
            free = format!("{name}-{number}");
            number += 1;
        }
        free
    }
}

/// Whether a name may be one of ours: nothing in it leads to another folder.
pub(super) fn is_slug(name: &str) -> bool {
    let is_plain =
        |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || matches!(byte, b'-' | b'_');
    !name.is_empty() && name.len() <= LONGEST + 32 && name.bytes().all(is_plain)
}

/// `bands/tide.knot` is `bands--tide`; where something is lost on the way, a few digits tell two such files apart.
fn slug(file: &str) -> String {
    let stem = file.strip_suffix(".knot").unwrap_or(file);
    let spelled = stem.replace('/', "--");
    let is_exact = is_slug(&spelled) && !stem.contains("--") && spelled.len() <= LONGEST && stem != file;
    if is_exact {
        return spelled;
    }
    let plain = |letter: char| if letter.is_ascii_alphanumeric() { letter.to_ascii_lowercase() } else { '-' };
    let mut name: String = stem.replace('/', "--").chars().map(plain).take(LONGEST - 9).collect();
    name.push('-');
    name.extend(Sha256::digest(file).iter().take(4).map(|byte| format!("{byte:02x}")));
    name
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_plain_and_no_two_files_share_one() {
        assert_eq!(slug("bands/low-tide.knot"), "bands--low-tide");
        let files = [
            "a/b.knot",
            "a--b.knot",
            "A/b.knot",
            "\u{e4}/b.knot",
            "a b.knot",
            "a/b",
            "../a.knot",
            "",
            "a\n.knot",
        ];
        let mut slugs = Slugs::default();
        let names: Vec<String> = files.iter().map(|file| slugs.of(file)).collect();
        assert!(names.iter().all(|name| is_slug(name)), "{names:?}");
        assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), files.len());
        assert_eq!(slugs.of("a/b.knot"), "a--b-2", "of another workspace");
        assert!(is_slug(&slug(&"\u{1f41a}".repeat(500))));
        assert!(!is_slug("../a") && !is_slug("") && !is_slug("a.b") && !is_slug(&"a".repeat(500)));
    }
}
