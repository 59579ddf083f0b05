//! A text in a language that is none, or in one language twice.

use crate::contents::Contents;
use crate::wording::quoted;
use crate::{Checked, FileId, Finding, Place, Rule, Severity};
use knotwright_grammar::tree::{Name, Translation};

pub(crate) static RULE: Rule = Rule {
    name: "language-tag",
    severity: Severity::Warning,
    tags: &[],
    summary: "A translation names no language, or one that the text has already.",
    why: "After a title, label, note or paragraph you can write what it is in other languages, each with the tag \
          of its language: two or three letters, such as `de` for German, and, if you need it, what comes after \
          them (`pt-BR`). `write --language de` looks for them. A text under another word is never read, and of \
          two texts in one language only the first is.",
    example: r#"pattern "Slack tide", german "Stauwasser"

thread kelp #1f5d50

strands 2 kelp

set {
  take left 1: forward 1
}
"#,
    instead: r#"pattern "Slack tide", de "Stauwasser"

thread kelp #1f5d50

strands 2 kelp

set {
  take left 1: forward 1
}
"#,
};

pub(super) fn find(_checked: &Checked, contents: &Contents) -> Vec<Finding> {
    contents.translated.iter().flat_map(|statement| among(statement.node.translations())).collect()
}

fn among(others: &[Translation]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (at, other) in others.iter().enumerate() {
        let tag = &other.language;
        let same = |before: &&Translation| before.language.text.eq_ignore_ascii_case(&tag.text);
        if !is_tag(&tag.text) {
            findings.push(no_language(tag));
        } else if let Some(first) = others[..at].iter().find(same) {
            findings.push(twice(&first.language, tag));
        }
    }
    findings
}

/// Whether a word is made like a tag: a language of two or three letters, then parts of one to eight letters and digits
/// (RFC 5646, section 2.1; those of four letters and more, reserved or registered one by one, are not used).
fn is_tag(word: &str) -> bool {
    let mut parts = word.split('-');
    let language = parts.next().unwrap_or_default();
    let is_language =
        (2..=3).contains(&language.len()) && language.bytes().all(|byte| byte.is_ascii_alphabetic());
    let is_part =
        |part: &str| (1..=8).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_alphanumeric());
    is_language && parts.all(is_part)
}

fn place(tag: &Name) -> Place {
    Place { file: FileId::CHECKED, span: tag.span }
}

fn no_language(tag: &Name) -> Finding {
    Finding::new(&RULE, format!("{} is not the tag of a language, so nobody will read this text.", quoted(&tag.text)))
        .at(place(tag))
        .help("Tags have two or three letters: `de` is German, `es` is Spanish, `fr` is French, `pt-BR` is Portuguese as in Brazil.")
}

fn twice(first: &Name, tag: &Name) -> Finding {
    Finding::new(&RULE, format!("This text is already there in {}.", quoted(&tag.text)))
        .at(place(tag))
        .note(place(first), "here")
        .help("Keep the one that you mean and delete the other.")
}

#[cfg(test)]
mod tests {
    use super::is_tag;

    /// Examples of RFC 5646, appendix A, and words that are none.
    #[test]
    fn tags_are_made_as_in_the_standard() {
        for tag in [
            "de",
            "fr",
            "ja",
            "zh-Hant",
            "zh-cmn-Hans-CN",
            "sl-nedis",
            "de-CH-1996",
            "es-419",
            "hy-Latn-IT-arevela",
            "yue",
        ] {
            assert!(is_tag(tag), "{tag}");
        }
        for word in ["german", "d", "d3", "de-", "deutsch-AT", "espa\u{f1}ol", "de-abcdefghi"] {
            assert!(!is_tag(word), "{word}");
        }
    }
}
