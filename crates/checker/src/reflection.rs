//! Pieces of text as they read in a mirror.

use crate::Source;
use knotwright_grammar::tree::{Chart, ChartRow, Sign};
use knotwright_grammar::{Span, TokenKind};
use std::cell::OnceCell;

/// A word, number or sign of a piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Part<'a> {
    pub(crate) kind: TokenKind,
    text: &'a str,
    span: Span,
}

/// Two numbers at the same place of two pieces that are not equal, or two marks that are no mirror image of one another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Differing {
    pub(crate) first: Span,
    pub(crate) second: Span,
}

/// What a piece says, without remarks, titles and line ends. `None` if it holds a chart: its marks would have to be
/// turned one by one.
pub(crate) fn read_shape(source: &Source, within: Span) -> Option<Vec<Part<'_>>> {
    let tokens = &source.parsed.tokens;
    let first = tokens.partition_point(|token| token.span.start < within.start);
    let inside = tokens[first..].iter().take_while(|token| token.span.end <= within.end);
    let parts = inside
        .filter(|token| !matches!(token.kind, TokenKind::Comment | TokenKind::Newline | TokenKind::String));
    parts
        .map(|token| match token.kind {
            TokenKind::Mark => None,
            kind => Some(Part { kind, text: token.span.of(&source.text), span: token.span }),
        })
        .collect()
}

/// What [`read_shape`] found, with left and right, forward and backward changed.
pub(crate) fn reflected<'a>(shape: &[Part<'a>]) -> Vec<Part<'a>> {
    shape.iter().map(|part| Part { text: turned(part.text), ..*part }).collect()
}

fn turned(word: &str) -> &str {
    match word {
        "left" => "right",
        "right" => "left",
        "forward" => "backward",
        "backward" => "forward",
        "forward-backward" => "backward-forward",
        "backward-forward" => "forward-backward",
        _ => word,
    }
}

/// The numbers in which two pieces differ; `None` if they differ in anything else.
pub(crate) fn find_differing(one: &[Part], other: &[Part]) -> Option<Vec<Differing>> {
    if one.len() != other.len() {
        return None;
    }
    let mut found = Vec::new();
    for (one, other) in one.iter().zip(other) {
        if one.kind != other.kind || (one.text != other.text && one.kind != TokenKind::Number) {
            return None;
        }
        if one.text != other.text {
            found.push(Differing { first: one.span, second: other.span });
        }
    }
    Some(found)
}

/// What the text has of pieces that mirror each other but for one number or mark. It is looked for when somebody asks, and
/// once: of one text, many bands are looked at in a search for mends.
#[derive(Debug, Default)]
pub(crate) struct NearMirrors {
    pub(crate) motifs: OnceCell<Vec<Differing>>,
    pub(crate) halves: OnceCell<Vec<Differing>>,
    pub(crate) pairs: OnceCell<Vec<Differing>>,
    pub(crate) charts: OnceCell<Vec<Differing>>,
}

/// The marks of a chart and their counterparts on the other side.
#[derive(Debug, Default)]
pub(crate) struct ChartHalves {
    /// How many marks are the mirror image of their counterpart; dots are not counted.
    pub(crate) alike: usize,
    pub(crate) differing: Vec<Differing>,
}

/// Compares the left half of a chart with its right half. A mark in the middle has no counterpart.
pub(crate) fn compare_halves(chart: &Chart) -> ChartHalves {
    let mut halves = ChartHalves::default();
    for row in chart.rows.iter().filter(|row| row.whole) {
        let half = row.marks.len() / 2;
        for (one, other) in row.marks.iter().take(half).zip(row.marks.iter().rev()) {
            if one.sign == in_mirror(other.sign) {
                halves.alike += usize::from(one.sign != Sign::Dot);
            } else {
                halves.differing.push(Differing { first: one.span(), second: other.span() });
            }
        }
    }
    halves
}

/// How many other rows of a chart read like the one of this mark, were the mark the image of its counterpart.
pub(crate) fn rows_like(chart: &Chart, mark: Span) -> usize {
    let holds = |row: &&ChartRow| row.marks.iter().any(|other| other.offset == mark.start);
    let Some(row) = chart.rows.iter().find(holds) else { return 0 };
    let signs = |row: &ChartRow| row.marks.iter().map(|mark| mark.sign).collect::<Vec<Sign>>();
    let mut mended = signs(row);
    let at = row.marks.iter().position(|other| other.offset == mark.start).unwrap_or_default();
    mended[at] = in_mirror(mended[mended.len() - 1 - at]);
    chart.rows.iter().filter(|other| other.span != row.span && signs(other) == mended).count()
}

/// A sign of a chart as it is written in a mirror.
pub(crate) fn in_mirror(sign: Sign) -> Sign {
    match sign {
        Sign::Forward => Sign::Backward,
        Sign::Backward => Sign::Forward,
        Sign::ForwardBackward => Sign::BackwardForward,
        Sign::BackwardForward => Sign::ForwardBackward,
        Sign::Same | Sign::Dot | Sign::Hash | Sign::Any | Sign::Letter(_) => sign,
    }
}

/// A mark of a chart as it is written in a mirror; `None` if it is none.
pub(crate) fn mirrored_mark(mark: &str) -> Option<&'static str> {
    Some(match mark {
        "\\" => "/",
        "/" => "\\",
        ">" => "<",
        "<" => ">",
        "x" => "x",
        "." => ".",
        "#" => "#",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn compared(one: &str, other: &str) -> Option<Vec<(String, String)>> {
        let (one, other) = (Source::new("a", one), Source::new("b", other));
        let whole = |source: &Source| Span::new(0, source.text.len());
        let (first, second) = (read_shape(&one, whole(&one))?, read_shape(&other, whole(&other))?);
        let found = find_differing(&first, &reflected(&second))?;
        let text = |d: &Differing| (d.first.of(&one.text).to_owned(), d.second.of(&other.text).to_owned());
        Some(found.iter().map(text).collect())
    }

    #[test]
    fn mirror_images_differ_in_nothing() {
        assert_eq!(compared("take left 1: forward 3", "take right 1: backward 3 -- and back"), Some(vec![]));
        let one = "take foam 1 left of center: forward-backward 1";
        assert_eq!(compared(one, "take foam 1 right of center: backward-forward 1"), Some(vec![]));
    }

    #[test]
    fn a_number_that_differs_is_found() {
        let found = compared("take left 1: forward 3", "take right 1: backward 2");
        assert_eq!(found, Some(vec![("3".to_owned(), "2".to_owned())]));
    }

    #[test]
    fn other_words_and_charts_are_no_mirror_image() {
        assert_eq!(compared("take left 1: forward 3", "take left 1: forward 3"), None);
        assert_eq!(compared("take left 1: forward 3", "take right 1: backward to edge"), None);
        assert_eq!(compared("set {\n rows {\n \\ /\n }\n}", "set {\n rows {\n \\ /\n }\n}"), None);
    }
}
