//! `knotwright.picture`

use crate::documents::Snapshot;
use knotwright_checker::Pattern;
use knotwright_color::Eyes;
use knotwright_maker::{Look, drawn};
use serde::{Deserialize, Serialize};

#[derive(Debug, Deserialize)]
pub(super) struct Wish {
    #[serde(default)]
    chart: bool,
    colorway: Option<String>,
    vision: Option<Vision>,
    sets: Option<std::num::NonZeroU32>,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Vision {
    Protan,
    Deutan,
    Tritan,
}

#[derive(Debug, Serialize)]
pub(super) struct Answer {
    title: String,
    svg: String,
}

pub(super) fn answer(_: &Snapshot, pattern: &Pattern, wish: Wish) -> Result<Answer, String> {
    let eyes = match wish.vision {
        None => Eyes::Ordinary,
        Some(Vision::Protan) => Eyes::Protan,
        Some(Vision::Deutan) => Eyes::Deutan,
        Some(Vision::Tritan) => Eyes::Tritan,
    };
    let look = Look { chart: wish.chart, colorway: wish.colorway, eyes, sets: wish.sets.map(Into::into) };
    Ok(Answer { title: pattern.title.clone(), svg: drawn(pattern, &look)? })
}
