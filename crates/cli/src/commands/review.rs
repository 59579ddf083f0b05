//! `knotwright review`

use crate::git::{self, RevisionRange};
use crate::output::put;
use crate::reviewed::{
    ChangeKind, Pictures, Review, ReviewJson, ReviewRow, ReviewSides, drawn, html, human, markdown,
};
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::{Args, ValueEnum};
use knotwright_workspace::{Disk, Files, ReadError, folder_of, refusal};
use rayon::prelude::*;
use std::path::{Path, PathBuf};

/// Review a change of a repository: which bands are other bands now, and what differs
///
/// The review lists patterns that were added, deleted or moved, that tie another band, that tie another band because a
/// library changed, that have errors now, and those of which only words or spaces changed. It reads libraries, settings and
/// Markdown from both revisions. Without `--since`, it compares the files on the disk, committed or not, with the commit
/// where this branch left its upstream.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright review\n  \
                        knotwright review --since main bands/\n  \
                        knotwright review --since v1..v2 --format html > review.html\n  \
                        knotwright review --since origin/main --fail-on band --format markdown")]
pub(crate) struct ReviewArguments {
    /// Only patterns in these files and folders; all, if none is named
    #[arg(value_name = "PATH")]
    paths: Vec<PathBuf>,

    /// Compare the files on the disk with the commit where this branch left REV; `A..B` compares two revisions
    #[arg(long, value_name = "REV|A..B")]
    since: Option<String>,

    /// The output: words, Markdown for a comment, JSON (the schema is `review-1.schema.json`), or a page with pictures
    #[arg(long, value_enum, default_value_t, value_name = "FORMAT")]
    format: ReviewFormat,

    /// What makes the exit code 1
    #[arg(long, value_enum, default_value_t, value_name = "WHAT")]
    fail_on: FailOn,

    /// Also write the pictures into this folder: `bands/mooring.knot.before.svg` and `.after.svg`
    #[arg(long, value_name = "FOLDER")]
    pictures: Option<PathBuf>,

    /// Where you publish the page with the pictures, so that Markdown can link to it
    #[arg(long, value_name = "ADDRESS")]
    report: Option<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum ReviewFormat {
    /// For people
    #[default]
    Human,
    /// For a comment in a review
    Markdown,
    /// For programs
    Json,
    /// One page, with pictures before and after
    Html,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum FailOn {
    /// A listed pattern has errors
    #[default]
    Error,
    /// That, or a band changed or was deleted
    Band,
}

impl FailOn {
    fn counts(self, row: &ReviewRow) -> bool {
        match self {
            Self::Error => row.kind == ChangeKind::Broken,
            Self::Band => row.kind.is_another_band(),
        }
    }
}

pub(crate) fn run(typed: ReviewArguments, terminal: &Terminal) -> CommandResult {
    let disk = Disk::default();
    let first = typed.paths.first().map_or(disk.here().to_path_buf(), |path| place(path, &disk));
    // Its folder may have been deleted with it.
    let folder = first.ancestors().find(|folder| folder.is_dir()).unwrap_or(disk.here());
    let root = git::root(folder).map_err(Failure::said)?;
    let paths = within(&typed.paths, &root, &disk)?;
    let since = match &typed.since {
        Some(since) => since.clone(),
        None => git::upstream(&root).map_err(Failure::said)?,
    };
    let range = RevisionRange::of(&root, &since).map_err(Failure::said)?;
    let sides = ReviewSides::new(root, range).map_err(Failure::said)?;
    for (path, place) in typed.paths.iter().zip(&paths) {
        known(path, place, &sides, &disk)?;
    }
    let review = Review::of(sides, &paths).map_err(Failure::said)?;
    write(&review, &typed, terminal)?;
    let fails = review.rows.iter().any(|row| typed.fail_on.counts(row));
    Ok(if fails { Exit::Findings } else { Exit::Clean })
}

/// A path as it would be, were it there: it may be one that was deleted.
fn place(path: &Path, disk: &Disk) -> PathBuf {
    disk.canonical(path).unwrap_or_else(|_| crate::committed::placed(path, disk))
}

/// The paths that were typed, each in the repository.
fn within(typed: &[PathBuf], root: &Path, disk: &Disk) -> Result<Vec<PathBuf>, Failure> {
    let places = typed.iter().map(|path| match place(path, disk) {
        place if place.starts_with(root) => Ok(place),
        _ => Err(Failure::said(format_args!(
            "{}: it is in another repository than the first one; review them one by one",
            knotwright_workspace::shown_path(path)
        ))),
    });
    places.collect()
}

/// A path that was typed is on one side at least, or on the disk: a misspelled one would hide every change.
fn known(typed: &Path, place: &Path, sides: &ReviewSides, disk: &Disk) -> Result<(), Failure> {
    let is_none = |files: &dyn Files| !matches!(files.canonical(place), Ok(_) | Err(ReadError::Denied));
    if !is_none(disk) || sides.files.iter().any(|files| !is_none(&**files)) {
        return Ok(());
    }
    let revisions = match &sides.range.to {
        Some((_, to)) => format!("neither in `{}` nor in `{to}`", sides.range.from_name),
        None => format!("neither now nor in `{}`", sides.range.from_name),
    };
    let shown = knotwright_workspace::shown_path(typed);
    Err(Failure::said(format_args!("{shown}: there is no such file or folder, {revisions}")))
}

fn write(review: &Review, typed: &ReviewArguments, terminal: &Terminal) -> Result<(), Failure> {
    let is_drawn = typed.format == ReviewFormat::Html || typed.pictures.is_some();
    let pictures: Vec<Option<Pictures>> =
        if is_drawn { review.rows.par_iter().map(drawn).collect() } else { Vec::new() };
    let files = match &typed.pictures {
        Some(folder) => put_all(review, &pictures, folder, terminal)?,
        None => Vec::new(),
    };
    let mut out = terminal.out();
    match typed.format {
        ReviewFormat::Human => out.write(&human(review))?,
        ReviewFormat::Markdown => out.write(&markdown(review, typed.report.as_deref()))?,
        ReviewFormat::Json => out.write_json(&ReviewJson::new(review, &files))?,
        ReviewFormat::Html => out.write(&html(review, &pictures))?,
    }
    out.flush()
}

/// Writes the pictures into a folder, and says by row where they are in it.
fn put_all(
    review: &Review,
    pictures: &[Option<Pictures>],
    folder: &Path,
    terminal: &Terminal,
) -> Result<Vec<Option<Pictures>>, Failure> {
    let put_one = |row: &ReviewRow, svg: &Option<String>, when: &str| -> Result<Option<String>, Failure> {
        let Some(svg) = svg else { return Ok(None) };
        let spot = row.place();
        let line = spot.line.map_or(String::new(), |line| format!(".{line}"));
        let name = format!("{}{line}.{when}.svg", spot.path);
        let path = folder.join(&name);
        std::fs::create_dir_all(folder_of(&path)).map_err(|error| {
            let shown = knotwright_workspace::shown_path(folder_of(&path));
            Failure::said(format_args!("{shown}: the folder cannot be made: {}", refusal(&error)))
        })?;
        put(Some(&path), svg.as_bytes(), terminal)?;
        Ok(Some(name))
    };
    let all = review.rows.iter().zip(pictures).map(|(row, pictures)| {
        let Some(pictures) = pictures else { return Ok(None) };
        let before = put_one(row, &pictures.before, "before")?;
        Ok(Some(Pictures { before, after: put_one(row, &pictures.after, "after")? }))
    });
    all.collect()
}
