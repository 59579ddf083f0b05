//! `knotwright.thread`

use crate::documents::Snapshot;
use knotwright_checker::{Extent, Pattern, USUAL_LANGUAGE};
use knotwright_maker::{TyingOptions, Typed};
use serde::{Deserialize, Serialize};

#[derive(Debug, Deserialize)]
pub(super) struct ThreadRequest {
    length: Option<String>,
}

/// Something to read.
#[derive(Debug, Serialize)]
pub(super) struct MarkdownAnswer {
    pub(super) title: String,
    pub(super) markdown: String,
}

pub(super) fn answer(
    _: &Snapshot,
    pattern: &Pattern,
    arguments: ThreadRequest,
) -> Result<MarkdownAnswer, String> {
    let length = arguments.length.map(|length| length.parse::<Typed>()).transpose();
    let length = length.map_err(|why| format!("this is not a length: {why}"))?;
    let extent = length.map(|length| Extent::Length(length.0));
    let markdown = TyingOptions { extent, ..TyingOptions::default() }.report(pattern)?.markdown();
    Ok(MarkdownAnswer { title: pattern.title.in_language(USUAL_LANGUAGE).to_owned(), markdown })
}
