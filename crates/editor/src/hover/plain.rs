//! Comments, texts in quotes and colors.

use super::{Look, Picture};
use crate::swatch;
use crate::wording::quoted;
use knotwright_checker::rules;
use knotwright_color::Rgb;
use knotwright_grammar::tree::{Node, Text};

/// A comment; one that allows something says what.
pub(super) fn comment(written: &str) -> Vec<String> {
    let told = || vec!["A comment: it is kept, and nothing is tied from it.".to_owned()];
    let Some(allowed) = written.trim_start_matches('-').trim_start().strip_prefix("allow ") else {
        return told();
    };
    let name = allowed.split([':', ' ']).next().unwrap_or("");
    let rule = rules::named(name);
    rule.map_or_else(told, |rule| vec![format!("Allows `{}` here: {}", rule.name, rule.summary)])
}

/// A text in quotes, by the statement it stands in.
pub(super) fn string(look: &Look) -> Vec<String> {
    let Some(node) = look.node() else { return vec!["A text.".to_owned()] };
    let told = match node {
        Node::Pattern { .. } => "The title of the pattern.".to_owned(),
        Node::About(_) => "A paragraph about the pattern.".to_owned(),
        Node::Author(_) => "Who made the pattern.".to_owned(),
        Node::License(_) => "What others may do with the pattern.".to_owned(),
        Node::Thread(thread) => format!("What people call the thread {}.", quoted(&thread.name.text)),
        Node::Colorway { block, .. } => {
            let count = block.statements.len() as u64;
            format!(
                "A colorway: the same band with {} in other colors.",
                crate::wording::count(count, "thread")
            )
        }
        Node::Section { .. } => "A heading in the written instructions.".to_owned(),
        Node::Note(_) => "A remark in the written instructions.".to_owned(),
        Node::Use { path, .. } => path_words(look, path),
        _ => "A text.".to_owned(),
    };
    vec![told]
}

fn path_words(look: &Look, path: &Text) -> String {
    let used = look.checked.uses().iter().find(|used| used.span == path.span);
    match used.and_then(|used| used.source.as_ref()) {
        Some(source) => {
            let motifs = source.parsed.tree.statements.iter();
            let names: Vec<String> = motifs
                .filter_map(|statement| match &statement.node {
                    Node::Motif(motif) => Some(quoted(&motif.name.text)),
                    _ => None,
                })
                .collect();
            format!("The file {}. Its motifs: {}.", quoted(&source.path), names.join(", "))
        }
        None => "A file that cannot be had.".to_owned(),
    }
}

/// A color as numbers, and the name that CSS has for it.
pub(super) fn color(written: &str) -> Vec<String> {
    let Ok(rgb) = written.parse::<Rgb>() else {
        return vec![format!(
            "{} is no color: `#` and three or six digits, or a name of CSS.",
            quoted(written)
        )];
    };
    let named = knotwright_color::names().into_iter().find(|name| name.parse() == Ok(rgb));
    let named = named.map(|name| format!(", in CSS `{name}`")).unwrap_or_default();
    vec![format!("The color `{rgb}`{named}: red {}, green {}, blue {}.", rgb.red, rgb.green, rgb.blue)]
}

/// A patch of a color.
pub(super) fn patch(rgb: Rgb, name: &str) -> Picture {
    Picture { svg: swatch::svg(rgb), alt: format!("a patch of {name}, {rgb}") }
}
