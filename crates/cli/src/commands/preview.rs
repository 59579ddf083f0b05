//! `knotwright preview`

use crate::inputs::find_all;
use crate::previewed::{Following, Reader};
use crate::terminal::{Answer, Exit, Failure, Terminal};
use clap::Args;
use knotwright_preview::Preview;
use knotwright_workspace::{Found, MARKDOWN_ENDING, PATTERN_ENDING};
use std::path::PathBuf;
use std::sync::Arc;

/// Show the band in a browser while you write: the picture follows the file
///
/// The page is served on this machine only, at an address that nobody can guess, and is gone when this command ends
/// (Ctrl-C). Save the file in any editor, and the picture changes. An editor with the language server follows every
/// keystroke instead: there the command is called `knotwright.preview`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright preview tidepool.knot\n  \
                        knotwright preview tidepool.knot --no-open")]
pub(crate) struct PreviewArguments {
    /// A pattern file
    #[arg(value_name = "FILE")]
    path: PathBuf,

    /// Only print the address, and open nothing
    #[arg(long)]
    no_open: bool,
}

pub(crate) fn run(typed: PreviewArguments, terminal: &Terminal) -> Answer {
    let file = one(&typed.path)?;
    let shown = file.shown.clone();
    let said = |error: &dyn std::fmt::Display| Failure::said(format_args!("{shown}: {error}"));
    let reader = Arc::new(Reader::new(file));
    let preview = Preview::start(Arc::clone(&reader) as Arc<_>)
        .map_err(|error| said(&format_args!("no page: {error}")))?;
    let following =
        Following::new(&typed.path).map_err(|error| said(&format_args!("cannot be followed: {error}")))?;
    let mut out = terminal.out();
    out.write(preview.address())?;
    out.write("\n")?;
    out.flush()?;
    drop(out);
    if !typed.no_open
        && let Err(error) = open::that_detached(preview.address())
    {
        terminal.say(format_args!("no browser could be opened ({error}); open the address above in one"));
    }
    terminal.say(format_args!("{shown}: the picture follows this file; Ctrl-C ends it"));
    // Whoever writes the file writes what it uses, too: both are followed.
    following.each(&reader, || preview.changed());
    Ok(Exit::Clean)
}

fn one(path: &PathBuf) -> Result<Found, Failure> {
    let shown = knotwright_workspace::shown(path);
    if path.is_dir() || path.as_os_str() == "-" {
        return Err(Failure::said(format_args!("{shown}: the picture follows one pattern file")));
    }
    let finds = find_all(std::slice::from_ref(path), &[PATTERN_ENDING, MARKDOWN_ENDING])?;
    if let Some((path, error)) = finds.lost.first() {
        return Err(Failure::said(format_args!("{path}: {error}")));
    }
    match finds.files.into_iter().next() {
        Some(file) if !file.is_markdown() => Ok(file),
        _ => Err(Failure::said(format_args!("{shown}: a pattern file is needed here, not Markdown"))),
    }
}
