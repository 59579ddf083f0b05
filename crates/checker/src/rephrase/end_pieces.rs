//! The pieces of an end with their words and numbers in another order: `wrap 5 turns kelp`, `split in two {`, `plait 4 cm`.

use super::signs::is_unit;
use super::{BlockSort, Phrase, Rewording, UnreadLine, number_said};
use knotwright_grammar::TokenKind;
use knotwright_grammar::tree::Due;

/// Words in such a line that say nothing.
const IDLE: [&str; 22] = [
    "for", "with", "around", "round", "times", "turns", "turn", "wraps", "of", "the", "a", "in", "into",
    "parts", "part", "strands", "bundles", "groups", "over", "long", "ends", "and",
];

/// A fewer number of bundles cannot be plaited, and with three it is mostly done.
const FEWEST_BUNDLES: &str = "3";

/// `wrap kelp 5 turns`, `split 2 {`, `plait 3 for 4 cm` from their words in any order.
pub(super) fn piece(line: &UnreadLine) -> Option<Phrase> {
    if line.around != BlockSort::Ends {
        return None;
    }
    let (mut thread, mut number, mut length) = (None, None, None);
    let mut at = 1;
    while at < line.tokens.len() {
        let text = line.text(at);
        match line.kind(at)? {
            TokenKind::Number if is_unit(line.text(at + 1)) && length.is_none() => {
                length = Some(format!("{text} {}", line.text(at + 1)));
                at += 1;
            }
            TokenKind::Number if number.is_none() => number = Some(text.to_owned()),
            TokenKind::Word if IDLE.contains(&text) => {}
            TokenKind::Word if line.given.has(Due::Thread, text) && thread.is_none() => thread = Some(text),
            TokenKind::Word if number.is_none() => number = Some(number_said(text)?),
            TokenKind::Comma | TokenKind::OpenBrace => {}
            _ => return None,
        }
        at += 1;
    }
    let (says, way) = match (line.text(0), thread, number, length) {
        ("wrap", Some(thread), Some(number), None) => {
            let write = format!("wrap {thread} {number} turns");
            (
                "A wrap is said by its thread and then by how many turns.",
                Rewording::instead(line.whole(), write),
            )
        }
        ("split", None, Some(number), None) if line.text(line.tokens.len() - 1) == "{" => {
            let write = format!("split {number} {{");
            ("Behind `split` comes how many parts there are.", Rewording::instead(line.whole(), write))
        }
        ("plait", None, number, Some(length)) => {
            let is_said = number.is_some();
            let number = number.unwrap_or_else(|| FEWEST_BUNDLES.to_owned());
            let way = Rewording::instead(line.whole(), format!("plait {number} for {length}"));
            let says = "A plait is said by how many bundles it has, `for`, and how long it is.";
            (says, if is_said { way } else { way.guess() })
        }
        _ => return None,
    };
    Some(Phrase::new(says, vec![way]))
}
