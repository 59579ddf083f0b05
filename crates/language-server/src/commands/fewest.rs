//! `knotwright.fewestPickUps`

use crate::documents::Snapshot;
use knotwright_checker::Pattern;
use knotwright_maker::fewest_pick_ups;
use serde::{Deserialize, Serialize};

/// Nothing more is to be known.
#[derive(Debug, Deserialize)]
pub(super) struct FewestPickUpsRequest {}

#[derive(Debug, Serialize)]
pub(super) struct FewestPickUpsAnswer {
    title: String,
    text: String,
    before: usize,
    after: usize,
    /// What stood in the old text and is not in the new one, in words.
    #[serde(rename = "leftOut", skip_serializing_if = "Option::is_none")]
    left_out: Option<String>,
}

pub(super) fn answer(
    snapshot: &Snapshot,
    pattern: &Pattern,
    _: FewestPickUpsRequest,
) -> Result<FewestPickUpsAnswer, String> {
    if snapshot.text.is_fenced() {
        return Err("this rewrites a pattern file; a pattern in Markdown is left as it is".to_owned());
    }
    let fewest =
        snapshot.with_world(|checked, world| fewest_pick_ups(checked.source(), pattern, world.library))?;
    Ok(FewestPickUpsAnswer {
        title: pattern.title.text.clone(),
        text: fewest.text,
        before: fewest.before,
        after: fewest.after,
        left_out: knotwright_maker::left_out(fewest.left_out),
    })
}
