//! Lengths as they are written elsewhere.

use super::{Phrase, Rewording, UnreadLine};
use knotwright_grammar::{Expected, ProblemKind, TokenKind};

/// `15 inches`, `14 centimetres`, `15,5 cm`, `5 1/2 in`: `15 in`, `14 cm`, `15.5 cm`, `5.5 in`.
pub(super) fn length(line: &UnreadLine) -> Option<Phrase> {
    let ProblemKind::Unexpected { expected } = &line.problem.kind else { return None };
    let at = line.failing();
    if line.text(at) == "." && line.kind(at + 1) == Some(TokenKind::Number) && line.touch(at) {
        let way = Rewording::instead(line.span(at, at + 1), format!("0.{}", line.text(at + 1)));
        return Some(Phrase::new("A number below one begins with a zero.", vec![way]));
    }
    let before = at.checked_sub(1).filter(|_| expected.contains(&Expected::Unit))?;
    if let Some(unit) = unit(line.text(at)) {
        let says = format!("The unit is written `{unit}`, not `{}`.", line.text(at));
        return Some(Phrase::new(says, vec![Rewording::instead(line.tokens[at].span, unit)]));
    }
    let is_number = |at: usize| line.kind(at) == Some(TokenKind::Number);
    if line.text(at) == "," && is_number(at + 1) && line.touch(before) && line.touch(at) {
        let way = format!("{}.{}", line.text(before), line.text(at + 1));
        let says = "Tenths stand behind a point, not a comma.";
        return Some(Phrase::new(says, vec![Rewording::instead(line.span(before, at + 1), way)]));
    }
    let is_fraction = is_number(at) && line.text(at + 1) == "/" && is_number(at + 2);
    let parts = is_fraction.then(|| part(line.text(at), line.text(at + 2))).flatten()?;
    let way = format!("{}.{parts}", line.text(before));
    Some(Phrase::new(
        "Halves and quarters are written with a point.",
        vec![Rewording::instead(line.span(before, at + 2), way)],
    ))
}

/// `5.5"`: `5.5 in`.
pub(super) fn inches(line: &UnreadLine) -> Option<Phrase> {
    let sign = line.failing();
    let number = sign.checked_sub(1).filter(|&number| line.kind(number) == Some(TokenKind::Number))?;
    let is_sign = line.text(sign) == "\"" && line.touch(number);
    let way =
        Rewording::new(format!("{} in", line.text(number)), vec![(line.tokens[sign].span, " in".to_owned())]);
    is_sign.then(|| Phrase::new("The unit of inches is written `in`.", vec![way]))
}

fn unit(word: &str) -> Option<&'static str> {
    Some(match word.to_lowercase().as_str() {
        "inch" | "inches" => "in",
        "centimeter" | "centimeters" | "centimetre" | "centimetres" | "cms" => "cm",
        "millimeter" | "millimeters" | "millimetre" | "millimetres" => "mm",
        "meter" | "meters" | "metre" | "metres" => "m",
        _ => return None,
    })
}

/// The digits behind the point.
fn part(of: &str, whole: &str) -> Option<&'static str> {
    Some(match (of, whole) {
        ("1", "2") => "5",
        ("1", "4") => "25",
        ("3", "4") => "75",
        ("1", "8") => "125",
        ("3", "8") => "375",
        ("5", "8") => "625",
        ("7", "8") => "875",
        _ => return None,
    })
}
