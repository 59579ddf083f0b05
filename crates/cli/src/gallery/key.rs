//! What a band of the gallery is made from, as one number: if it is the same, so is everything that would be drawn.

use crate::changed::named_by;
use knotwright_checker::{Library as _, Source};
use knotwright_numbers::ToNumber;
use knotwright_workspace::FoundFile;
use sha2::{Digest as _, Sha256};
use std::collections::BTreeSet;
use std::sync::Arc;

/// Changed whenever the pages change and the version of the program does not.
const FORM: u32 = 2;

/// The SHA-256, in hexadecimal digits, of all that a band is made from: its text, the files that it uses through any
/// number of files, the settings that hold for it, what was asked for (`wish`), and this program.
pub(super) fn key(file: &FoundFile, source: &Arc<Source>, wish: &str) -> String {
    let mut hash = Sha256::new();
    // Each piece with its length, so that no two lists of pieces read alike.
    let mut add = |text: &str| {
        hash.update(text.len().to_u64().to_le_bytes());
        hash.update(text);
    };
    add(&format!("{FORM} {} {wish} {:?}", env!("CARGO_PKG_VERSION"), file.settings().levels));
    let (mut seen, mut left) = (BTreeSet::new(), vec![Arc::clone(source)]);
    while let Some(source) = left.pop() {
        add(&source.text);
        for path in named_by(&source) {
            match file.home.library.open(&source.path, &path) {
                Ok(used) if seen.insert(used.path.clone()) => left.push(used),
                Ok(_) => {}
                Err(error) => add(&format!("{path}: {error:?}")),
            }
        }
    }
    hash.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
}
