//! A band in words: instructions that a person can follow who has seen no picture of the tying.

pub(crate) mod act;
mod document;
mod html;
pub(crate) mod items;
mod markdown;
mod parts;
mod plain;
mod rows;
pub(crate) mod start;
pub(crate) mod tell;
pub(crate) mod words;

pub use act::Counting;
pub use document::Document;
pub use words::Language;

use crate::{Mirror, Script};
use document::Block;
use parts::Parts;
use tell::Teller;

/// How instructions are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ProseOptions {
    /// In which language.
    pub language: Language,
    /// In which order knots are told.
    pub order: Order,
    /// What was mirrored in the script, so that it is said.
    pub mirrored: Option<Mirror>,
}

/// In which order knots are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Order {
    /// Step by step, as the pattern says.
    #[default]
    Steps,
    /// Row by row: all knots that lie beside each other.
    Rows,
}

impl ProseOptions {
    pub(crate) fn counting(&self) -> Counting {
        if self.mirrored == Some(Mirror::Picture) { Counting::FromRight } else { Counting::AsWritten }
    }
}

/// Writes the instructions for a band, from the first cut to the last knot, with the cautions that belong to it.
pub fn instructions(script: &Script, options: &ProseOptions) -> Document {
    let teller = Teller { script, words: options.language.words(), counting: options.counting() };
    let mut document = Document::new();
    start::head(&teller, options, &mut document);
    start::materials(&teller, &mut document);
    start::layout(&teller, options, &mut document);
    start::knots(&teller, &mut document);
    parts(&teller, options, &mut document);
    document.push(Block::Heading(2, teller.words.finish.into()));
    document.push(Block::Text(teller.words.finish_text.into()));
    document.push(Block::Heading(2, teller.words.care.into()));
    document.push(Block::List(teller.words.cautions.iter().map(|text| (*text).to_owned()).collect()));
    document
}

/// Opening, set and closing.
pub(crate) fn parts(teller: &Teller<'_>, options: &ProseOptions, document: &mut Document) {
    Parts { teller, options }.tell(document);
}
