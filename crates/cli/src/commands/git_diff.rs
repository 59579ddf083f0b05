//! `knotwright git-diff`

use crate::bands::{BandFile, quietly};
use crate::committed::in_files;
use crate::compared::{Compared, Verdict, changes};
use crate::git::{self, CommitFiles};
use crate::many::LargeTurn;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use crate::visible::{on_one_line, visible};
use clap::Args;
use knotwright_maker::too_large;
use knotwright_numbers::ToNumber;
use knotwright_wording::digits::count as counted;
use knotwright_workspace::{Disk, Files, FoundFile, read_text};
use similar::TextDiff;
use std::ffi::OsString;
use std::path::Path;
use std::sync::Arc;

/// Show bands in `git diff`: what changed in the band instead of in its text
///
/// Git runs this command; you set it as `diff.<name>.command`. If both texts tie the same band, it shows nothing. If one of
/// them does not tie, is a library, or has more than a million knots, it compares the texts. Libraries are read from the disk
/// for a text that is on the disk, and for another one from the newest commit in which the pattern has that text.
#[derive(Debug, Args)]
#[command(after_help = "Example, once for each machine, and `*.knot diff=knot` in .gitattributes:\n  \
                        git config --global diff.knot.command \"knotwright git-diff\"")]
pub(crate) struct GitDiffArguments {
    /// What git hands over: the path, then file, name and mode of the old text and of the new one
    #[arg(required = true, trailing_var_arg = true, allow_hyphen_values = true, value_name = "WORD")]
    handed: Vec<OsString>,
}

pub(crate) fn run(typed: &GitDiffArguments, terminal: &Terminal) -> CommandResult {
    let shown = match typed.handed.as_slice() {
        [path] => format!("{}: it is in conflict\n", shown(path)),
        [path, old, old_name, _, new, new_name, _, more @ ..] => {
            // Of a file that was moved the new path comes after.
            let new_path = more.first().unwrap_or(path);
            let root = git::root(Path::new(".")).unwrap_or_default();
            let side = |path: &OsString, file: &OsString, name: &OsString| {
                DiffSide { root: &root, path: Path::new(path), file: Path::new(file), blob: name.to_str() }
                    .read()
            };
            difference(new_path, side(path, old, old_name)?, side(new_path, new, new_name)?)
        }
        _ => {
            return Err(Failure::said("git hands over one word, or seven: see `knotwright git-diff --help`"));
        }
    };
    let mut out = terminal.out();
    out.write(&shown)?;
    out.flush()?;
    // Git takes any other end for a failure of the whole difference.
    Ok(Exit::Clean)
}

fn shown(path: &OsString) -> String {
    on_one_line(&knotwright_workspace::shown_path(Path::new(path)))
}

/// One of the two that git shows.
struct DiffSide<'a> {
    root: &'a Path,
    path: &'a Path,
    file: &'a Path,
    /// The name of the text; zeros if it is on the disk.
    blob: Option<&'a str>,
}

/// A text, and its band if it ties one.
struct DiffText {
    text: Arc<str>,
    band: Option<BandFile>,
}

impl DiffSide<'_> {
    /// None if there is no file on this side.
    fn read(&self) -> Result<Option<DiffText>, Failure> {
        if self.file == Path::new("/dev/null") {
            return Ok(None);
        }
        let path = knotwright_workspace::shown_path(self.path);
        let text = read_text(self.file).map_err(|error| Failure::said(format_args!("{path}: {error}")))?;
        let band = self.found(&text).and_then(|found| quietly(&found, &text, &LargeTurn::default()).ok()?);
        let band = band.filter(|band| too_large(&band.pattern).is_none());
        Ok(Some(DiffText { text, band }))
    }

    fn found(&self, text: &str) -> Option<FoundFile> {
        let place = self.root.join(self.path);
        let files: Arc<dyn Files> = match self.commit(text) {
            Some(commit) => Arc::new(commit),
            None => Arc::new(Disk::seen_from(self.root.to_path_buf())),
        };
        let shown = knotwright_workspace::shown_path(self.path);
        if let Ok((found, _)) = in_files(Arc::clone(&files), &place, shown.clone()) {
            return Some(found);
        }
        // It is gone from the disk, or was never committed so.
        let folder = place.ancestors().skip(1).find(|folder| files.canonical(folder).is_ok())?;
        let home = knotwright_workspace::Homes::among(files).of(folder, folder).ok()?;
        Some(FoundFile { path: place, shown, home, named: true })
    }

    /// The commit that what the text uses is read from; none if it is the disk.
    fn commit(&self, text: &str) -> Option<CommitFiles> {
        let blob = self.blob.filter(|blob| blob.bytes().any(|digit| digit != b'0'))?;
        if !text.contains("use") {
            return None;
        }
        let path = self.path.to_str()?;
        let commit = git::last_with(self.root, path, blob).ok()??;
        CommitFiles::new(self.root, &commit, commit.get(..8)?, self.root).ok()
    }
}

fn difference(path: &OsString, old: Option<DiffText>, new: Option<DiffText>) -> String {
    let path = shown(path);
    match (old, new) {
        (Some(DiffText { band: Some(old), .. }), Some(DiffText { band: Some(new), .. })) => {
            of_bands(&path, old, new).unwrap_or_default()
        }
        (None, Some(DiffText { band: Some(new), .. })) => format!("{path}: a new band, {}\n", about(&new)),
        (Some(DiffText { band: Some(old), .. }), None) => format!("{path}: deleted, {}\n", about(&old)),
        (old, new) => of_texts(&path, old, new),
    }
}

/// None if they are the same.
fn of_bands(path: &str, old: BandFile, new: BandFile) -> Option<String> {
    let compared = Compared::new(old, new);
    let said = match compared.verdict {
        Verdict::Same => return None,
        Verdict::SameLook => "it looks the same, but is tied with other knots",
        Verdict::Different => "another band",
    };
    Some(format!("{path}: {said}\n{}\n", changes(&compared)))
}

/// What it is called and how wide it is.
fn about(band: &BandFile) -> String {
    let strands = counted(band.pattern.strands.len().to_u64(), "strand");
    format!("\"{}\", {strands}", on_one_line(&band.pattern.title.text))
}

fn of_texts(path: &str, old: Option<DiffText>, new: Option<DiffText>) -> String {
    let name = |side: &Option<DiffText>, letter: &str| match side {
        Some(_) => format!("{letter}/{path}"),
        None => "/dev/null".to_owned(),
    };
    let names = [name(&old, "a"), name(&new, "b")];
    let text = |side: Option<DiffText>| side.map_or_else(|| Arc::from(""), |side| side.text);
    let (old, new) = (text(old), text(new));
    let difference = TextDiff::from_lines(&*old, &*new);
    visible(&difference.unified_diff().header(&names[0], &names[1]).to_string()).into_owned()
}
