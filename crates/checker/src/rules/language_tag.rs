//! A text in a language that is none, or in one language twice.

use crate::contents::Contents;
use crate::language_codes::{is_of_two_letters, shorter};
use crate::wording::quoted;
use crate::{Checked, FileId, Finding, Mend, Place, Rule, Severity};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Name, Translation};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "language-tag",
    severity: Severity::Warning,
    tags: &[],
    summary: "A translation names no language, or one that the text has already.",
    why: "After a title, label, note or paragraph you can write what it is in other languages, each with the tag \
          of its language: two or three letters, such as `de` for German, and, if you need it, what comes after \
          them (`pt-BR`). `write --language de` looks for them. A text under another word is never read, and of \
          two texts in one language only the first is. A language that has a code of two letters has no other in \
          tags (BCP 47): `de`, and neither `ger` nor `deu`.",
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
        let same = |other: &&Translation| shortest(&other.language.text) == shortest(&tag.text);
        if !is_tag(&tag.text) {
            findings.push(no_language(tag));
        } else if let Some(first) = others[..at].iter().find(same) {
            findings.push(twice(&first.language, tag));
        } else if let Some(short) = shorter(language_of(&tag.text)) {
            let is_alone = others.iter().filter(same).count() == 1;
            findings.push(too_long(tag, short, is_alone));
        }
    }
    findings
}

fn language_of(tag: &str) -> &str {
    tag.split('-').next().unwrap_or_default()
}

/// A tag as it should be, in small letters.
fn shortest(tag: &str) -> String {
    let language = language_of(tag);
    let rest = &tag[language.len()..];
    format!("{}{rest}", shorter(language).unwrap_or(language)).to_ascii_lowercase()
}

/// Whether a word is made like a tag: a language of two or three letters, then parts of one to eight letters and digits
/// (RFC 5646, section 2.1; those of four letters and more, reserved or registered one by one, are not used). Two letters
/// must be the code of a language; of three there are 8,000.
fn is_tag(word: &str) -> bool {
    let mut parts = word.split('-');
    let language = parts.next().unwrap_or_default();
    let is_language =
        (2..=3).contains(&language.len()) && language.bytes().all(|byte| byte.is_ascii_alphabetic());
    let is_part =
        |part: &str| (1..=8).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_alphanumeric());
    is_language && parts.all(is_part) && (language.len() == 3 || is_of_two_letters(language))
}

fn place(tag: &Name) -> Place {
    Place { file: FileId::CHECKED, span: tag.span }
}

fn no_language(tag: &Name) -> Finding {
    Finding::new(&RULE, format!("{} is not the tag of a language, so nobody will read this text.", quoted(&tag.text)))
        .at(place(tag))
        .help("Tags have two or three letters: `de` is German, `es` is Spanish, `fr` is French, `pt-BR` is Portuguese as in Brazil.")
}

/// `is_alone`: the text is not there in that language otherwise.
fn too_long(tag: &Name, short: &str, is_alone: bool) -> Finding {
    let long = language_of(&tag.text);
    let message = format!(
        "A tag has two letters for this language: {}, so nobody will find this text under {}.",
        quoted(short),
        quoted(long)
    );
    let end = tag.span.start + long.len().to_u32();
    let mend = Mend::write(short, Place { file: FileId::CHECKED, span: Span { start: tag.span.start, end } });
    let mut finding = Finding::new(&RULE, message)
        .at(place(tag))
        .help("Languages have codes of three letters, too, but tags take the shortest one (BCP 47).");
    finding.mends.push(Mend { certain: is_alone, ..mend });
    finding
}

fn twice(first: &Name, tag: &Name) -> Finding {
    Finding::new(&RULE, format!("This text is already there in {}.", quoted(&first.text)))
        .at(place(tag))
        .note(place(first), "here")
        .help("Keep the one that you mean and delete the other.")
}

#[cfg(test)]
mod tests {
    use super::{RULE, is_tag};
    use crate::trial::find_by;

    #[test]
    fn the_shortest_code_of_a_language_is_its_tag() {
        let told = |text: &str| -> Vec<(String, bool)> {
            let found = find_by(RULE.name, &RULE.example.replace("german \"Stauwasser\"", text));
            let mends = found.iter().flat_map(|finding| &finding.mends);
            mends.map(|mend| (mend.edits[0].text.clone(), mend.certain)).collect()
        };
        let de = |certain| vec![("de".to_owned(), certain)];
        assert_eq!(told("ger \"Stauwasser\""), de(true));
        assert_eq!(told("deu-AT \"Stauwasser\", de \"Stauwasser\""), de(true));
        assert_eq!(told("ger \"Stauwasser\", de \"Stauwasser\""), de(false));
        assert_eq!(told("nds \"Stauwater\", yue \"...\""), []);
        let found = find_by(RULE.name, &RULE.example.replace("german", "de \"Stau\", deu"));
        assert_eq!(found[0].message, "This text is already there in `de`.");
    }

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
        for word in ["jp", "german", "d", "d3", "de-", "deutsch-AT", "espa\u{f1}ol", "de-abcdefghi"] {
            assert!(!is_tag(word), "{word}");
        }
    }
}
