//! From a file on two sides to its patterns, each next to what it was.

use super::concerned::{Because, Concerned};
use super::row::{ChangeKind, PatternError, PatternPlace, ReviewRow, RowBands};
use super::sides::ReviewSides;
use crate::bands::{BandFile, quietly};
use crate::checking::in_page;
use crate::compared::{Compared, Verdict};
use crate::many::LargeTurn;
use crate::outcome::Spots;
use knotwright_checker::{Report, Severity};
use knotwright_grammar::{Columns, LineIndex};
use knotwright_maker::too_large;
use knotwright_workspace::{FoundFile, fenced_patterns, folder_of};
use std::sync::Arc;

/// A pattern on one side.
struct PatternUnit {
    spot: PatternPlace,
    /// Its text alone; none if it cannot be read.
    text: Option<String>,
    state: UnitState,
}

enum UnitState {
    Band(Box<BandFile>),
    Library,
    PatternError(Vec<PatternError>),
}

/// What became of the patterns of a file.
pub(super) fn rows(sides: &ReviewSides, file: &Concerned) -> Vec<ReviewRow> {
    let turn = LargeTurn::default();
    let [before, after] = [0, 1].map(|side: usize| match &file.paths[side] {
        Some(path) => units(sides, side, path, &turn),
        None => Vec::new(),
    });
    let because = match &file.because {
        Because::Changed => None,
        Because::Uses(path) | Because::Settings(path) => Some(path),
    };
    let pairs = paired(before, after).into_iter();
    pairs.map(|pair| ReviewRow { because: because.cloned(), ..row(pair, because.is_some()) }).collect()
}

/// The patterns of a file on one side: one, or those of a Markdown file; none where its settings exclude it.
fn units(sides: &ReviewSides, side: usize, path: &str, turn: &LargeTurn) -> Vec<PatternUnit> {
    let (files, place) = (&*sides.files[side], sides.absolute(path));
    let spot = || PatternPlace { path: path.to_owned(), line: None };
    let failed = |message: String| {
        let state = UnitState::PatternError(vec![unplaced(path, message)]);
        vec![PatternUnit { spot: spot(), text: None, state }]
    };
    if !files.is_file(&place) {
        return Vec::new();
    }
    let home = match sides.homes[side].of(folder_of(&place), &sides.root) {
        Ok(home) => home,
        Err(error) => return failed(format!("{}: {}", error.path, error.reason)),
    };
    if home.excludes_file(&place) {
        return Vec::new();
    }
    let text = match files.read(&place) {
        Ok(text) => text,
        Err(error) => return failed(error.to_string()),
    };
    let file = FoundFile { path: place, shown: path.to_owned() + files.mark(), home, named: false };
    if !file.is_markdown() {
        let state = match quietly(&file, &text, turn) {
            Err(report) => UnitState::PatternError(wrong(sides, &report)),
            Ok(found) => tied(path, found),
        };
        return vec![PatternUnit { spot: spot(), text: Some(text.to_string()), state }];
    }
    let lines = LineIndex::new(&text);
    let units = fenced_patterns(&text).into_iter().map(|fenced| {
        let start = u32::try_from(fenced.place.start).unwrap_or(u32::MAX);
        let line = lines.position(&text, start, Columns::Chars).line + 1;
        let state = match quietly(&file, &Arc::from(&*fenced.text), turn) {
            Err(report) => UnitState::PatternError(wrong(sides, &in_page(*report, &text, &fenced))),
            Ok(found) => tied(path, found),
        };
        let text = Some(fenced.alone(&text).text);
        PatternUnit { spot: PatternPlace { line: Some(line), ..spot() }, text, state }
    });
    units.collect()
}

fn tied(path: &str, found: Option<BandFile>) -> UnitState {
    let Some(band) = found else { return UnitState::Library };
    match too_large(&band.pattern) {
        Some(message) => UnitState::PatternError(vec![unplaced(path, message)]),
        None => UnitState::Band(Box::new(band)),
    }
}

/// An error that is about a whole file.
fn unplaced(path: &str, message: String) -> PatternError {
    PatternError { rule: None, path: path.to_owned(), place: None, message }
}

fn wrong(sides: &ReviewSides, report: &Report) -> Vec<PatternError> {
    let spots = Spots::new(&report.files);
    let errors = report.findings.iter().filter(|finding| finding.severity == Severity::Error);
    let said = errors.map(|finding| {
        let spot = spots.of(finding.place);
        let marks = sides.files.iter().map(|files| files.mark()).filter(|mark| !mark.is_empty());
        let path = marks.fold(spot.path, |path, mark| path.strip_suffix(mark).unwrap_or(path)).to_owned();
        let (rule, place) = (Some(finding.rule.name), Some((spot.line, spot.column)));
        PatternError { rule, path, place, message: finding.message.clone() }
    });
    said.collect()
}

/// The patterns of both sides that belong together: of one title, or else those that are left, in order.
fn paired(before: Vec<PatternUnit>, mut after: Vec<PatternUnit>) -> Vec<[Option<PatternUnit>; 2]> {
    let (mut pairs, mut left) = (Vec::new(), Vec::new());
    for one in before {
        match after.iter().position(|other| title(other).is_some() && title(other) == title(&one)) {
            Some(at) => pairs.push([Some(one), Some(after.remove(at))]),
            None => left.push(one),
        }
    }
    let mut after = after.into_iter();
    pairs.extend(left.into_iter().map(|one| [Some(one), after.next()]));
    pairs.extend(after.map(|other| [None, Some(other)]));
    pairs
}

fn title(unit: &PatternUnit) -> Option<&str> {
    match &unit.state {
        UnitState::Band(band) => Some(&band.pattern.title.text),
        _ => None,
    }
}

/// `is_untouched`: its own text is as it was.
fn row([before, after]: [Option<PatternUnit>; 2], is_untouched: bool) -> ReviewRow {
    let spots = [&before, &after].map(|unit| unit.as_ref().map(|unit| unit.spot.clone()));
    let texts = [&before, &after].map(|unit| unit.as_ref().and_then(|unit| unit.text.clone()));
    let was_wrong = matches!(before.as_ref().map(|unit| &unit.state), Some(UnitState::PatternError(_)));
    let is_wrong = matches!(after.as_ref().map(|unit| &unit.state), Some(UnitState::PatternError(_)));
    let [before, after] = [before, after].map(|unit| unit.map(|unit| unit.state));
    let mut wrong = Vec::new();
    let (kind, content) = match (before, after) {
        (Some(UnitState::Band(one)), Some(UnitState::Band(other))) => {
            both(*one, *other, &texts, is_untouched)
        }
        (before, Some(UnitState::PatternError(errors))) => {
            wrong = errors;
            (ChangeKind::Broken, band(before))
        }
        (before, None) => (ChangeKind::Deleted, band(before)),
        (None, after) => (ChangeKind::Added, band(after)),
        (Some(UnitState::PatternError(_)), after) => (ChangeKind::Mended, band(after)),
        (Some(UnitState::Library), Some(UnitState::Band(other))) => (ChangeKind::Added, RowBands::One(other)),
        (Some(UnitState::Band(one)), Some(UnitState::Library)) => (ChangeKind::Deleted, RowBands::One(one)),
        (Some(UnitState::Library), Some(UnitState::Library)) => (ChangeKind::Alike, RowBands::None),
    };
    let mut row = ReviewRow { kind, spots, because: None, content, wrong, was_wrong };
    // What was broken, is, and was not touched is not of this change.
    if is_untouched && was_wrong && is_wrong {
        row.kind = ChangeKind::Alike;
    }
    // Libraries have no band; what is done with them shows in those that use them.
    if matches!(row.content, RowBands::None) && row.wrong.is_empty() && !row.was_wrong {
        row.kind = ChangeKind::Alike;
    }
    if row.kind == ChangeKind::Alike && row.moved_from().is_some() && matches!(row.content, RowBands::Both(_))
    {
        row.kind = ChangeKind::Moved;
    }
    row
}

fn band(state: Option<UnitState>) -> RowBands {
    match state {
        Some(UnitState::Band(band)) => RowBands::One(band),
        _ => RowBands::None,
    }
}

fn both(
    one: BandFile,
    other: BandFile,
    texts: &[Option<String>; 2],
    is_untouched: bool,
) -> (ChangeKind, RowBands) {
    let compared = Compared::new(one, other);
    let is_same_text = texts[0] == texts[1];
    let kind = match compared.verdict {
        Verdict::Same if is_same_text && compared.details.is_empty() => ChangeKind::Alike,
        Verdict::Same if compared.details.iter().any(|detail| !detail.is_about_tying()) => ChangeKind::Words,
        Verdict::Same if !is_same_text && is_formatted_alike(texts) => ChangeKind::Formatting,
        Verdict::Same => ChangeKind::Rewritten,
        _ if is_untouched => ChangeKind::Affected,
        _ => ChangeKind::Band,
    };
    (kind, RowBands::Both(Box::new(compared)))
}

fn is_formatted_alike(texts: &[Option<String>; 2]) -> bool {
    let formatted = |text: &Option<String>| text.as_deref().map(knotwright_formatter::format_text);
    formatted(&texts[0]) == formatted(&texts[1])
}
