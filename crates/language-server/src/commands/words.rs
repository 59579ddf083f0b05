//! `knotwright.words`

use crate::documents::Snapshot;
use knotwright_checker::Pattern;
use knotwright_maker::{Mirrored, TyingOptions};
use knotwright_render::{Language, Order, ProseOptions, write_instructions};
use serde::Deserialize;

use super::thread::MarkdownAnswer;

#[derive(Debug, Deserialize)]
pub(super) struct WordsRequest {
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

pub(super) fn answer(
    _: &Snapshot,
    pattern: &Pattern,
    arguments: WordsRequest,
) -> Result<MarkdownAnswer, String> {
    let mirrored = if arguments.mirrored { Mirrored::AsFits } else { Mirrored::No };
    let language = match arguments.language {
        LanguageName::En => Language::English,
        LanguageName::De => Language::German,
        LanguageName::Es => Language::Spanish,
    };
    let instructed = TyingOptions { mirrored, language, ..TyingOptions::default() }.script(pattern)?;
    let options = ProseOptions {
        language,
        order: if arguments.by == By::Rows { Order::Rows } else { Order::Steps },
        mirrored: instructed.mirrored,
    };
    let markdown = write_instructions(&instructed.script, &options).markdown();
    Ok(MarkdownAnswer { title: pattern.title.in_language(Some(language.tag())).to_owned(), markdown })
}
