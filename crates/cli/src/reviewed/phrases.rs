//! What all forms of a review say alike. Text of patterns stands in it on one line, with every misleading sign visible.

use super::{Cause, ChangeKind, Review, ReviewRow};
use crate::bands::BandFile;
use crate::compared::{detail, headline};
use crate::visible::on_one_line;
use knotwright_numbers::ToNumber;
use knotwright_wording::digits::count as counted;

/// What a group of rows is called.
pub(super) fn heading(kind: ChangeKind) -> &'static str {
    match kind {
        ChangeKind::Broken => "With errors",
        ChangeKind::Band => "Band changed",
        ChangeKind::Affected => "Band changed by a library",
        ChangeKind::Deleted => "Deleted",
        ChangeKind::Added => "Added",
        ChangeKind::Mended => "Mended",
        ChangeKind::Moved => "Moved",
        ChangeKind::Words => "Only words changed",
        ChangeKind::Rewritten => "Same band, written another way",
        ChangeKind::Formatting => "Only formatted",
        ChangeKind::Alike => "As it was",
    }
}

/// Whether more is to be said of it than one line.
pub(super) fn has_details(kind: ChangeKind) -> bool {
    matches!(
        kind,
        ChangeKind::Broken
            | ChangeKind::Band
            | ChangeKind::Affected
            | ChangeKind::Words
            | ChangeKind::Rewritten
    )
}

/// `Since main: 2 bands changed, 1 added.`
pub(super) fn summary(review: &Review) -> String {
    let counts = ChangeKind::TOLD.into_iter().filter_map(|kind| {
        let count = review.of_kind(kind).count();
        (count > 0).then(|| number_of(kind, count.to_u64()))
    });
    let counts: Vec<String> = counts.collect();
    let counts = if counts.is_empty() { "no pattern changed".to_owned() } else { counts.join(", ") };
    format!("{}: {counts}.", span(review))
}

fn number_of(kind: ChangeKind, count: u64) -> String {
    let what = match kind {
        ChangeKind::Band => return format!("{} changed", counted(count, "band")),
        ChangeKind::Affected => return format!("{} changed by a library", counted(count, "band")),
        ChangeKind::Broken => "with errors",
        ChangeKind::Deleted => "deleted",
        ChangeKind::Added => "added",
        ChangeKind::Mended => "mended",
        ChangeKind::Moved => "moved",
        ChangeKind::Words => "with only words changed",
        ChangeKind::Rewritten => "written another way",
        ChangeKind::Formatting => "only formatted",
        ChangeKind::Alike => "as it was",
    };
    format!("{count} {what}")
}

/// From where to where.
fn span(review: &Review) -> String {
    let range = &review.sides.range;
    match &range.to {
        Some((_, to)) => format!("From {} to {}", on_one_line(&range.from_name), on_one_line(to)),
        None => format!("Since {}", on_one_line(&range.from_name)),
    }
}

/// What became of the patterns that use what changed.
pub(super) fn cause(cause: &Cause) -> String {
    let how = if cause.is_settings { "holds for" } else { "is used by" };
    let patterns = counted(cause.patterns.to_u64(), "other pattern");
    let changed = match (cause.patterns, cause.changed) {
        (0, _) => String::new(),
        (1, 0) => ", which did not change".to_owned(),
        (1, _) => ", which changed".to_owned(),
        (_, 0) => ", of which none changed".to_owned(),
        (_, changed) => format!(", of which {changed} changed"),
    };
    format!("{} {how} {patterns}{changed}.", on_one_line(&cause.path))
}

/// `bands/mooring.knot "Mooring"`
pub(super) fn name(row: &ReviewRow) -> String {
    let path = on_one_line(&row.place().to_string());
    match row.title() {
        "" => path,
        title => format!("{path} \"{}\"", on_one_line(title)),
    }
}

/// Where it was, and what changed it.
pub(super) fn circumstances(row: &ReviewRow) -> Vec<String> {
    let moved = row.moved_from().map(|from| format!("it was {}", on_one_line(from)));
    let because = row.because.as_ref().map(|path| {
        let path = on_one_line(path);
        match row.kind {
            ChangeKind::Deleted => format!("{path} excludes it now"),
            ChangeKind::Added => format!("{path} no longer excludes it"),
            _ => format!("{path} changed"),
        }
    });
    let still = (row.was_wrong && row.kind == ChangeKind::Broken).then(|| "it had errors before".to_owned());
    let new = (row.kind == ChangeKind::Broken && row.spots[0].is_none()).then(|| "it is new".to_owned());
    [moved, because, still, new].into_iter().flatten().collect()
}

/// What is different, in one line.
pub(super) fn gist(row: &ReviewRow) -> String {
    let gist = match row.kind {
        ChangeKind::Broken => wrong(row).first().cloned().unwrap_or_default(),
        ChangeKind::Band | ChangeKind::Affected => changed(row),
        ChangeKind::Deleted | ChangeKind::Added | ChangeKind::Mended => {
            let [before, after] = row.bands();
            after.or(before).map_or_else(|| "it has no band".to_owned(), about)
        }
        ChangeKind::Words => details(row).join(" "),
        ChangeKind::Moved | ChangeKind::Rewritten | ChangeKind::Formatting | ChangeKind::Alike => {
            "the same band".to_owned()
        }
    };
    match circumstances(row) {
        of if of.is_empty() => gist,
        of => format!("{gist} ({})", of.join("; ")),
    }
}

fn changed(row: &ReviewRow) -> String {
    let Some(compared) = row.compared() else { return String::new() };
    let strands = [&compared.one, &compared.other].map(|band| band.pattern.strands.len());
    if strands[0] != strands[1] {
        return format!("{} strands, now {}", strands[0], strands[1]);
    }
    let parts = compared.parts.iter().filter(|part| part.is_change()).map(headline);
    let mut said: Vec<String> = parts.collect();
    if said.is_empty() {
        said.push("later sets".to_owned());
    }
    if row.looks_the_same() {
        said.push("it looks the same".to_owned());
    }
    said.join("; ")
}

fn details(row: &ReviewRow) -> Vec<String> {
    row.compared().map(|of| of.details.iter().map(detail).collect()).unwrap_or_default()
}

fn about(band: &BandFile) -> String {
    let knots =
        |part: Option<&knotwright_checker::Part>| part.map_or(0, |part| part.piece.knots().len().to_u64());
    let pattern = &band.pattern;
    let strands = counted(pattern.strands.len().to_u64(), "strand");
    match knots(pattern.set.as_ref()) {
        0 => format!("{strands}, {}", counted(knots(pattern.opening.as_ref()), "knot")),
        of_set => format!("{strands}, {} in a set", counted(of_set, "knot")),
    }
}

/// Its errors, as many as anybody reads.
pub(super) fn wrong(row: &ReviewRow) -> Vec<String> {
    const MOST: usize = 5;
    let mut said: Vec<String> = row
        .wrong
        .iter()
        .take(MOST)
        .map(|wrong| {
            let message = on_one_line(&wrong.message);
            let path = on_one_line(&wrong.path);
            match wrong.place {
                Some((line, column)) if wrong.path == row.place().path => {
                    format!("line {line}, column {column}: {message}")
                }
                Some((line, column)) => format!("{path}, line {line}, column {column}: {message}"),
                None => message,
            }
        })
        .collect();
    if row.wrong.len() > MOST {
        said.push(format!("and {} more", row.wrong.len() - MOST));
    }
    said
}
