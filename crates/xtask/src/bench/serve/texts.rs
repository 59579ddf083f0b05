//! What is edited: as many lines of each language, and in them words that can be written otherwise.

use crate::bench::samples::{long_pattern, python};

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum SampleLanguage {
    Knot,
    Python,
    Toml,
}

/// What an edit does to a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum EditKind {
    /// Nothing: it says the same in other words.
    Keeps,
    /// It means something else, and nothing is wrong.
    Changes,
    /// A word is not one.
    BreaksWord,
    /// One name or place is wrong.
    BreaksStrand,
    /// A number is wrong; of a pattern nearly every promise after it is broken.
    BreaksCount,
}

/// A place in a text, and the words that take turns there.
#[derive(Debug, Clone, Copy)]
pub(super) struct EditPlace {
    pub(super) line: usize,
    pub(super) column: usize,
    pub(super) words: (&'static str, &'static str),
}

/// A text to edit.
pub(super) struct Sample {
    pub(super) language: SampleLanguage,
    pub(super) text: String,
}

impl EditKind {
    pub(super) const ALL: [Self; 5] =
        [Self::Keeps, Self::Changes, Self::BreaksWord, Self::BreaksStrand, Self::BreaksCount];

    /// In words.
    pub(super) fn what(self) -> &'static str {
        match self {
            Self::Keeps => "says the same in other words",
            Self::Changes => "changes knots, breaks nothing",
            Self::BreaksWord => "breaks a word",
            Self::BreaksStrand => "takes a wrong strand",
            Self::BreaksCount => "ties too few knots",
        }
    }
}

impl SampleLanguage {
    /// The ending of its files.
    pub(super) fn ending(self) -> &'static str {
        match self {
            Self::Knot => "knot",
            Self::Python => "py",
            Self::Toml => "toml",
        }
    }

    /// Its name in the protocol.
    pub(super) fn id(self) -> &'static str {
        match self {
            Self::Knot => "knotwright",
            Self::Python => "python",
            Self::Toml => "toml",
        }
    }

    /// A word that is in the text, and another that is written instead.
    fn words(self, kind: EditKind) -> (&'static str, &'static str) {
        match (self, kind) {
            // The strand goes as far either way: twelve strands hang there.
            (Self::Knot, EditKind::Keeps) => ("to edge", "11"),
            (Self::Knot, EditKind::Changes | EditKind::BreaksStrand) => ("left 1", "left 2"),
            (Self::Knot, EditKind::BreaksWord) => ("forward", "forwrad"),
            (Self::Knot, EditKind::BreaksCount) => ("to edge", "9"),
            (_, EditKind::Keeps | EditKind::Changes) => ("0.0", "10.5"),
            (Self::Python, EditKind::BreaksWord) => ("return", "retrun"),
            // A name that is not there.
            (Self::Python, EditKind::BreaksStrand | EditKind::BreaksCount) => {
                ("return total", "return tonal")
            }
            (Self::Toml, _) => ("true", "treu"),
        }
    }
}

impl Sample {
    pub(super) fn new(language: SampleLanguage, lines: usize) -> Self {
        let text = match language {
            SampleLanguage::Knot => long_pattern(lines),
            SampleLanguage::Python => python(lines, 0),
            SampleLanguage::Toml => toml(lines),
        };
        Self { language, text }
    }

    /// Where such an edit may be made.
    pub(super) fn places(&self, kind: EditKind) -> Vec<EditPlace> {
        let words = self.language.words(kind);
        let lines: Vec<&str> = self.text.lines().collect();
        let below = |line: usize, by: usize| lines.get(line + by).copied().unwrap_or_default();
        let next = |line: usize| below(line, 1);
        let fits = |line: usize| match (self.language, kind) {
            // The second strand is of the promised color, as long as it is not the last of its color.
            (SampleLanguage::Knot, EditKind::Changes) => lines[line] == next(line),
            (SampleLanguage::Knot, EditKind::BreaksStrand) => lines[line] != next(line),
            // The two at the edge that it does not pass are of another color, as long as two more of its own come yet.
            (SampleLanguage::Knot, EditKind::BreaksCount) => {
                [1, 2].iter().all(|&by| lines[line] == below(line, by))
            }
            _ => true,
        };
        let place =
            |(line, text): (usize, &&str)| Some(EditPlace { line, column: text.find(words.0)?, words });
        lines.iter().enumerate().filter(|(line, _)| fits(*line)).filter_map(place).collect()
    }
}

fn toml(lines: usize) -> String {
    let table = |at: usize| {
        format!(
            "[wave.number-{at}]\nname = \"wave {at}\"\nstrands = [1, 2, 3]\nlength = 0.0\nis-long = true\n\n"
        )
    };
    (0..lines / 6).map(table).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_language_can_be_edited_in_every_way() {
        for language in [SampleLanguage::Knot, SampleLanguage::Python, SampleLanguage::Toml] {
            let sample = Sample::new(language, 100);
            let lines: Vec<&str> = sample.text.lines().collect();
            for kind in EditKind::ALL {
                let places = sample.places(kind);
                assert!(places.len() > 3, "{language:?} {kind:?}");
                for EditPlace { line, column, words } in places {
                    assert!(lines[line][column..].starts_with(words.0), "{language:?} {kind:?}");
                    assert_ne!(words.0, words.1);
                }
            }
        }
    }
}
