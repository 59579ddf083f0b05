//! Texts of a pattern that people read, in their languages.

use knotwright_grammar::tree::{Text, Translation};
use smol_str::SmolStr;

/// A text, and what it is in other languages.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Phrase {
    /// In the author's own words.
    pub text: String,
    /// In other languages.
    pub others: Translations,
}

/// What a text is in other languages: their tags (BCP 47) as written, and the texts.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Translations(Vec<(SmolStr, String)>);

/// The tag of the language that reports, pictures and pages are in where no other is asked for. Whatever they show of a
/// pattern is in it, too, as far as the pattern has it.
pub const USUAL_LANGUAGE: Option<&str> = Some("en");

impl Phrase {
    pub(crate) fn of(text: &Text, others: &[Translation]) -> Self {
        Self { text: text.value.clone(), others: Translations::of(others) }
    }

    /// The text in a language, or as the author wrote it.
    pub fn in_language(&self, tag: Option<&str>) -> &str {
        tag.and_then(|tag| self.others.find(tag)).unwrap_or(&self.text)
    }
}

impl From<&str> for Phrase {
    fn from(text: &str) -> Self {
        Self { text: text.to_owned(), others: Translations::default() }
    }
}

impl Translations {
    pub(crate) fn of(others: &[Translation]) -> Self {
        Self(others.iter().map(|other| (other.language.text.clone(), other.text.value.clone())).collect())
    }

    /// Tags and texts, in the order they are written.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &str)> {
        self.0.iter().map(|(tag, text)| (tag.as_str(), text.as_str()))
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The text in a language: that of the same tag, or else of one that says more (RFC 4647, section 3.3.1, basic
    /// filtering: `de` finds `de-AT`).
    pub fn find(&self, tag: &str) -> Option<&str> {
        let begins = |other: &str| {
            other.len() > tag.len()
                && other.as_bytes()[tag.len()] == b'-'
                && other.as_bytes()[..tag.len()].eq_ignore_ascii_case(tag.as_bytes())
        };
        let same = self.iter().find(|(other, _)| other.eq_ignore_ascii_case(tag));
        same.or_else(|| self.iter().find(|(other, _)| begins(other))).map(|(_, text)| text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_tag_comes_before_one_that_says_more() {
        let all = [("de-AT", "Jause"), ("DE", "Brotzeit"), ("pt-BR", "lanche")];
        let phrase = Phrase {
            text: "snack".into(),
            others: Translations(all.map(|(tag, text)| (tag.into(), text.into())).to_vec()),
        };
        let read = |tag| phrase.in_language(Some(tag));
        assert_eq!(
            [read("de"), read("de-AT"), read("pt"), read("p"), read("es")],
            ["Brotzeit", "Jause", "lanche", "snack", "snack"]
        );
        assert_eq!(phrase.in_language(None), "snack");
    }
}
