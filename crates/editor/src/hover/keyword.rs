//! Words of the notation.

use super::{HoverLook, number, plain};
use crate::wording::quoted;
use knotwright_color::Rgb;
use knotwright_grammar::tree::{Node, Swatch};
use knotwright_grammar::words::{self, Role, WORDS, Word};

/// What a word says that is no name here.
pub(super) fn explained(look: &HoverLook) -> Vec<String> {
    let written = look.written();
    match found(look) {
        Some(Word { role: Role::Unit, form, help, .. }) => {
            [format!("`{form}`"), (*help).to_owned()].into_iter().chain(number::measured(look)).collect()
        }
        Some(word) => vec![format!("`{}`", word.form), word.help.to_owned()],
        None if written.parse::<Rgb>().is_ok() => plain::color(written),
        None => vec![format!("{} has no meaning here.", quoted(written))],
    }
}

/// The entry of the words table that fits: a statement's word if it begins one.
fn found(look: &HoverLook) -> Option<&'static Word> {
    let begins = look.site.inner().is_some_and(|statement| statement.span.start == look.token.span.start);
    let in_gauge = look.node().is_some_and(Node::is::<Swatch>);
    let fits = |word: &&Word| word.text == look.written();
    let entries = || WORDS.iter().filter(fits);
    if begins && !in_gauge {
        let declared = look.node().and_then(Node::declaration).map(|declared| declared.word);
        let is_it = |word: &&Word| declared.as_ref() == Some(*word);
        let begins = |word: &&Word| word.role.begins_statement();
        return entries().find(is_it).or_else(|| entries().find(begins)).or_else(|| entries().next());
    }
    words::find_within(look.written(), look.first_word())
}
