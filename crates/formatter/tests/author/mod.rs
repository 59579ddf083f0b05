//! A careless author: writes files that are valid, in every way that white space, comments and line breaks allow.
//! Each choice is a die; no dice left is the plainest choice, so that proptest finds small files.

mod page;
mod statements;

use proptest::prelude::*;

/// Valid files, written as carelessly as possible.
pub(crate) fn files() -> impl Strategy<Value = String> {
    prop::collection::vec(any::<u8>(), 0..400).prop_map(|dice| file(&dice))
}

/// The file that `dice` decide on.
pub(crate) fn file(dice: &[u8]) -> String {
    let mut page = page::Page::new(dice);
    statements::whole_file(&mut page);
    page.done()
}
