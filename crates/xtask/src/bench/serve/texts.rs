//! What is edited: as many lines of each language, and in them numbers that can be written otherwise.

use crate::bench::samples::{long_pattern, python};

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Language {
    Knot,
    Python,
    Toml,
}

/// A text, and the places of words that take turns with others.
pub(super) struct Sample {
    pub(super) language: Language,
    pub(super) text: String,
    /// Line and column of the words.
    pub(super) places: Vec<(u32, u32)>,
}

impl Language {
    /// The ending of its files.
    pub(super) fn ending(self) -> &'static str {
        match self {
            Self::Knot => "knot",
            Self::Python => "py",
            Self::Toml => "toml",
        }
    }

    /// A word that stands in the text, and another that may stand there.
    pub(super) fn words(self) -> (&'static str, &'static str) {
        match self {
            // The strand goes as far either way: twelve strands hang there.
            Self::Knot => ("to edge", "11"),
            Self::Python => ("0.0", "10.5"),
            Self::Toml => ("0.0", "10.5"),
        }
    }
}

impl Sample {
    pub(super) fn new(language: Language, lines: usize) -> Self {
        let text = match language {
            Language::Knot => long_pattern(lines),
            Language::Python => python(lines, 0),
            Language::Toml => toml(lines),
        };
        let (word, _) = language.words();
        let place = |(line, text): (usize, &str)| Some((line as u32, text.find(word)? as u32));
        let places = text.lines().enumerate().filter_map(place).collect();
        Self { language, text, places }
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
