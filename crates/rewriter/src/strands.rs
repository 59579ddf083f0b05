//! The `strands` line.

use crate::RewriteError;
use crate::rewrite::{Original, in_place_of};
use knotwright_checker::{Pattern, Report, Settings, check};
use knotwright_formatter::{Edit, apply_text_edits};
use knotwright_grammar::tree::Strands;

/// Threads as a list, in as few words as it takes: `2 kelp foam | mirror`. By position, the number of a thread of the
/// pattern.
pub fn write_list(pattern: &Pattern, threads: &[u16]) -> String {
    let count = threads.len();
    let is_mirrored = count > 3 && threads.iter().eq(threads.iter().rev());
    if !is_mirrored {
        return plain(pattern, threads);
    }
    let half = plain(pattern, &threads[..count / 2]);
    match count % 2 {
        0 => format!("{half} | mirror"),
        _ => format!("{half} | {} | mirror", name(pattern, threads[count / 2])),
    }
}

fn plain(pattern: &Pattern, threads: &[u16]) -> String {
    let run = |run: &[u16]| match run.len() {
        1 => name(pattern, run[0]).to_owned(),
        count => format!("{count} {}", name(pattern, run[0])),
    };
    threads.chunk_by(|one, next| one == next).map(run).collect::<Vec<_>>().join(" ")
}

fn name(pattern: &Pattern, thread: u16) -> &str {
    pattern.threads.get(usize::from(thread)).map_or("", |thread| thread.name.as_str())
}

/// The pattern with its strands in another order, and what comes of tying it so: its promises may no longer hold.
///
/// # Errors
/// [`RewriteError::Unsound`] if it has no `strands` line.
pub fn with_strands(original: Original<'_>, threads: &[u16]) -> Result<(String, Report), RewriteError> {
    let statements = &original.source.parsed.tree.statements;
    let line = statements.iter().find(|statement| statement.is::<Strands>());
    let span = line.ok_or(RewriteError::Unsound)?.span;
    let edit = Edit { span, text: format!("strands {}", write_list(original.pattern, threads)) };
    let text = apply_text_edits(&original.source.text, &[edit]);
    let report = check(in_place_of(original, &text), original.library, &Settings::default());
    Ok((text, report))
}
