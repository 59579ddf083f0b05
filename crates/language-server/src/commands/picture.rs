//! `knotwright.picture`

use crate::documents::Snapshot;
use knotwright_checker::{Pattern, USUAL_LANGUAGE};
use knotwright_color::Eyes;
use knotwright_maker::{Look, draw_pattern};
use serde::{Deserialize, Serialize};

#[derive(Debug, Deserialize)]
pub(super) struct PictureRequest {
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
pub(super) struct PictureAnswer {
    title: String,
    svg: String,
}

pub(super) fn answer(
    _: &Snapshot,
    pattern: &Pattern,
    arguments: PictureRequest,
) -> Result<PictureAnswer, String> {
    let eyes = match arguments.vision {
        None => Eyes::Ordinary,
        Some(Vision::Protan) => Eyes::Protan,
        Some(Vision::Deutan) => Eyes::Deutan,
        Some(Vision::Tritan) => Eyes::Tritan,
    };
    let look = Look {
        chart: arguments.chart,
        colorway: arguments.colorway,
        eyes,
        sets: arguments.sets.map(Into::into),
    };
    Ok(PictureAnswer {
        title: pattern.title.in_language(USUAL_LANGUAGE).to_owned(),
        svg: draw_pattern(pattern, &look)?,
    })
}
