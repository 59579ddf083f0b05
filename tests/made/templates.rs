//! Grammars with the words of the notation put in. A template in `grammar/sources` may begin with lines
//! `let NAME = TEXT` and a line `---`; then `{{NAME}}` stands for that text, and `{{kind}}` and its like for words.

use crate::plist::plist;
use crate::{Made, read};
use knotwright_grammar::words::{Role, WORDS};
use std::path::PathBuf;

/// Template, where what is made of it belongs, and what is there between two words.
const TEMPLATES: &[(&str, &str, &str)] = &[
    ("knotwright.tmLanguage.json", "grammar/textmate/knotwright.tmLanguage.json", "|"),
    ("knotwright.vim", "editors/vim/syntax/knotwright.vim", "\\|"),
    ("knotwright.xml", "editors/kate/knotwright.xml", "</item><item>"),
    ("knotwright-mode.el", "editors/emacs/knotwright-mode.el", "\" \""),
];

/// By name in a template, the roles of the words that it stands for.
const LISTS: &[(&str, &[Role])] = &[
    ("statement", &[Role::Head, Role::Body, Role::EndPiece]),
    ("kind", &[Role::Kind]),
    ("place", &[Role::Place]),
    ("detail", &[Role::Detail]),
    ("unit", &[Role::Unit]),
];

/// Where the first of them belongs a second time, in another form.
const PLIST: &str = "editors/sublime/Knotwright.tmLanguage";

pub(crate) fn made() -> Vec<Made> {
    let mut made: Vec<_> = TEMPLATES
        .iter()
        .map(|(template, path, between)| {
            let text = filled(&read(&format!("grammar/sources/{template}")), between);
            Made { path: PathBuf::from(path), text }
        })
        .collect();
    made.push(Made { path: PathBuf::from(PLIST), text: plist(&made[0].text) });
    made
}

fn filled(template: &str, between: &str) -> String {
    let (head, body) = template.split_once("\n---\n").unwrap_or(("", template));
    let definitions = head.lines().map(|line| {
        let definition = line.strip_prefix("let ").and_then(|rest| rest.split_once(" = "));
        definition.unwrap_or_else(|| panic!("no definition: {line}"))
    });
    let text = definitions.fold(body.to_owned(), |text, (name, value)| put(&text, name, value));
    let text = LISTS.iter().fold(text, |text, (name, roles)| put(&text, name, &words(roles).join(between)));
    assert!(!text.contains("{{"), "a name stands for nothing: {:?}", text.split("{{").nth(1));
    text
}

fn put(text: &str, name: &str, value: &str) -> String {
    text.replace(&format!("{{{{{name}}}}}"), value)
}

/// Each word once, long ones first: an alternative that matches ends the search.
fn words(roles: &[Role]) -> Vec<&'static str> {
    let mut words: Vec<_> =
        WORDS.iter().filter(|word| roles.contains(&word.role)).map(|word| word.text).collect();
    words.sort_by_key(|word| (std::cmp::Reverse(word.len()), *word));
    words.dedup();
    words
}
