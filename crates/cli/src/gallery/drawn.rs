//! A band as it is going to hang in the gallery.

use super::{FOLDERS, key::key};
use crate::bands::{TiedFile, look};
use crate::many::LargeTurn;
use knotwright_checker::{Extent, Pattern, Source};
use knotwright_maker::{Instructed, LengthUnit, MOST_KNOTS, TyingOptions};
use knotwright_render::{
    Band, BandFacts, ProseOptions, Scene, TyingScript, WordsLinks, draw_hanging, page_of_words, write_sheet,
};
use knotwright_workspace::{FoundFile, ReadError, read_text};
use std::sync::Arc;

/// In tenths of a millimeter, how much of what is above the knots a card can show and still show knots below it; and how
/// much of it is left where it is more.
const MOST_ABOVE: f64 = 200.0;
const LEFT_ABOVE: f64 = 80.0;

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
    /// What its card shows of the picture, if not the top of it.
    pub(super) view: Option<String>,
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
            view: knots_in(&picture, script),
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

/// A card has no room for a long loop, plait or tassel and the knots below it: the view of the picture that begins shortly
/// above the knots, to be added to its address (SVG 2, "SVG fragment identifiers"); `None` if they are near its top.
fn knots_in(picture: &str, script: &TyingScript) -> Option<String> {
    let bare = Band { parts: Vec::new(), ..script.band() };
    let above = Some(Scene::of(&bare).top).filter(|top| *top > MOST_ABOVE)? - LEFT_ABOVE;
    let (_, rest) = picture.split_once("viewBox=\"0 0 ")?;
    let (width, height) = rest.split_once('"')?.0.split_once(' ')?;
    Some(format!("#svgView(viewBox(0,{above:.0},{width},{height}))"))
}
