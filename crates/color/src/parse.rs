//! Reading a color as a pattern writes it.

use std::fmt;
use std::str::FromStr;

use crate::{Rgb, names};

/// What is wrong with a word that should be a color.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotAColor {
    /// It begins with `#`, but this many characters follow; there must be three or six.
    Digits(usize),
    /// It begins with `#`, and this character is no hexadecimal digit.
    Digit(char),
    /// It is no color name of CSS.
    Name,
}

impl fmt::Display for NotAColor {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Digits(found) => {
                write!(f, "a color has three or six digits after `#`, and this one has {found}")
            }
            Self::Digit(found) => {
                write!(f, "the digits of a color are 0 to 9 and a to f, and `{found}` is none of them")
            }
            Self::Name => f.write_str("no color of CSS has this name"),
        }
    }
}

impl std::error::Error for NotAColor {}

/// Reads `#rgb`, `#rrggbb` or one of the names of CSS Color 4; letters may be of either case, as in CSS.
impl FromStr for Rgb {
    type Err = NotAColor;

    fn from_str(text: &str) -> Result<Self, NotAColor> {
        match text.strip_prefix('#') {
            Some(digits) => hexadecimal(digits),
            None => names::named(text).ok_or(NotAColor::Name),
        }
    }
}

fn hexadecimal(digits: &str) -> Result<Rgb, NotAColor> {
    let nibbles = digits.chars().map(nibble).collect::<Result<Vec<u8>, _>>()?;
    match *nibbles.as_slice() {
        [r, g, b] => Ok(Rgb::new(r * 17, g * 17, b * 17)),
        [r, red, g, green, b, blue] => Ok(Rgb::new(r * 16 + red, g * 16 + green, b * 16 + blue)),
        _ => Err(NotAColor::Digits(nibbles.len())),
    }
}

fn nibble(digit: char) -> Result<u8, NotAColor> {
    digit.to_digit(16).and_then(|value| u8::try_from(value).ok()).ok_or(NotAColor::Digit(digit))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_digits_are_each_doubled() {
        // CSS Color 4, section 5.2: #rgb is the same as #rrggbb with every digit written twice.
        assert_eq!("#1f8".parse(), Ok(Rgb::new(0x11, 0xff, 0x88)));
        assert_eq!("#1F8aB0".parse(), Ok(Rgb::new(0x1f, 0x8a, 0xb0)));
    }

    #[test]
    fn says_what_is_wrong() {
        assert_eq!("#12".parse::<Rgb>(), Err(NotAColor::Digits(2)));
        assert_eq!("#".parse::<Rgb>(), Err(NotAColor::Digits(0)));
        assert_eq!("#12345678".parse::<Rgb>(), Err(NotAColor::Digits(8)));
        assert_eq!("#12g".parse::<Rgb>(), Err(NotAColor::Digit('g')));
        assert_eq!("#1é2".parse::<Rgb>(), Err(NotAColor::Digit('é')));
        assert_eq!("kelp".parse::<Rgb>(), Err(NotAColor::Name));
        assert_eq!("".parse::<Rgb>(), Err(NotAColor::Name));
    }

    #[test]
    fn what_is_written_can_be_read() {
        let sand = Rgb::new(0xd9, 0xb3, 0x7a);
        assert_eq!(sand.to_string().parse(), Ok(sand));
    }
}
