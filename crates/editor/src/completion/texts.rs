//! Paths of other files, the motifs in them, and the languages of texts.

use super::{CompletionKind, Here, Items};
use crate::files_renamed::relative;
use crate::motifs::in_file;
use knotwright_numbers::ToNumber;

/// The files that have motifs, as they are written from here.
pub(super) fn paths(here: &Here, items: &mut Items) {
    if here.line.first() != "use" {
        return;
    }
    let own = &here.checked.source().path;
    let wanted: Vec<&str> = here
        .line
        .tokens
        .iter()
        .skip(1)
        .map(|token| token.span.of(here.checked.text()))
        .filter(|word| *word != ",")
        .collect();
    for file in here.world.files.iter().filter(|file| file.path != *own) {
        let names: Vec<&str> = in_file(file).map(|found| found.motif.name.text.as_str()).collect();
        let fits = wanted.iter().take_while(|word| **word != "from").all(|word| names.contains(word));
        if names.is_empty() || !fits {
            continue;
        }
        let path = relative(own, &file.path);
        match here.line.in_text {
            true => items.replace(&path, here.inside_quotes(), path.clone(), CompletionKind::File),
            false => items.add(&format!("\"{path}\""), names.join(", "), CompletionKind::File),
        }
        items.document(names.join(", "));
    }
}

/// The motifs of all other files, with the rest of the line where it is not yet written.
pub(super) fn motifs_elsewhere(here: &Here, items: &mut Items) {
    let own = &here.checked.source().path;
    for file in here.world.files.iter().filter(|file| file.path != *own) {
        for found in in_file(file) {
            let path = relative(own, &file.path);
            let rest = here.checked.text().get(here.line.word.end.to_usize()..).unwrap_or("");
            let alone = rest.split(['\n', '\r']).next().is_none_or(|rest| rest.trim().is_empty());
            let name = &found.motif.name.text;
            if alone && here.line.back(0) == "use" {
                items.add(
                    &format!("{name} from \"{path}\""),
                    crate::motifs::signature(found.motif),
                    CompletionKind::Motif,
                );
            }
            items.add(name, path, CompletionKind::Motif);
        }
    }
}

/// The languages that the instructions know, and those that the file has, all but those that the line has already.
pub(super) fn languages(here: &Here, items: &mut Items) {
    const KNOWN: [(&str, &str); 3] = [("de", "German"), ("es", "Spanish"), ("en", "English")];
    let on_line = |tag: &str| here.line.tokens.iter().any(|token| token.span.of(here.checked.text()) == tag);
    for (tag, name) in KNOWN.into_iter().filter(|(tag, _)| !on_line(tag)) {
        items.snippet(tag, &format!("{tag} \"$1\""), &format!("the text in {name}"), CompletionKind::Text);
    }
    for statement in here.checked.source().parsed.tree.walk() {
        for tag in statement.node.translations().iter().map(|other| other.language.text.as_str()) {
            if !on_line(tag) {
                items.snippet(
                    tag,
                    &format!("{tag} \"$1\""),
                    "another language of this file",
                    CompletionKind::Text,
                );
            }
        }
    }
}
