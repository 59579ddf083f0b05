//! The picture beside the words.

use super::{Look, Picture, name, plain};
use knotwright_color::Rgb;
use knotwright_grammar::TokenKind;

/// A patch of color for a thread, a small piece of the band for a step.
pub(super) fn of(look: &Look) -> Option<Picture> {
    if look.token.kind == TokenKind::Color {
        let rgb: Rgb = look.written().parse().ok()?;
        return Some(plain::patch(rgb, "the color"));
    }
    let (rgb, thread) = name::color(look)?;
    Some(plain::patch(rgb, &thread))
}
