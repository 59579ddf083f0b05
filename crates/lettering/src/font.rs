//! The bitmaps of single letters.

use crate::HEIGHTS;
use embedded_graphics::geometry::{OriginDimensions, Point};
use embedded_graphics::image::GetPixel;
use embedded_graphics::mono_font::MonoFont;

/// Every alphabet in one size. The cells of all are equally large, and letters stand on the same line in them.
type Alphabets = [&'static MonoFont<'static>; 12];

/// Western Europe first, where most signs are found; then the others of ISO 8859, Cyrillic and Greek among them.
macro_rules! alphabets {
    ($size:ident) => {{
        use embedded_graphics::mono_font as fonts;
        [
            &fonts::iso_8859_1::$size,
            &fonts::iso_8859_15::$size,
            &fonts::iso_8859_2::$size,
            &fonts::iso_8859_16::$size,
            &fonts::iso_8859_10::$size,
            &fonts::iso_8859_13::$size,
            &fonts::iso_8859_14::$size,
            &fonts::iso_8859_9::$size,
            &fonts::iso_8859_4::$size,
            &fonts::iso_8859_3::$size,
            &fonts::iso_8859_5::$size,
            &fonts::iso_8859_7::$size,
        ]
    }};
}

/// By height, in the order of [`HEIGHTS`]: of the fonts with capitals of that height, the one that is best read in knots.
static SIZES: [Alphabets; HEIGHTS.len()] = [
    alphabets!(FONT_4X6),
    alphabets!(FONT_5X8),
    alphabets!(FONT_6X10),
    alphabets!(FONT_6X13),
    alphabets!(FONT_9X15),
    alphabets!(FONT_10X20),
];

/// One sign in one size.
pub(crate) struct Glyph {
    /// By row of the font's cell from the top, by column of the sign's ink: whether there is ink. Without a column it is
    /// a space.
    pub(crate) ink: Vec<Vec<bool>>,
}

impl Glyph {
    /// The sign in the size of that number; `None` if no alphabet has it.
    pub(crate) fn of(sign: char, size: usize) -> Option<Self> {
        if sign.is_whitespace() {
            return Some(Self { ink: Vec::new() });
        }
        let alphabet = SIZES.get(size)?.iter().find(|font| has(font, sign))?;
        let ink = trimmed(cell(alphabet, sign));
        (!ink.is_empty()).then_some(Self { ink })
    }

    pub(crate) fn width(&self) -> usize {
        self.ink.first().map_or(0, Vec::len)
    }

    pub(crate) fn is_space(&self) -> bool {
        self.ink.is_empty()
    }

    /// The first and the last row with ink.
    pub(crate) fn rows(&self) -> Option<(usize, usize)> {
        let inked = |row: &Vec<bool>| row.contains(&true);
        Some((self.ink.iter().position(inked)?, self.ink.iter().rposition(inked)?))
    }
}

/// A font answers for a sign that it lacks with its question mark.
fn has(font: &MonoFont, sign: char) -> bool {
    sign == '?' || font.glyph_mapping.index(sign) != font.glyph_mapping.index('?')
}

/// The cell of a sign, which the font must have.
fn cell(font: &MonoFont, sign: char) -> Vec<Vec<bool>> {
    let (width, height) = (font.character_size.width, font.character_size.height);
    let in_a_row = (font.image.size().width / width).max(1);
    let number = u32::try_from(font.glyph_mapping.index(sign)).unwrap_or(0);
    let (left, top) = (number % in_a_row * width, number / in_a_row * height);
    let is_inked = |x: u32, y: u32| {
        let point = Point::new((left + x).cast_signed(), (top + y).cast_signed());
        font.image.pixel(point).is_some_and(|color| color.is_on())
    };
    (0..height).map(|y| (0..width).map(|x| is_inked(x, y)).collect()).collect()
}

/// Without the empty columns at both sides; nothing if all are empty.
fn trimmed(cell: Vec<Vec<bool>>) -> Vec<Vec<bool>> {
    let width = cell.first().map_or(0, Vec::len);
    let mut inked = (0..width).filter(|x| cell.iter().any(|row| row[*x]));
    let Some(first) = inked.next() else { return Vec::new() };
    let last = inked.next_back().unwrap_or(first);
    cell.into_iter().map(|row| row[first..=last].to_vec()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn capitals_are_as_high_as_is_said() {
        for (size, height) in HEIGHTS.iter().enumerate() {
            for capital in 'A'..='Z' {
                let (top, bottom) = Glyph::of(capital, size).and_then(|glyph| glyph.rows()).unwrap();
                let below = usize::from(matches!(capital, 'Q' | 'J')) * 2;
                let found = bottom + 1 - top;
                assert!((*height..=height + below).contains(&found), "{capital} is {found} of {height}");
            }
        }
    }

    /// ASCII, and a choice of letters from every part of ISO 8859 (Ecma International publishes the same tables as
    /// ECMA-94, 113, 118, 128, 144).
    #[test]
    fn every_size_has_the_letters_that_people_write() {
        let ascii = '!'..='~';
        let accented =
            "ÀÉÎÕÜàéîõüÅåÆæØøÇçÑñßŠšŽžŒœĄąĆćČčĎďĘęĚěŁłŃńŇňŐőŘřŚśŠšŤťŰűŮůŹźŻżĞğİıŞşĀāĒēĪīŪūŴŵŶŷŸÿ€£§¿¡";
        let others = "АБВЯабвяёЁΑΒΓΩαβγωάήί";
        for sign in ascii.chain(accented.chars()).chain(others.chars()) {
            for (size, height) in HEIGHTS.iter().enumerate() {
                let glyph = Glyph::of(sign, size);
                assert!(glyph.is_some_and(|glyph| glyph.width() > 0), "{sign} at {height}");
            }
        }
    }

    #[test]
    fn no_two_letters_or_figures_look_alike() {
        for (size, height) in HEIGHTS.iter().enumerate() {
            let all: Vec<char> = ('A'..='Z').chain('a'..='z').chain('0'..='9').collect();
            for (at, one) in all.iter().enumerate() {
                for other in &all[at + 1..] {
                    let ink = |sign: char| Glyph::of(sign, size).map(|glyph| glyph.ink);
                    assert_ne!(ink(*one), ink(*other), "{one} and {other} at {height}");
                }
            }
        }
    }

    #[test]
    fn what_no_alphabet_has_is_not_shown_as_something_else() {
        for sign in ['\u{6d77}', '\u{1f30a}', '\u{301}', '\u{0}', '\u{200d}'] {
            assert!(Glyph::of(sign, 0).is_none(), "{sign:?}");
        }
        assert!(Glyph::of('?', 0).is_some() && Glyph::of(' ', 0).unwrap().is_space());
    }
}
