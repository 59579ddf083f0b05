//! `knotwright.thread`

use crate::documents::Snapshot;
use knotwright_checker::{Extent, Pattern};
use knotwright_maker::{Tying, Typed};
use serde::{Deserialize, Serialize};

#[derive(Debug, Deserialize)]
pub(super) struct Wish {
    length: Option<String>,
}

/// Something to read.
#[derive(Debug, Serialize)]
pub(super) struct Answer {
    pub(super) title: String,
    pub(super) markdown: String,
}

pub(super) fn answer(_: &Snapshot, pattern: &Pattern, wish: Wish) -> Result<Answer, String> {
    let length = wish.length.map(|length| length.parse::<Typed>()).transpose();
    let length = length.map_err(|why| format!("this is no length: {why}"))?;
    let extent = length.map(|length| Extent::Length(length.0));
    let markdown = Tying { extent, ..Tying::default() }.told(pattern)?.markdown();
    Ok(Answer { title: pattern.title.clone(), markdown })
}
