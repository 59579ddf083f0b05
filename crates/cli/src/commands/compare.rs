//! `knotwright compare`

use crate::bands::{BandFile, of_text};
use crate::committed;
use crate::compared::{Compared, ComparedJson, Verdict, markdown, text};
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::Args;
use knotwright_workspace::{FoundFile, Homes, folder_of, read_text};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Compare two patterns: whether they tie the same band, and what differs
///
/// What counts is the band, not the text: steps written in another way, or as a chart, tie the same band. The
/// report lists the fewest knots removed, added, changed and moved, what follows from them, the thread, and what
/// else differs: title, length, notes, pick-ups. Exit code 0: the same band; 1: another band, or one of the two has
/// errors.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright compare tidepool.knot tidepool-planned.knot\n  \
                        knotwright compare tidepool.knot --against HEAD --format markdown")]
pub(crate) struct CompareArguments {
    /// The first pattern file; with `--against`, the only one
    #[arg(value_name = "FILE")]
    one: PathBuf,

    /// The other pattern file
    #[arg(value_name = "OTHER", required_unless_present = "against")]
    other: Option<PathBuf>,

    /// Compare with the file in a revision, with the libraries and settings of that revision: `HEAD`, a branch, a tag
    #[arg(long, value_name = "REVISION", conflicts_with = "other")]
    against: Option<String>,

    /// The output: words, JSON (the schema is `comparison-1.schema.json`) or Markdown for a review
    #[arg(long, value_enum, default_value_t, value_name = "FORMAT")]
    format: CompareFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, clap::ValueEnum)]
enum CompareFormat {
    /// For people
    #[default]
    Text,
    /// For programs
    Json,
    /// For a comment in a review
    Markdown,
}

pub(crate) fn run(typed: CompareArguments, terminal: &Terminal) -> CommandResult {
    let (one, other) = match (&typed.other, &typed.against) {
        (Some(other), _) => (on_disk(&typed.one, terminal)?, on_disk(other, terminal)?),
        (None, Some(revision)) => {
            (committed(&typed.one, revision, terminal)?, on_disk(&typed.one, terminal)?)
        }
        (None, None) => return Err(Failure::said("name two files, or one and `--against`")),
    };
    let (one, other) = match (one, other) {
        (Ok(one), Ok(other)) => (one, other),
        (one, other) => return Ok(one.err().max(other.err()).unwrap_or(Exit::Findings)),
    };
    let compared = Compared::new(one, other);
    let mut out = terminal.out();
    match typed.format {
        CompareFormat::Text => out.write(&text(&compared))?,
        CompareFormat::Json => out.write_json(&ComparedJson::new(&compared))?,
        CompareFormat::Markdown => out.write(&markdown(&compared))?,
    }
    out.flush()?;
    Ok(if compared.verdict == Verdict::Same { Exit::Clean } else { Exit::Findings })
}

fn found(path: &Path) -> Result<FoundFile, Failure> {
    let home = Homes::default().of(folder_of(path), folder_of(path))?;
    Ok(FoundFile {
        shown: knotwright_workspace::shown_path(path),
        path: path.to_path_buf(),
        home,
        named: true,
    })
}

/// The band of a file, or how the program ends after what is wrong with it was said.
fn on_disk(path: &Path, terminal: &Terminal) -> Result<Result<BandFile, Exit>, Failure> {
    match read_text(path) {
        Ok(text) => to_compare(&found(path)?, &text, terminal),
        Err(error) => {
            terminal.error(format_args!("{}: {error}", knotwright_workspace::shown_path(path)));
            Ok(Err(if error.is_about_content() { Exit::Findings } else { Exit::Failed }))
        }
    }
}

/// The band of a file as it was.
fn committed(path: &Path, revision: &str, terminal: &Terminal) -> Result<Result<BandFile, Exit>, Failure> {
    let (file, text) = committed::found(path, revision)?;
    to_compare(&file, &text, terminal)
}

/// The band of a text, if there is room to compare it.
fn to_compare(
    file: &FoundFile,
    text: &Arc<str>,
    terminal: &Terminal,
) -> Result<Result<BandFile, Exit>, Failure> {
    let band = of_text(file, text, terminal)?;
    Ok(band.and_then(|band| if band.has_room(terminal) { Ok(band) } else { Err(Exit::Failed) }))
}
