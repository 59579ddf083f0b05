//! One line of a baseline.

use super::{KnownCounts, WarningKey};
use knotwright_checker::{Finding, Report};
use knotwright_numbers::ToNumber;
use knotwright_workspace::folder_of;
use serde::{Deserialize, Serialize};
use std::fmt;
use std::path::{Component, Path, PathBuf};

/// Warnings of one rule in statements that read alike.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct BaselineEntry {
    /// From the folder of the baseline, with `/` between folders.
    pub(super) file: String,
    pub(super) rule: String,
    /// The words up to the block or the end of the statement, a space between two; empty if it is in none.
    pub(super) statement: String,
    /// How many there are.
    pub(super) times: usize,
}

/// All of it.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WrittenBaseline {
    pub(super) schema: String,
    pub(super) known: Vec<BaselineEntry>,
}

impl fmt::Display for BaselineEntry {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.file, self.rule)?;
        if self.times > 1 {
            write!(f, ", {} times", self.times)?;
        }
        if self.statement.is_empty() { Ok(()) } else { write!(f, ", in `{}`", self.statement) }
    }
}

/// What is counted of a file, without what is counted as none.
pub(super) fn entries(file: &str, counts: KnownCounts) -> Vec<BaselineEntry> {
    let some = counts.into_iter().filter(|(_, times)| *times > 0);
    some.map(|(WarningKey { rule, statement }, times)| BaselineEntry {
        file: file.to_owned(),
        rule,
        statement,
        times,
    })
    .collect()
}

/// The words of the innermost statement that a finding begins in.
pub(super) fn statement(report: &Report, finding: &Finding) -> String {
    let Some(source) = report.files.get(finding.place.file.0.to_usize()) else { return String::new() };
    let at = finding.place.span.start;
    let around = source.parsed.tree.walk().filter(|of| of.span.start <= at && at < of.span.end).last();
    let words = around.map_or("", |statement| statement.head.of(&source.text));
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The path of a file from a canonical folder.
pub(super) fn relative(path: &Path, from: &Path) -> String {
    let folder = folder_of(path).canonicalize().unwrap_or_else(|_| folder_of(path).to_path_buf());
    let path = path.file_name().map_or_else(|| folder.clone(), |name| folder.join(name));
    let common = path.components().zip(from.components()).take_while(|(one, other)| one == other).count();
    let up = from.components().skip(common).map(|_| Component::ParentDir);
    let down: PathBuf = up.chain(path.components().skip(common)).collect();
    knotwright_workspace::shown_path(&down)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_named_from_the_folder_of_the_baseline() {
        for (path, from, is) in [
            ("/tides/bands/a.knot", "/tides", "bands/a.knot"),
            ("/tides/a.knot", "/tides/checks", "../a.knot"),
            ("/other/a.knot", "/tides", "../other/a.knot"),
        ] {
            assert_eq!(relative(Path::new(path), Path::new(from)), is);
        }
    }
}
