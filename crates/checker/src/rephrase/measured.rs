//! Beads and threads with their colors and lengths in another order: `bead shell hole 2 mm 4 mm white`,
//! `thread dusk 12 cm navy, 12 cm white`.

use super::signs::is_unit;
use super::{BlockSort, Phrase, Rewording, UnreadLine};
use knotwright_color::Rgb;
use knotwright_grammar::TokenKind;

/// What stands behind the name.
enum Item {
    Color(String),
    Length(String),
    Text(String),
    Hole,
}

/// The items from the token of that number to the end of the line; `None` if there is anything else.
fn items(line: &UnreadLine, first: usize) -> Option<Vec<Item>> {
    let (mut items, mut at) = (Vec::new(), first);
    while at < line.tokens.len() {
        let text = line.text(at);
        match line.kind(at)? {
            TokenKind::Number if is_unit(line.text(at + 1)) => {
                items.push(Item::Length(format!("{text} {}", line.text(at + 1))));
                at += 1;
            }
            TokenKind::Color => items.push(Item::Color(text.to_owned())),
            TokenKind::String => items.push(Item::Text(text.to_owned())),
            TokenKind::Comma | TokenKind::Colon => {}
            TokenKind::Word if matches!(text, "hole" | "holes" | "bore") => items.push(Item::Hole),
            TokenKind::Word
                if matches!(text, "size" | "with" | "a" | "of" | "wide" | "large" | "for" | "is") => {}
            TokenKind::Word if text.parse::<Rgb>().is_ok() => items.push(Item::Color(text.to_owned())),
            _ => return None,
        }
        at += 1;
    }
    Some(items)
}

/// Its color, its size and its hole in their order.
pub(super) fn bead_in_order(line: &UnreadLine) -> Option<Phrase> {
    let is_bead = matches!(line.text(0), "bead" | "thread" | "beads") && line.around == BlockSort::Top;
    let items = items(line, 2).filter(|_| is_bead && line.kind(1) == Some(TokenKind::Word))?;
    let (mut color, mut size, mut hole, mut label) = (None, None, None, None);
    for (at, item) in items.iter().enumerate() {
        let before = at.checked_sub(1).map(|before| &items[before]);
        let is_behind = matches!(before, Some(Item::Hole));
        let is_before = matches!(items.get(at + 1), Some(Item::Hole)) && hole.is_none() && size.is_some();
        let slot = match item {
            Item::Color(_) => &mut color,
            Item::Length(_) if is_behind || is_before => &mut hole,
            Item::Length(_) => &mut size,
            Item::Text(_) => &mut label,
            Item::Hole => continue,
        };
        let (Item::Color(text) | Item::Length(text) | Item::Text(text)) = item else { continue };
        if slot.replace(text).is_some() {
            return None;
        }
    }
    let label = label.map_or(String::new(), |label| format!(" {label}"));
    let write = format!("bead {} {} {} hole {}{label}", line.text(1), color?, size?, hole?);
    let says = "Behind the name of a bead come its color, its size, and `hole` with how wide that is.";
    Some(Phrase::new(says, vec![Rewording::instead(line.whole(), write)]))
}

/// Each color with how far it goes.
pub(super) fn shades(line: &UnreadLine) -> Option<Phrase> {
    let is_thread = line.text(0) == "thread" && line.kind(1) == Some(TokenKind::Word);
    let items = items(line, 2).filter(|_| is_thread)?;
    let (mut colors, mut lengths, mut label) = (Vec::new(), Vec::new(), String::new());
    for item in items {
        match item {
            Item::Color(color) => colors.push(color),
            Item::Length(length) => lengths.push(length),
            Item::Text(text) if label.is_empty() => label = format!(" {text}"),
            Item::Text(_) | Item::Hole => return None,
        }
    }
    if colors.len() < 2 || lengths.len() != colors.len() {
        return None;
    }
    let pairs: Vec<String> =
        colors.iter().zip(&lengths).map(|(color, length)| format!("{color} {length}")).collect();
    let write = format!("thread {} {}{label}", line.text(1), pairs.join(", "));
    let says = "A thread that changes color has each color with how far it goes, and commas between.";
    Some(Phrase::new(says, vec![Rewording::instead(line.whole(), write)]))
}
