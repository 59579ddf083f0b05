//! Comments, texts in quotes and colors.

use super::{HoverLook, Picture};
use crate::swatch;
use crate::wording::quoted;
use knotwright_checker::rules;
use knotwright_color::Rgb;
use knotwright_grammar::tree::{Head, Motif, Node, Text, Translation};
use knotwright_numbers::ToNumber;

/// A comment; one that allows something says what.
pub(super) fn comment(written: &str) -> Vec<String> {
    let plain = || vec!["A comment. It is kept, and does not affect the band.".to_owned()];
    let Some(allowed) = written.trim_start_matches('-').trim_start().strip_prefix("allow ") else {
        return plain();
    };
    let name = allowed.split([':', ' ']).next().unwrap_or("");
    let rule = rules::named(name);
    rule.map_or_else(plain, |rule| vec![format!("Allows `{}` here: {}", rule.name, rule.summary)])
}

/// A text in quotes, by the statement it is in.
pub(super) fn string(look: &HoverLook) -> Vec<String> {
    let Some(node) = look.node() else { return vec!["A text.".to_owned()] };
    if let Some(other) = node.translations().iter().find(|other| other.text.span == look.token.span) {
        return vec![format!("The same in the language {}.", quoted(&other.language.text))];
    }
    vec![match node {
        Node::Head(head) => in_head(look, head),
        // A text is all that such a statement says.
        Node::Body(body) => body.declaration().word.help.to_owned(),
        Node::EndPiece(_) | Node::Swatch(_) | Node::Broken(_) => "A text.".to_owned(),
    }]
}

/// The tag of a language.
pub(super) fn language(look: &HoverLook) -> Option<Vec<String>> {
    let is_here = |other: &&Translation| other.language.span == look.token.span;
    let other = look.node()?.translations().iter().find(is_here)?;
    let tag = &other.language.text;
    Some(vec![format!(
        "The tag of a language: instructions and sheets in {} have the text after it.",
        quoted(tag)
    )])
}

fn in_head(look: &HoverLook, head: &Head) -> String {
    match head {
        Head::Pattern(_) => "The title of the pattern.".to_owned(),
        Head::About(_) => "A paragraph about the pattern.".to_owned(),
        Head::Author(_) => "Who made the pattern.".to_owned(),
        Head::License(_) => "What others may do with the pattern.".to_owned(),
        Head::Thread(thread) => format!("What people call the thread {}.", quoted(&thread.name.text)),
        Head::Bead(bead) => format!("What people call the bead {}.", quoted(&bead.name.text)),
        Head::Colorway(colorway) => {
            let count = colorway.block.statements.len().to_u64();
            format!(
                "A colorway: the same band with {} in other colors.",
                crate::wording::count(count, "thread")
            )
        }
        Head::Use(import) => path_words(look, &import.path),
        Head::Strands(_)
        | Head::Gauge(_)
        | Head::Length(_)
        | Head::Sets(_)
        | Head::Ends(_)
        | Head::Start(_)
        | Head::Motif(_)
        | Head::Begin(_)
        | Head::Finish(_)
        | Head::Opening(_)
        | Head::Set(_)
        | Head::Closing(_) => "A text.".to_owned(),
    }
}

fn path_words(look: &HoverLook, path: &Text) -> String {
    let used = look.checked.uses().iter().find(|used| used.span == path.span);
    match used.and_then(|used| used.source.as_ref()) {
        Some(source) => {
            let motifs = source.parsed.tree.statements.iter();
            let names: Vec<String> =
                motifs.filter_map(|statement| Some(quoted(&statement.get::<Motif>()?.name.text))).collect();
            format!("The file {}. Its motifs: {}.", quoted(&source.path), names.join(", "))
        }
        None => "A file that cannot be read.".to_owned(),
    }
}

/// A color as numbers, and the name that CSS has for it.
pub(super) fn color(written: &str) -> Vec<String> {
    let Ok(rgb) = written.parse::<Rgb>() else {
        return vec![format!(
            "{} is not a color: write `#` and three or six digits, or a CSS color name.",
            quoted(written)
        )];
    };
    let named = knotwright_color::color_names().into_iter().find(|name| name.parse() == Ok(rgb));
    let named = named.map(|name| format!(", in CSS `{name}`")).unwrap_or_default();
    vec![format!("The color `{rgb}`{named}: red {}, green {}, blue {}.", rgb.red, rgb.green, rgb.blue)]
}

/// A patch of a color.
pub(super) fn patch(rgb: Rgb, name: &str) -> Picture {
    Picture { svg: swatch::svg(rgb), alt: format!("a patch of {name}, {rgb}") }
}
