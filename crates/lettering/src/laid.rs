//! Letters one after another, laid on the rows of a leader.

use crate::font::Glyph;
use crate::{HEIGHTS, MOST_SIGNS};
use unicode_normalization::UnicodeNormalization;

/// A text, and how it is to lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lettering<'a> {
    /// The text. Accents that follow their letter are put together with it.
    pub text: &'a str,
    /// Whether it lies across the band, upright. Otherwise it goes along the band: the first column of a letter is its
    /// first row, and its head is to the right.
    pub across: bool,
    /// How high capitals are, in knots, one of [`HEIGHTS`]. Without it, the letters are the tallest that leave a strand
    /// free at each edge; if none do, the tallest that fit.
    pub height: Option<usize>,
}

/// A text on rows of knots.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LaidLetters {
    /// How high its capitals are.
    pub height: usize,
    /// Its letters along the band, or all of it as one if it lies across. The rows of all are even in number, so that a
    /// leader comes back to the edge where it began; the last one is empty.
    pub letters: Vec<LetterRows>,
}

/// The rows of one letter, with the empty row behind it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LetterRows {
    /// The letter, or the text that lies across; a space is one too.
    pub text: String,
    /// By row in the order of tying, by column from the left: whether there is ink.
    pub rows: Vec<Vec<bool>>,
}

/// Why a text cannot be laid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LetterTrouble {
    /// There is nothing to be seen in it.
    Empty,
    /// It has more than [`MOST_SIGNS`].
    TooManySigns {
        /// How many there are.
        signs: usize,
    },
    /// There is no such letter.
    NoLetter {
        /// The sign.
        sign: char,
    },
    /// There are no letters of that height.
    NoHeight {
        /// The height.
        height: usize,
        /// The nearest one that there is, the lower of two.
        nearest: usize,
    },
    /// The band is too narrow.
    TooNarrow(TooNarrow),
}

/// A text that needs more columns than there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TooNarrow {
    /// How high the letters were to be; if that was not said, the least height.
    pub height: usize,
    /// Whether the text was to lie across.
    pub across: bool,
    /// How many columns it needs.
    pub needs: usize,
    /// How many it needs at the least height.
    pub least: usize,
    /// How many there are.
    pub columns: usize,
    /// The greatest height that fits.
    pub fits: Option<usize>,
    /// The greatest height that fits along the band, if the text was to lie across.
    pub fits_along: Option<usize>,
}

impl LetterTrouble {
    /// Whether another height would do.
    pub fn is_of_height(&self) -> bool {
        matches!(self, Self::NoHeight { .. } | Self::TooNarrow(_))
    }

    /// The height to write instead of the one that was asked for.
    pub fn height_instead(&self) -> Option<usize> {
        match self {
            Self::NoHeight { nearest, .. } => Some(*nearest),
            Self::TooNarrow(narrow) => narrow.fits,
            Self::Empty | Self::TooManySigns { .. } | Self::NoLetter { .. } => None,
        }
    }
}

impl Lettering<'_> {
    /// The text on rows of `columns` columns.
    ///
    /// # Errors
    /// [`LetterTrouble`].
    pub fn lay(&self, columns: usize) -> Result<LaidLetters, LetterTrouble> {
        let line = self.line(columns)?;
        let needs = line.needs(self.across);
        if needs > columns {
            return Err(LetterTrouble::TooNarrow(self.narrow(&line, columns)?));
        }
        let mut letters = if self.across { vec![line.across(columns)] } else { line.along(columns) };
        let rows: usize = letters.iter().map(|letter| letter.rows.len()).sum();
        if rows % 2 == 1
            && let Some(last) = letters.last_mut()
        {
            last.rows.push(vec![false; columns]);
        }
        Ok(LaidLetters { height: HEIGHTS[line.size], letters })
    }

    fn narrow(&self, line: &LetterLine, columns: usize) -> Result<TooNarrow, LetterTrouble> {
        let signs = self.signs()?;
        Ok(TooNarrow {
            height: HEIGHTS[line.size],
            across: self.across,
            needs: line.needs(self.across),
            least: needs(&signs, 0, self.across).unwrap_or(0),
            columns,
            fits: tallest(&signs, self.across, columns),
            fits_along: if self.across { tallest(&signs, false, columns) } else { None },
        })
    }

    /// How many columns it needs at its height; without one, at the least.
    ///
    /// # Errors
    /// [`LetterTrouble`], but not [`LetterTrouble::TooNarrow`].
    pub fn needs(&self) -> Result<usize, LetterTrouble> {
        Ok(self.line(0)?.needs(self.across))
    }

    /// The letters in their size.
    fn line(&self, columns: usize) -> Result<LetterLine, LetterTrouble> {
        let signs = self.signs()?;
        let size = match self.height {
            Some(height) => size_of(height)?,
            None => {
                let roomy = |size: &usize| {
                    needs(&signs, *size, self.across).is_some_and(|needs| needs + 2 <= columns)
                };
                let fitting =
                    || tallest(&signs, self.across, columns).and_then(|height| size_of(height).ok());
                (0..HEIGHTS.len()).rev().find(roomy).or_else(fitting).unwrap_or(0)
            }
        };
        LetterLine::of(&signs, size)
    }

    fn signs(&self) -> Result<Vec<char>, LetterTrouble> {
        let signs: Vec<char> = self.text.nfc().take(16 * MOST_SIGNS).collect();
        if signs.iter().all(|sign| sign.is_whitespace()) {
            return Err(LetterTrouble::Empty);
        }
        if signs.len() > MOST_SIGNS {
            return Err(LetterTrouble::TooManySigns { signs: self.text.nfc().count() });
        }
        Ok(signs)
    }
}

fn size_of(height: usize) -> Result<usize, LetterTrouble> {
    let nearest = || HEIGHTS.into_iter().min_by_key(|there| there.abs_diff(height)).unwrap_or(HEIGHTS[0]);
    HEIGHTS
        .iter()
        .position(|there| *there == height)
        .ok_or_else(|| LetterTrouble::NoHeight { height, nearest: nearest() })
}

fn needs(signs: &[char], size: usize, across: bool) -> Option<usize> {
    Some(LetterLine::of(signs, size).ok()?.needs(across))
}

/// The greatest height in which `signs` need at most `columns` columns.
fn tallest(signs: &[char], across: bool, columns: usize) -> Option<usize> {
    let fits = |size: &usize| needs(signs, *size, across).is_some_and(|needs| needs <= columns);
    (0..HEIGHTS.len()).rev().find(fits).map(|size| HEIGHTS[size])
}

/// Letters side by side, in one size.
struct LetterLine {
    size: usize,
    letters: Vec<(char, Glyph)>,
    /// The first and the last row of their cells in which any has ink.
    top: usize,
    bottom: usize,
}

impl LetterLine {
    fn of(signs: &[char], size: usize) -> Result<Self, LetterTrouble> {
        let letter = |sign: &char| Some((*sign, Glyph::of(*sign, size)?));
        let letters = signs.iter().map(|sign| letter(sign).ok_or(LetterTrouble::NoLetter { sign: *sign }));
        let letters: Vec<(char, Glyph)> = letters.collect::<Result<_, _>>()?;
        let rows = || letters.iter().filter_map(|(_, glyph)| glyph.rows());
        let top = rows().map(|(top, _)| top).min().unwrap_or(0);
        let bottom = rows().map(|(_, bottom)| bottom).max().unwrap_or(top);
        Ok(Self { size, letters, top, bottom })
    }

    /// Space between two words, beside the gap at both its sides.
    fn space(&self) -> usize {
        HEIGHTS[self.size] / 3
    }

    fn width(&self, glyph: &Glyph) -> usize {
        if glyph.is_space() { self.space() } else { glyph.width() }
    }

    /// How high the letters are from the lowest to the highest ink, or how long the line is.
    fn needs(&self, across: bool) -> usize {
        if !across {
            return self.bottom + 1 - self.top;
        }
        self.letters.iter().map(|(_, glyph)| self.width(glyph) + 1).sum::<usize>() - 1
    }

    /// Each letter column by column, seen from the right of the band: its foot is to the left.
    fn along(&self, columns: usize) -> Vec<LetterRows> {
        let margin = (columns - self.needs(false)) / 2;
        let row = |glyph: &Glyph, column: usize| {
            let mut row = vec![false; columns];
            for y in (self.top..=self.bottom).filter(|y| !glyph.is_space() && glyph.ink[*y][column]) {
                row[margin + self.bottom - y] = true;
            }
            row
        };
        let rows = |glyph: &Glyph| {
            let inked = (0..self.width(glyph)).map(|column| row(glyph, column));
            inked.chain([vec![false; columns]]).collect()
        };
        let letters = self.letters.iter();
        letters.map(|(sign, glyph)| LetterRows { text: sign.to_string(), rows: rows(glyph) }).collect()
    }

    /// All letters side by side, upright.
    fn across(&self, columns: usize) -> LetterRows {
        let mut rows = vec![vec![false; columns]; self.needs(false) + 1];
        let mut left = (columns - self.needs(true)) / 2;
        for (_, glyph) in &self.letters {
            for (row, ink) in rows.iter_mut().zip(glyph.ink.iter().skip(self.top)) {
                row[left..left + ink.len()].copy_from_slice(ink);
            }
            left += self.width(glyph) + 1;
        }
        let text: String = self.letters.iter().map(|(sign, _)| *sign).collect();
        LetterRows { text: text.trim().to_owned(), rows }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn along(text: &str) -> Lettering<'_> {
        Lettering { text, across: false, height: None }
    }

    fn drawn(laid: &LaidLetters) -> Vec<String> {
        let rows = laid.letters.iter().flat_map(|letter| &letter.rows);
        rows.map(|row| row.iter().map(|ink| if *ink { '#' } else { '.' }).collect()).collect()
    }

    #[test]
    fn a_word_goes_along_the_band_with_its_head_to_the_right() {
        let laid = along("LF").lay(7).unwrap();
        assert_eq!(laid.height, 5);
        assert_eq!(
            drawn(&laid),
            [".#####.", ".#.....", ".#.....", ".......", ".#####.", "...#.#.", ".....#.", "......."]
        );
        assert_eq!(laid.letters.iter().map(|letter| letter.text.as_str()).collect::<Vec<_>>(), ["L", "F"]);
    }

    #[test]
    fn a_word_lies_across_upright_and_in_the_middle() {
        let laid = Lettering { text: "LF", across: true, height: Some(5) }.lay(9).unwrap();
        assert_eq!(
            drawn(&laid),
            [".#...###.", ".#...#...", ".#...##..", ".#...#...", ".###.#...", "........."]
        );
    }

    #[test]
    fn the_rows_are_even_in_number_and_the_last_is_empty() {
        for text in ["A", "I", "iI", "AHOY", "Sea glass", "! ", " a"] {
            for across in [false, true] {
                let laid = Lettering { text, across, height: Some(6) }.lay(60).unwrap();
                let rows = drawn(&laid);
                assert!(rows.len().is_multiple_of(2) && !rows.last().unwrap().contains('#'), "{text}");
                assert!(rows.iter().all(|row| row.len() == 60));
            }
        }
    }

    #[test]
    fn letters_are_the_tallest_that_leave_a_strand_free_at_each_edge() {
        let height = |columns: usize| along("AHOY").lay(columns).map(|laid| laid.height);
        assert_eq!([5, 6, 7, 8, 9, 10, 11, 15].map(height), [5, 6, 5, 6, 7, 7, 9, 13].map(Ok));
    }

    #[test]
    fn a_band_that_is_too_narrow_is_answered_with_what_fits() {
        let narrow = |text, across, height, columns| {
            let Err(LetterTrouble::TooNarrow(narrow)) = (Lettering { text, across, height }).lay(columns)
            else {
                panic!("{text} fits")
            };
            (narrow.height, narrow.needs, narrow.fits, narrow.fits_along)
        };
        assert_eq!(narrow("AHOY", false, Some(9), 7), (9, 9, Some(7), None));
        assert_eq!(narrow("AHOY", false, None, 3), (5, 5, None, None));
        assert_eq!(narrow("AHOY", true, None, 8), (5, 15, None, Some(7)));
    }

    #[test]
    fn accents_are_put_together_with_their_letters() {
        assert_eq!(along("e\u{301}").lay(20), along("\u{e9}").lay(20));
        assert_eq!(along("q\u{301}").lay(20), Err(LetterTrouble::NoLetter { sign: '\u{301}' }));
    }

    #[test]
    fn no_text_of_nothing_and_none_too_long() {
        assert_eq!(along("").lay(9), Err(LetterTrouble::Empty));
        assert_eq!(along(" \u{a0} ").lay(9), Err(LetterTrouble::Empty));
        assert_eq!(along(&"a".repeat(40)).lay(9), Err(LetterTrouble::TooManySigns { signs: 40 }));
        assert!(along(&"a".repeat(MOST_SIGNS)).lay(9).is_ok());
        let eight = Lettering { text: "a", across: false, height: Some(8) };
        assert_eq!(eight.lay(9), Err(LetterTrouble::NoHeight { height: 8, nearest: 7 }));
    }
}
