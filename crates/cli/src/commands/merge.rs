//! `knotwright merge`

use crate::bands::quietly;
use crate::located::FileLine;
use crate::many::LargeTurn;
use crate::merged::{interleaved, side_by_side};
use crate::outcome::Spots;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use crate::{git, whole};
use clap::Args;
use knotwright_workspace::{FoundFile, Homes, read_text, shown_path};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Merge two changes of a pattern, and tie the result
///
/// Git runs this command; you set it as `merge.<name>.driver`. It merges line by line as git does, and also changes of
/// neighboring lines, because each line is a step of its own. If the result ties and every promise holds, it replaces OURS.
/// If not, OURS gets both texts between conflict markers, and the exit code is 1.
#[derive(Debug, Args)]
#[command(after_help = "Example, once for each machine, and `*.knot merge=knot` in .gitattributes:\n  \
                        git config --global merge.knot.driver \"knotwright merge %O %A %B %P\"")]
pub(crate) struct MergeArguments {
    /// The text that both began with
    base: PathBuf,

    /// Our text; what comes of the merge is written here
    ours: PathBuf,

    /// Their text
    theirs: PathBuf,

    /// The path of the pattern, from which settings and `use` are looked up
    path: PathBuf,
}

/// What comes of a merge.
enum MergeResult {
    /// One text.
    Whole(String),
    /// A text with marks, and why.
    Conflict(String, Option<String>),
}

pub(crate) fn run(typed: &MergeArguments, terminal: &Terminal) -> CommandResult {
    let name = shown_path(&typed.path);
    let text = |path: &Path| read_text(path).map_err(|error| Failure::said(format_args!("{name}: {error}")));
    let (base, ours, theirs) = (text(&typed.base)?, text(&typed.ours)?, text(&typed.theirs)?);
    let judge = MergeJudge::of(&typed.path)?;
    let lines = git::merge_file(&typed.ours, &typed.base, &typed.theirs)
        .map_err(|reason| Failure::said(format_args!("{name}: {reason}")))?;
    let merged = match lines {
        Ok(text) => judge.whole(text, [&ours, &theirs]),
        Err(marked) => {
            match interleaved(&base, &ours, &theirs).filter(|text| judge.trouble(text).is_none()) {
                Some(text) => MergeResult::Whole(text),
                None => MergeResult::Conflict(marked, None),
            }
        }
    };
    let (text, exit) = match merged {
        MergeResult::Whole(text) => (text, Exit::Clean),
        MergeResult::Conflict(text, why) => {
            if let Some(why) = why {
                terminal.say(format_args!(
                    "{name}: the lines of both fit together, but the band does not: {why}"
                ));
            }
            (text, Exit::Findings)
        }
    };
    whole::put(&typed.ours, text.as_bytes(), || Ok(()))
        .map_err(|reason| Failure::said(format_args!("{name}: {reason}")))?;
    Ok(exit)
}

/// Says of a text whether it ties, at the place of the pattern.
struct MergeJudge {
    file: FoundFile,
}

impl MergeJudge {
    fn of(path: &Path) -> Result<Self, Failure> {
        // In a merge its folder may be still to come.
        let folder = path.ancestors().skip(1).find(|folder| folder.is_dir()).unwrap_or(Path::new("."));
        let home = Homes::default().of(folder, folder)?;
        Ok(Self { file: FoundFile { shown: shown_path(path), path: path.to_path_buf(), home, named: true } })
    }

    /// The first error; none if it ties, or is a library without one.
    fn trouble(&self, text: &str) -> Option<String> {
        let report = quietly(&self.file, &Arc::from(text), &LargeTurn::default()).err()?;
        let finding = report.findings.iter().find(|of| of.severity == knotwright_checker::Severity::Error)?;
        let line = FileLine::of(finding.place, &Spots::new(&report.files));
        Some(format!("{line}: {}", finding.message))
    }

    /// A text in which all lines fit. If one of the two did not tie to begin with, nothing can be said of both.
    fn whole(&self, text: String, [ours, theirs]: [&str; 2]) -> MergeResult {
        match self.trouble(&text) {
            Some(why) if self.trouble(ours).is_none() && self.trouble(theirs).is_none() => {
                MergeResult::Conflict(side_by_side(ours, theirs), Some(why))
            }
            _ => MergeResult::Whole(text),
        }
    }
}
