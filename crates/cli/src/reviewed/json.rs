//! A review as JSON. The form is `shared/schemas/review-1.schema.json`.

use super::{ChangeKind, PatternPlace, Pictures, Review, ReviewRow};
use crate::compared;
use serde::Serialize;
use std::collections::BTreeMap;

#[derive(Serialize)]
pub(crate) struct ReviewJson<'a> {
    schema: &'static str,
    before: ReviewedSide<'a>,
    after: Option<ReviewedSide<'a>>,
    counts: BTreeMap<&'static str, usize>,
    patterns: Vec<ReviewedPattern<'a>>,
    causes: Vec<ReviewedCause<'a>>,
}

#[derive(Serialize)]
struct ReviewedSide<'a> {
    revision: &'a str,
    commit: &'a str,
}

#[derive(Serialize)]
struct ReviewedPattern<'a> {
    kind: &'static str,
    title: &'a str,
    before: Option<ReviewedPlace<'a>>,
    after: Option<ReviewedPlace<'a>>,
    because: Option<&'a str>,
    errors: Vec<ReviewedError<'a>>,
    comparison: Option<compared::ComparedJson<'a>>,
    pictures: Option<&'a Pictures>,
}

#[derive(Serialize)]
struct ReviewedPlace<'a> {
    path: &'a str,
    line: Option<u32>,
}

#[derive(Serialize)]
struct ReviewedError<'a> {
    rule: Option<&'static str>,
    path: &'a str,
    line: Option<u32>,
    column: Option<u32>,
    message: &'a str,
}

#[derive(Serialize)]
struct ReviewedCause<'a> {
    path: &'a str,
    kind: &'static str,
    patterns: usize,
    changed: usize,
}

impl<'a> ReviewJson<'a> {
    /// What is written of a review. `pictures`: by row, if there are any.
    pub(crate) fn new(review: &'a Review, pictures: &'a [Option<Pictures>]) -> Self {
        let range = &review.sides.range;
        let count = |kind: ChangeKind| (kind.name(), review.of_kind(kind).count());
        let pictures = pictures.iter().map(Option::as_ref).chain(std::iter::repeat(None));
        Self {
            schema: "knotwright/review/1",
            before: ReviewedSide { revision: &range.from_name, commit: &range.from },
            after: range.to.as_ref().map(|(commit, revision)| ReviewedSide { revision, commit }),
            counts: ChangeKind::TOLD.into_iter().map(count).collect(),
            patterns: review
                .rows
                .iter()
                .zip(pictures)
                .map(|(row, pictures)| pattern(row, pictures))
                .collect(),
            causes: review.causes.iter().map(cause).collect(),
        }
    }
}

fn pattern<'a>(row: &'a ReviewRow, pictures: Option<&'a Pictures>) -> ReviewedPattern<'a> {
    let place = |spot: &'a Option<PatternPlace>| {
        spot.as_ref().map(|spot| ReviewedPlace { path: &spot.path, line: spot.line })
    };
    let errors = row.wrong.iter().map(|wrong| ReviewedError {
        rule: wrong.rule,
        path: &wrong.path,
        line: wrong.place.map(|(line, _)| line),
        column: wrong.place.map(|(_, column)| column),
        message: &wrong.message,
    });
    ReviewedPattern {
        kind: row.kind.name(),
        title: row.title(),
        before: place(&row.spots[0]),
        after: place(&row.spots[1]),
        because: row.because.as_deref(),
        errors: errors.collect(),
        comparison: row.compared().map(compared::ComparedJson::new),
        pictures,
    }
}

fn cause(cause: &super::Cause) -> ReviewedCause<'_> {
    let kind = if cause.is_settings { "settings" } else { "library" };
    ReviewedCause { path: &cause.path, kind, patterns: cause.patterns, changed: cause.changed }
}
