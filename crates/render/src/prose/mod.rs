//! A band in words: instructions that a person can follow who has seen no picture of the tying.

pub(crate) mod act;
mod asides;
mod document;
pub(crate) mod end_hows;
pub(crate) mod ends;
mod html;
pub(crate) mod items;
mod markdown;
mod numbers;
mod parts;
mod plain;
mod rows;
pub(crate) mod start;
pub(crate) mod tell;
pub(crate) mod words;

pub use act::CountFrom;
pub use asides::{Aside, AsideKind, list_asides};
pub use document::ProseDocument;
pub use numbers::StepNumber;
pub use words::Language;

use crate::{Mirror, TyingScript};
use document::ProseBlock;
use parts::ProseParts;
use tell::Teller;

/// How instructions are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ProseOptions {
    /// In which language.
    pub language: Language,
    /// The order in which knots are described.
    pub order: Order,
    /// What was mirrored in the script, so that it is said.
    pub mirrored: Option<Mirror>,
}

/// The order in which knots are described.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Order {
    /// Step by step, as the pattern says.
    #[default]
    Steps,
    /// Row by row: all knots that lie next to each other.
    Rows,
}

impl ProseOptions {
    pub(crate) fn teller<'a>(&self, script: &'a TyingScript) -> Teller<'a> {
        let is_image = self.mirrored == Some(Mirror::Image);
        Teller { script, words: self.language.words(), counting: self.counting(), is_image }
    }

    pub(crate) fn counting(&self) -> CountFrom {
        if self.mirrored == Some(Mirror::Picture) { CountFrom::FromRight } else { CountFrom::AsWritten }
    }
}

/// Writes the instructions for a band, from the first cut to the last knot, with the cautions that belong to it.
pub fn write_instructions(script: &TyingScript, options: &ProseOptions) -> ProseDocument {
    let teller = options.teller(script);
    let mut document = ProseDocument::new();
    start::write_head(&teller, options, &mut document);
    start::write_materials(&teller, &mut document);
    ends::write_begin(&teller, &mut document);
    start::write_layout(&teller, options, &mut document);
    start::write_knots(&teller, &mut document);
    write_parts(&teller, options, &mut document);
    ends::write_finish(&teller, &mut document);
    document.push(ProseBlock::Heading(2, teller.words.care.into()));
    document.push(ProseBlock::List(ends::list_cautions(&teller).into_iter().map(str::to_owned).collect()));
    document
}

/// Opening, set and closing.
pub(crate) fn write_parts(teller: &Teller<'_>, options: &ProseOptions, document: &mut ProseDocument) {
    ProseParts { teller, options }.tell(document);
}
