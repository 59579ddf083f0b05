//! The words that the sheet's script says.

use crate::TyingScript;
use crate::prose::words::Words;
use std::collections::BTreeMap;

/// By the name under which the script asks for them.
pub(super) fn of(all: &Words, script: &TyingScript) -> BTreeMap<&'static str, &'static str> {
    let words = &all.sheet;
    let finished = if script.made.finish.is_some() { all.ends.done } else { words.finished };
    BTreeMap::from([
        ("set", words.where_set),
        ("begin", all.ends.begin),
        ("opening", words.where_opening),
        ("closing", words.where_closing),
        ("finish", all.finish),
        ("step", words.step_of),
        ("finished", finished),
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
        ("times", words.times),
    ])
}
