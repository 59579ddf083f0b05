//! The lines of a gauge, with their words and numbers in another order.

use super::signs::is_unit;
use super::{BlockSort, Phrase, Rewording, UnreadLine};
use knotwright_grammar::TokenKind;

/// Words and signs that say nothing in such a line.
const IDLE: [&str; 22] = [
    ":", "=", ",", ".", "use", "uses", "take", "takes", "measure", "measures", "need", "needs", "are", "is",
    "of", "the", "thread", "in", "per", "over", "long", "a",
];

/// What a line of a gauge tells, by the word that says so.
const TELLING: [(&[&str], Telling); 4] = [
    (&["tex"], Telling::Density),
    (&["thickness", "thick", "diameter"], Telling::Thickness),
    (&["knots", "knot"], Telling::Knots),
    (&["rows", "row"], Telling::Rows),
];

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Telling {
    Density,
    Thickness,
    Knots,
    Rows,
}

/// `tex 250`: `250 tex`; `rows 10 in 4 cm`: `10 rows measure 4 cm`; `1 mm thick`: `thickness 1 mm`.
pub(super) fn swatch(line: &UnreadLine) -> Option<Phrase> {
    if line.around != BlockSort::Gauge {
        return None;
    }
    let (mut telling, mut count, mut length) = (None, None, None);
    let mut at = 0;
    while at < line.tokens.len() {
        let text = line.text(at);
        let told = TELLING.iter().find(|(words, _)| words.contains(&text));
        // `10 rows in 4 cm`: that `in` is no inch.
        let is_inch =
            text == "in" || line.text(at + 1) != "in" || line.kind(at + 2) != Some(TokenKind::Number);
        let has_unit = is_unit(line.text(at + 1)) && is_inch;
        // `.9 mm`
        let is_part = at > 0 && line.text(at - 1) == "." && line.touch(at - 1);
        let whole = if is_part { "0." } else { "" };
        match line.kind(at)? {
            TokenKind::Number if has_unit => {
                length = Some(format!("{whole}{text} {}", line.text(at + 1))).filter(|_| length.is_none());
                length.as_ref()?;
                at += 1;
            }
            TokenKind::Number => {
                count = Some(text).filter(|_| count.is_none());
                count?;
            }
            _ if told.is_some() => {
                telling = told.map(|told| told.1).filter(|_| telling.is_none());
                telling?;
            }
            _ if IDLE.contains(&text) => {}
            _ => return None,
        }
        at += 1;
    }
    let (says, write) = match (telling?, count, length) {
        (Telling::Density, Some(count), None) => {
            ("The weight of the thread stands before `tex`.", format!("{count} tex"))
        }
        (Telling::Thickness, None, Some(length)) => {
            ("The size of the thread stands behind `thickness`.", format!("thickness {length}"))
        }
        (Telling::Knots, Some(count), Some(length)) => {
            ("A gauge says how much thread some knots use.", format!("{count} knots use {length}"))
        }
        (Telling::Rows, Some(count), Some(length)) => {
            ("A gauge says how long some rows are.", format!("{count} rows measure {length}"))
        }
        _ => return None,
    };
    Some(Phrase::new(says, vec![Rewording::instead(line.whole(), write)]))
}
