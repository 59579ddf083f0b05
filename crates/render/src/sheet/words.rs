//! The words that the sheet's script says.

use crate::prose::words::SheetWords;
use std::collections::BTreeMap;

/// By the name under which the script asks for them.
pub(super) fn of(words: &SheetWords) -> BTreeMap<&'static str, &'static str> {
    BTreeMap::from([
        ("set", words.where_set),
        ("opening", words.where_opening),
        ("closing", words.where_closing),
        ("step", words.step_of),
        ("finished", words.finished),
        ("hand", words.in_hand),
        ("sure", words.begin_again_sure),
        ("fits", words.lost_fits),
        ("fitsNone", words.lost_fits_none),
        ("fitsMore", words.lost_fits_more),
        ("near", words.lost_near),
        ("nearEnd", words.lost_near_end),
        ("untie", words.lost_untie),
        ("go", words.lost_go),
        ("end", words.lost_end),
        ("strip", words.strip),
    ])
}
