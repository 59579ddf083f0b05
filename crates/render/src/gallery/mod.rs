//! A gallery: one page on which all bands of a collection hang side by side, and a page of words for each.
//!
//! Nothing in it comes from elsewhere. Its pages name their script and style in their policy by their hashes, as the sheet
//! does; pictures are files of their own, and what is not in sight is not read.

mod facts;
mod index;
mod words;

pub use facts::{BandFacts, CutLine, HungThread};
pub use index::{HangingBand, write_gallery};
pub use words::{WordsLinks, page_of_words};

use crate::text::write_escaped;
use crate::{Scene, SvgOptions, TyingScript, draw_svg};
use knotwright_numbers::ToNumber;

/// Pixels to a millimeter: one scale for all pictures, so that a broad band looks broad next to a slim one.
const SCALE: f64 = 7.0;

/// How much of a band is drawn, in millimeters; the rest of it looks the same, and is on its sheet.
const SEEN: f64 = 75.0;

/// More knots are not drawn.
const MOST_KNOTS: usize = 20_000;

/// The beginning of a band as it hangs in the gallery, and how large the picture is in pixels.
pub fn draw_hanging(script: &TyingScript) -> (String, [u32; 2]) {
    let mut band = script.band();
    // A row of bricks has a knot for every two positions, or one less: this counts no row that is not there.
    let a_row = (script.strands.len().max(2).to_f64() / 2.0).floor();
    let mut knots = 0;
    let begins = |part: &&crate::BandPart<'_>| {
        let fits = knots.to_f64() / a_row * script.gauge.pitch < SEEN && knots < MOST_KNOTS;
        knots += part.piece.knots().len();
        fits
    };
    let count = band.parts.iter().take_while(begins).count();
    band.parts.truncate(count.max(1));
    let scene = Scene::of(&band);
    // A scene is measured in tenths of a millimeter.
    let size = [scene.size.x, scene.size.y].map(|of| (of * SCALE / 10.0).ceil().to_u32());
    (draw_svg(&scene, &SvgOptions { pixels_per_millimeter: SCALE, ..SvgOptions::default() }), size)
}

fn html(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    write_escaped(&mut out, text);
    out
}

/// The start of a page, up to its body. Pictures may come from the folders next to it, from a disk or from a server.
fn head(title: &str, style: &str, script: Option<&str>) -> String {
    let named = crate::sheet::hash_source;
    let scripts = script.map_or_else(|| "'none'".to_owned(), named);
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src 'self' file:; \
         script-src {scripts}; style-src {}; base-uri 'none'; form-action 'none'\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n<title>{}</title>\n<style>{style}</style>\n</head>\n",
        named(style),
        html(title)
    )
}
