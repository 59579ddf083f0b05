//! `knotwright.words`

use crate::documents::Snapshot;
use knotwright_checker::Pattern;
use knotwright_maker::{Mirrored, Tying};
use knotwright_render::{Language, Order, ProseOptions, instructions};
use serde::Deserialize;

use super::thread::Answer;

#[derive(Debug, Deserialize)]
pub(super) struct Wish {
    #[serde(default)]
    mirrored: bool,
    #[serde(default)]
    by: By,
    #[serde(default)]
    language: LanguageName,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "lowercase")]
enum By {
    #[default]
    Steps,
    Rows,
}

#[derive(Debug, Clone, Copy, Default, Deserialize)]
#[serde(rename_all = "lowercase")]
enum LanguageName {
    #[default]
    En,
    De,
    Es,
}

pub(super) fn answer(_: &Snapshot, pattern: &Pattern, wish: Wish) -> Result<Answer, String> {
    let mirrored = if wish.mirrored { Mirrored::AsFits } else { Mirrored::No };
    let instructed = Tying { mirrored, ..Tying::default() }.script(pattern)?;
    let options = ProseOptions {
        language: match wish.language {
            LanguageName::En => Language::English,
            LanguageName::De => Language::German,
            LanguageName::Es => Language::Spanish,
        },
        order: if wish.by == By::Rows { Order::Rows } else { Order::Steps },
        mirrored: instructed.mirrored,
    };
    let markdown = instructions(&instructed.script, &options).markdown();
    Ok(Answer { title: pattern.title.clone(), markdown })
}
