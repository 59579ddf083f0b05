//! Ranges that are within the strands that exist.

use super::{CompletionKind, Here, Items};
use crate::views;

/// More numbers than this are not listed.
const MOST: usize = 32;

/// `left 4`, `right 4`, `center 4`, `inside 1`.
pub(super) fn by_word(here: &Here, word: &str, items: &mut Items) {
    let Some(width) = here.view().map(views::width) else {
        return super::names::plain_word(here, word, items);
    };
    for number in numbers_of(word, width) {
        items.add(&format!("{word} {number}"), detail(word, number, width), CompletionKind::Place);
    }
}

/// The numbers after one of these words.
pub(super) fn numbers(here: &Here, items: &mut Items) {
    let Some(width) = here.view().map(views::width) else { return };
    let word = here.line.back(0);
    for number in numbers_of(word, width) {
        items.add(&number.to_string(), detail(word, number, width), CompletionKind::Number);
    }
}

fn numbers_of(word: &str, width: usize) -> Vec<usize> {
    let all = match word {
        "left" | "right" => 2..width,
        "center" => 2..width + 1,
        "inside" => 1..(width.saturating_sub(2)) / 2 + 1,
        _ => 0..0,
    };
    all.filter(|number| word != "center" || (width - number).is_multiple_of(2)).take(MOST).collect()
}

fn detail(word: &str, number: usize, width: usize) -> String {
    let (first, last) = match word {
        "left" => (1, number),
        "right" => (width + 1 - number, width),
        "center" => ((width - number) / 2 + 1, (width + number) / 2),
        _ => (number + 1, width - number),
    };
    format!("strands {first} to {last}")
}
