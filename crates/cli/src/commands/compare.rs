//! `knotwright compare`

use crate::bands::{Band, of_text};
use crate::compared::{Compared, Json, Verdict, markdown, text, textconv};
use crate::terminal::{Answer, Exit, Failure, Terminal};
use clap::Args;
use knotwright_workspace::{Found, Homes, folder_of, read};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Tell whether two patterns tie the same band, and what is different
///
/// What counts is the band, not the text: steps written in another way, or as a chart, tie the same band. Told are the
/// fewest knots removed, added, changed and moved, what follows from them, and the thread. Exit code 0: the same band;
/// 1: it is not, or one of the two has errors.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright compare tidepool.knot tidepool-planned.knot\n  \
                        knotwright compare tidepool.knot --against HEAD --format markdown\n  \
                        git config diff.knot.textconv \"knotwright compare --textconv\"")]
pub(crate) struct CompareArguments {
    /// The first pattern file; with `--against`, the only one
    #[arg(value_name = "FILE")]
    one: PathBuf,

    /// The other pattern file
    #[arg(value_name = "OTHER", required_unless_present_any = ["against", "textconv"])]
    other: Option<PathBuf>,

    /// Compare with the file as it was committed: `HEAD`, a branch, a tag
    #[arg(long, value_name = "REVISION", conflicts_with = "other")]
    against: Option<String>,

    /// Write the band of one file as text in which the same band gives the same lines, for `git diff`
    #[arg(long, conflicts_with_all = ["other", "against", "format"])]
    textconv: bool,

    /// What to write: words, JSON (the schema is `comparison-1.schema.json`) or Markdown for a review
    #[arg(long, value_enum, default_value_t, value_name = "FORMAT")]
    format: Format,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, clap::ValueEnum)]
enum Format {
    /// For people
    #[default]
    Text,
    /// For programs
    Json,
    /// For a comment in a review
    Markdown,
}

pub(crate) fn run(typed: CompareArguments, terminal: &Terminal) -> Answer {
    if typed.textconv {
        return convert(&typed.one, terminal);
    }
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
    let compared =
        Compared::new(&one, &other).ok_or_else(|| Failure::said("one of the two cannot be tied"))?;
    let mut out = terminal.out();
    match typed.format {
        Format::Text => out.write(&text(&compared))?,
        Format::Json => out.write_json(&Json::new(&compared))?,
        Format::Markdown => out.write(&markdown(&compared))?,
    }
    out.flush()?;
    Ok(if compared.verdict == Verdict::Same { Exit::Clean } else { Exit::Findings })
}

fn found(path: &Path) -> Result<Found, Failure> {
    let home = Homes::default().of(folder_of(path), folder_of(path))?;
    Ok(Found { shown: knotwright_workspace::shown(path), path: path.to_path_buf(), home, named: true })
}

/// The band of a file, or how the program ends after what is wrong with it was said.
fn on_disk(path: &Path, terminal: &Terminal) -> Result<Result<Band, Exit>, Failure> {
    match read(path) {
        Ok(text) => of_text(&found(path)?, &text, terminal),
        Err(error) => {
            terminal.error(format_args!("{}: {error}", knotwright_workspace::shown(path)));
            Ok(Err(if error.is_about_content() { Exit::Findings } else { Exit::Failed }))
        }
    }
}

/// The band of a file as it was. What it uses is taken from the disk, as it is now.
fn committed(path: &Path, revision: &str, terminal: &Terminal) -> Result<Result<Band, Exit>, Failure> {
    let shown = knotwright_workspace::shown(path);
    let text: Arc<str> = crate::git::committed(path, revision)
        .map_err(|reason| Failure::said(format_args!("{shown}: {reason}")))?;
    let file = Found { shown: format!("{shown} ({revision})"), ..found(path)? };
    of_text(&file, &text, terminal)
}

/// The text for `git diff`. A file with errors is shown as it is: a difference must be seen also then.
fn convert(path: &Path, terminal: &Terminal) -> Answer {
    let shown = knotwright_workspace::shown(path);
    let text = read(path).map_err(|error| Failure::said(format_args!("{shown}: {error}")))?;
    let mut out = terminal.out();
    match crate::bands::quietly(&found(path)?, &text) {
        Some(band) => out.write(&textconv(&band))?,
        None => out.write_text(&text)?,
    }
    out.flush()?;
    Ok(Exit::Clean)
}
