//! `knotwright preview`

use crate::in_range::at_least;
use crate::inputs::Paths;
use crate::kept_address::KeptAddress;
use crate::previewed::{Following, PreviewedFile};
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::Args;
use knotwright_numbers::ToNumber;
use knotwright_preview::Preview;
use knotwright_workspace::{
    FoundFile, MARKDOWN_ENDING, PATTERN_ENDING, fenced_patterns, refusal, refuse_special,
};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Show the band in a browser while you write; the picture follows the file
///
/// The page is served on this machine only, at an address that nobody can guess, until you end the command with
/// Ctrl-C. Save the file in any editor, and the picture changes. In an editor with the language server the picture
/// follows every keystroke: run the command `knotwright.preview` there.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright preview tidepool.knot\n  \
                        knotwright preview tidepool.knot --no-open\n  \
                        knotwright preview patterns.md --number 2")]
pub(crate) struct PreviewArguments {
    /// A pattern file, or a Markdown file with patterns
    #[arg(value_name = "FILE")]
    path: PathBuf,

    /// Of several patterns in Markdown, the one of this number
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = at_least(1_u32))]
    number: u32,

    /// Print the address without opening a browser
    #[arg(long)]
    no_open: bool,
}

pub(crate) fn run(typed: PreviewArguments, terminal: &Terminal) -> CommandResult {
    let file = one(&typed.path)?;
    let which = which(&file, typed.number)?;
    let shown = file.shown.clone();
    let said = |error: &dyn std::fmt::Display| Failure::said(format_args!("{shown}: {error}"));
    let reader = Arc::new(PreviewedFile::new(file, which));
    let kept = KeptAddress::of(&typed.path, which);
    let preview = Preview::start_at(Arc::clone(&reader) as Arc<_>, kept.read())
        .map_err(|error| said(&format_args!("the page cannot be served: {}", refusal(&error))))?;
    kept.keep(preview.place());
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
        terminal.say(format_args!(
            "no browser could be opened ({}); open the address above yourself",
            refusal(&error)
        ));
    }
    terminal.say(format_args!("{shown}: the picture follows this file; Ctrl-C ends it"));
    // Whoever writes the file writes what it uses, too: both are followed.
    following.each(&reader, || preview.changed());
    Ok(Exit::Clean)
}

fn one(path: &Path) -> Result<FoundFile, Failure> {
    let shown = knotwright_workspace::shown_path(path);
    if path.is_dir() || path.as_os_str() == "-" {
        return Err(Failure::said(format_args!("{shown}: the picture follows one pattern file")));
    }
    // A pipe or a device has one text, and nothing to follow; and whoever opens a pipe waits.
    refuse_special(path).map_err(|error| Failure::said(format_args!("{shown}: {error}")))?;
    let finds = Paths::all(vec![path.to_path_buf()]).find(&[PATTERN_ENDING, MARKDOWN_ENDING])?;
    if let Some((path, error)) = finds.lost.first() {
        return Err(Failure::said(format_args!("{path}: {error}")));
    }
    match finds.files.into_iter().next() {
        Some(file) => Ok(file),
        None => Err(Failure::said(format_args!("{shown}: the picture follows one pattern file"))),
    }
}

/// Which of the patterns in Markdown is shown, from 0.
fn which(file: &FoundFile, number: u32) -> Result<usize, Failure> {
    let wanted = number.to_usize();
    let count = if file.is_markdown() {
        // A file that cannot be read now may be there when it is looked at.
        knotwright_workspace::read_text(&file.path).map_or(wanted, |text| fenced_patterns(&text).len())
    } else {
        1
    };
    match count {
        0 => Err(Failure::said(format_args!("{}: there is no pattern in it", file.shown))),
        _ if wanted > count => {
            let have = knotwright_wording::digits::count(count.to_u64(), "pattern");
            Err(Failure::said(format_args!("{}: it has {have}, so there is no number {wanted}", file.shown)))
        }
        _ => Ok(wanted - 1),
    }
}
