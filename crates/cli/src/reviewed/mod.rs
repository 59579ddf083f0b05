//! What a change does to the bands of a repository: what is found out, before it is put into words.

mod concerned;
mod html;
mod human;
mod json;
mod markdown;
mod pairs;
mod phrases;
mod pictures;
mod row;
mod sides;

pub(crate) use html::html;
pub(crate) use human::human;
pub(crate) use json::ReviewJson;
pub(crate) use markdown::markdown;
pub(crate) use pictures::{Pictures, drawn};
pub(crate) use row::{ChangeKind, PatternPlace, ReviewRow};
pub(crate) use sides::ReviewSides;

use concerned::{Because, Concerned, concerned};
use pairs::rows;
use rayon::prelude::*;
use std::path::PathBuf;

/// A change of a repository, seen by its bands.
pub(crate) struct Review {
    /// The two that are compared.
    pub(crate) sides: ReviewSides,
    /// The patterns that are not as they were, the gravest first.
    pub(crate) rows: Vec<ReviewRow>,
    /// The libraries and settings that changed.
    pub(crate) causes: Vec<Cause>,
}

/// A file that changed, and what it did to the patterns that it concerns and whose own text is as it was.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Cause {
    /// Its path from the root of the repository.
    pub(crate) path: String,
    /// Whether it holds settings, and not motifs.
    pub(crate) is_settings: bool,
    /// How many patterns it concerns.
    pub(crate) patterns: usize,
    /// How many of them are not as they were.
    pub(crate) changed: usize,
}

impl Review {
    /// Looks at what changed between two sides, under `paths` (absolute) or everywhere.
    ///
    /// # Errors
    /// In words: git is not there or cannot answer.
    pub(crate) fn of(sides: ReviewSides, paths: &[PathBuf]) -> Result<Self, String> {
        let concerned = concerned(&sides, paths)?;
        let looked: Vec<Vec<ReviewRow>> = concerned.par_iter().map(|file| rows(&sides, file)).collect();
        let causes = causes(&concerned, &looked);
        let mut rows: Vec<ReviewRow> = looked.into_iter().flatten().filter(ReviewRow::is_change).collect();
        rows.sort_by(|one, other| (one.kind, one.place()).cmp(&(other.kind, other.place())));
        Ok(Self { sides, rows, causes })
    }

    /// The rows of one kind.
    pub(crate) fn of_kind(&self, kind: ChangeKind) -> impl Iterator<Item = &ReviewRow> {
        self.rows.iter().filter(move |row| row.kind == kind)
    }
}

fn causes(concerned: &[Concerned], rows: &[Vec<ReviewRow>]) -> Vec<Cause> {
    let mut causes: Vec<Cause> = Vec::new();
    for (file, rows) in concerned.iter().zip(rows) {
        let (path, is_settings) = match &file.because {
            Because::Changed => continue,
            Because::Uses(path) => (path, false),
            Because::Settings(path) => (path, true),
        };
        let cause = match causes.iter().position(|cause| cause.path == *path) {
            Some(at) => &mut causes[at],
            None => {
                causes.push(Cause { path: path.clone(), is_settings, patterns: 0, changed: 0 });
                causes.last_mut().expect("one was added")
            }
        };
        cause.patterns += rows.iter().filter(|row| row.is_pattern()).count();
        cause.changed += rows.iter().filter(|row| row.is_pattern() && row.is_change()).count();
    }
    causes.sort_by(|one, other| one.path.cmp(&other.path));
    causes
}
