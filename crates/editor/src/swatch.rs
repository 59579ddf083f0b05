//! A patch of one color.

use knotwright_color::Rgb;

/// A patch as an SVG document: 48 by 24 pixels with a thin gray rim, so that white shows on white.
pub(crate) fn svg(color: Rgb) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"48\" height=\"24\"><rect x=\"1\" y=\"1\" width=\"46\" \
         height=\"22\" rx=\"4\" fill=\"{color}\" stroke=\"#808080\"/></svg>\n"
    )
}
