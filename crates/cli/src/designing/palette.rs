//! The threads of a file.

use crate::terminal::Failure;
use knotwright_grammar::parse;
use knotwright_grammar::tree::Thread;
use knotwright_maker::FaceThread;
use knotwright_workspace::{Disk, Files, shown_path};
use std::path::Path;

/// The threads that a pattern declares; it need not be tied, and may say no more than these.
///
/// # Errors
/// It cannot be read, or declares no thread of a color that is known.
pub(crate) fn read_palette(path: &Path) -> Result<Vec<FaceThread>, Failure> {
    let said = |reason: String| Failure::said(format_args!("{}: {reason}", shown_path(path)));
    let text = Disk::default().read(path).map_err(|error| said(error.to_string()))?;
    let parsed = parse(&text);
    let threads = parsed.tree.statements.iter().filter_map(|statement| statement.get::<Thread>());
    let named: Vec<FaceThread> = threads
        .filter_map(|thread| {
            Some(FaceThread { name: thread.name.text.to_string(), color: thread.color.value.parse().ok()? })
        })
        .collect();
    match named.is_empty() {
        true => Err(said("it declares no thread, so it is no palette".to_owned())),
        false => Ok(named),
    }
}
