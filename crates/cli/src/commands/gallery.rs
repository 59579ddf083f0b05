//! `knotwright gallery`

use crate::gallery::{GalleryCount, GallerySite, HungBand, UntiedBand};
use crate::inputs::Paths;
use crate::lengths::UnitName;
use crate::many::in_order;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::Args;
use knotwright_maker::LengthUnit;
use knotwright_workspace::{FoundFile, PATTERN_ENDING, folder_of};
use std::path::PathBuf;

/// Hang all bands of a folder in a gallery: a page to look through, with the words and the sheet of each
///
/// The page works from a disk, on any server and on a phone, and asks nothing of any network. Each band hangs there with its
/// picture, its strands, its size and the thread to cut; one looks for words and orders by name or size. Run it again after a
/// change: only bands that changed, or use a file that did, are drawn again, and those that are gone are removed.
/// Libraries and patterns in Markdown are left out.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright gallery bands/ -o site\n  \
                        knotwright gallery . --output site --title \"Bands of the harbor\" --unit in")]
pub(crate) struct GalleryArguments {
    /// Pattern files, and folders to look through for them
    #[arg(required = true, value_name = "FILE|FOLDER")]
    paths: Vec<PathBuf>,

    /// The folder to write into: an empty one, one that is not there yet, or a gallery
    #[arg(short, long, value_name = "FOLDER")]
    output: PathBuf,

    /// What is above the bands
    #[arg(long, default_value = "Our bands", value_name = "TEXT")]
    title: String,

    /// The unit for lengths
    #[arg(long, value_enum, default_value_t, value_name = "UNIT")]
    unit: UnitName,
}

/// A pattern with its names in the gallery.
struct NamedPattern {
    file: FoundFile,
    name: String,
    slug: String,
}

/// What became of a pattern.
enum GalleryOutcome {
    Kept(HungBand),
    Drawn(HungBand),
    /// It has no band of its own.
    Library,
    /// It is left out, for this reason; whether the system is at fault.
    LeftOut(String, bool),
}

pub(crate) fn run(typed: GalleryArguments, terminal: &Terminal) -> CommandResult {
    let shown = knotwright_workspace::shown_path(&typed.output);
    let said = |reason: String| Failure::said(format_args!("{shown}: {reason}"));
    let finds = Paths::all(typed.paths).find(&[PATTERN_ENDING])?;
    let mut site = GallerySite::open(&typed.output).map_err(said)?;
    let (mut exit, mut count, mut hung) = (Exit::Clean, GalleryCount::default(), Vec::new());
    for (path, error) in finds.lost {
        terminal.error(format_args!("{path}: {error}"));
        exit = Exit::Failed;
    }
    let patterns = finds.files.into_iter().filter(|file| !file.is_markdown());
    let named: Vec<NamedPattern> = patterns
        .map(|file| {
            let name = name(&file);
            NamedPattern { slug: site.slug(&name), name, file }
        })
        .collect();
    let unit = LengthUnit::from(typed.unit);
    in_order(
        &named,
        |of| one(of, &site, unit),
        |(path, done)| {
            match done {
                GalleryOutcome::Kept(of) => {
                    count.kept += 1;
                    hung.push(of);
                }
                GalleryOutcome::Drawn(of) => {
                    count.drawn += 1;
                    hung.push(of);
                }
                GalleryOutcome::Library => {}
                GalleryOutcome::LeftOut(reason, failed) => {
                    terminal.error(format_args!("{path}: {reason}"));
                    exit = exit.max(if failed { Exit::Failed } else { Exit::Findings });
                }
            }
            Ok::<(), Failure>(())
        },
    )?;
    count.removed = site.finish(&typed.title, hung).map_err(said)?;
    terminal.say(format_args!("{shown}/index.html: {}", summary(count)));
    Ok(exit)
}

/// The pattern as it is shown, and what became of it.
fn one(of: &NamedPattern, site: &GallerySite, unit: LengthUnit) -> (String, GalleryOutcome) {
    let done = || {
        let look = match UntiedBand::at(&of.file, unit) {
            Ok(look) => look,
            Err(error) => return GalleryOutcome::LeftOut(error.to_string(), !error.is_about_content()),
        };
        if let Some(hung) = site.kept(&of.name, &of.slug, &look.key) {
            return GalleryOutcome::Kept(hung.clone());
        }
        match look.draw(&of.file, &of.name, &of.slug) {
            Ok(Some(drawn)) => match site.hang(drawn) {
                Ok(hung) => GalleryOutcome::Drawn(hung),
                Err(reason) => GalleryOutcome::LeftOut(reason, true),
            },
            Ok(None) => GalleryOutcome::Library,
            Err(reason) => GalleryOutcome::LeftOut(reason, false),
        }
    };
    (of.file.shown.clone(), done())
}

/// The file from the root of its workspace: the same wherever the program is started.
fn name(file: &FoundFile) -> String {
    let folder = folder_of(&file.path).canonicalize().unwrap_or_default();
    let path = file.path.file_name().map_or_else(|| folder.clone(), |name| folder.join(name));
    knotwright_workspace::shown_path(path.strip_prefix(&file.home.root).unwrap_or(&path))
}

fn summary(count: GalleryCount) -> String {
    let all = count.drawn + count.kept;
    let mut line = format!("{all} {}: {} drawn", if all == 1 { "band" } else { "bands" }, count.drawn);
    if count.kept > 0 {
        line.push_str(&format!(", {} as before", count.kept));
    }
    if count.removed > 0 {
        line.push_str(&format!(", {} removed", count.removed));
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_line_counts_what_was_done() {
        assert_eq!(summary(GalleryCount { drawn: 1, ..GalleryCount::default() }), "1 band: 1 drawn");
        assert_eq!(
            summary(GalleryCount { drawn: 0, kept: 7, removed: 2 }),
            "7 bands: 0 drawn, 7 as before, 2 removed"
        );
    }
}
