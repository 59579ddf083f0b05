//! A band as it is going to hang in the gallery.

use super::{FOLDERS, key::key};
use crate::bands::{TiedFile, look};
use crate::many::LargeTurn;
use knotwright_checker::{Extent, Pattern, Source};
use knotwright_maker::{Instructed, LengthUnit, MOST_KNOTS, TyingOptions};
use knotwright_render::{BandFacts, ProseOptions, WordsLinks, draw_hanging, page_of_words, write_sheet};
use knotwright_workspace::{FoundFile, ReadError, read_text};
use std::sync::Arc;

/// A pattern that was read, before it is tied.
pub(crate) struct UntiedBand {
    source: Arc<Source>,
    /// All that its band is made from.
    pub(crate) key: String,
    unit: LengthUnit,
}

/// What is to be written of a band.
pub(crate) struct DrawnBand {
    pub(super) file: String,
    pub(super) slug: String,
    pub(super) key: String,
    /// Its picture, words and sheet.
    pub(super) texts: [Option<String>; 3],
    pub(super) facts: BandFacts,
}

impl UntiedBand {
    /// Reads the pattern of a file; lengths will be given in `unit`.
    ///
    /// # Errors
    /// It cannot be read.
    pub(crate) fn at(file: &FoundFile, unit: LengthUnit) -> Result<Self, ReadError> {
        let source = Arc::new(Source::new(&*file.shown, read_text(&file.path)?));
        let key = key(file, &source, &format!("{unit:?}"));
        Ok(Self { source, key, unit })
    }

    /// Ties and draws it for `slug`, as `name`; `None` if it is a library.
    ///
    /// # Errors
    /// In words: it has errors, or cannot be put into words.
    pub(crate) fn draw(self, file: &FoundFile, name: &str, slug: &str) -> Result<Option<DrawnBand>, String> {
        let turn = LargeTurn::default();
        let pattern = match look(file, &self.source, &turn) {
            TiedFile::Band(pattern) => pattern,
            TiedFile::Library => return Ok(None),
            TiedFile::Wrong(_) => {
                return Err("it has errors and is left out; `knotwright check` says which".to_owned());
            }
        };
        let instructed = self.instructed(&pattern).map_err(|reason| format!("it is left out: {reason}"))?;
        let script = &instructed.script;
        let (picture, size) = draw_hanging(script);
        let is_short = script.knots() <= MOST_KNOTS && script.times <= MOST_KNOTS;
        let sheet = is_short.then(|| write_sheet(script, &ProseOptions::default()).ok()).flatten();
        let address = |number: usize| format!("../{}/{slug}.{}", FOLDERS[number].0, FOLDERS[number].1);
        let (of_picture, of_sheet) = (address(0), sheet.as_ref().map(|_| address(2)));
        let links = WordsLinks { gallery: "../index.html", picture: &of_picture, sheet: of_sheet.as_deref() };
        let words = page_of_words(script, links, size);
        Ok(Some(DrawnBand {
            file: name.to_owned(),
            slug: slug.to_owned(),
            key: self.key,
            facts: BandFacts::of(script, size),
            texts: [Some(picture), Some(words), sheet],
        }))
    }

    /// The band with what to cut; with one set, if as many as it wants cannot be followed.
    fn instructed(&self, pattern: &Pattern) -> Result<Instructed, String> {
        let tying = TyingOptions { unit: self.unit, ..TyingOptions::default() };
        tying.script(pattern).or_else(|reason| {
            let one = TyingOptions { extent: Some(Extent::Sets(1)), ..tying };
            one.script(pattern).map_err(|_| reason)
        })
    }
}
