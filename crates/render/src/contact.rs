//! All colorways of a band side by side.

use knotwright_color::Rgb;
use knotwright_numbers::ToNumber;

use crate::path::Point;
use crate::scene::Scene;
use crate::svg::{SvgOptions, draw_svg};
use crate::xml::Xml;
use crate::{Band, BandThread};

/// A band's threads in other colors.
#[derive(Debug, Clone, PartialEq)]
pub struct NamedColors {
    /// What it is called.
    pub name: String,
    /// The threads as they are there; threads beyond the list stay as they are.
    pub threads: Vec<BandThread>,
}

/// Between pictures, and around them.
const APART: f64 = 40.0;
/// The height of a caption, and of its letters.
const CAPTION: f64 = 44.0;
const LETTERS: f64 = 17.0;

/// Writes one SVG document with the band in each of the colorways, its name below it.
pub fn contact_sheet(band: &Band<'_>, colorways: &[NamedColors], options: &SvgOptions) -> String {
    let sheet = Sheet::of(colorways.len(), Scene::of(band).size);
    let mut xml = Xml::new(&options.prefix);
    let size = sheet.size();
    xml.open(size.scaled(options.pixels_per_millimeter / 10.0), size, &band.title);
    let ground = options.ground.unwrap_or(Rgb::WHITE);
    xml.add(format_args!("<rect width=\"100%\" height=\"100%\" fill=\"{ground}\"/>\n"));
    for (index, colorway) in colorways.iter().enumerate() {
        let others = band.threads.iter().skip(colorway.threads.len());
        let threads = colorway.threads.iter().chain(others).take(band.threads.len()).cloned().collect();
        // Knots may change color elsewhere, so each is laid out by itself.
        let scene = Scene::of(&Band { title: colorway.name.clone(), threads, ..band.clone() });
        let prefix = format!("{}{index}-", xml.prefix());
        xml.begin_at(sheet.place(index));
        xml.put(&draw_svg(
            &scene,
            &SvgOptions { prefix, ground: None, pixels_per_millimeter: 10.0, ..options.clone() },
        ));
        sheet.caption(&mut xml, &colorway.name, ground.ink());
        xml.put("</g>\n");
    }
    xml.put("</svg>\n");
    xml.finish()
}

/// Pictures of one size in rows.
struct Sheet {
    pictures: usize,
    across: usize,
    /// The room of one picture and its caption.
    cell: Point,
    picture: Point,
}

impl Sheet {
    /// As many rows as make the sheet about a third wider than high.
    fn of(pictures: usize, picture: Point) -> Self {
        let cell = Point::new(picture.x.max(160.0) + APART, picture.y + CAPTION + APART);
        let across = (pictures.to_f64() * cell.y / cell.x * 4.0 / 3.0).sqrt().ceil().to_usize();
        Self { pictures, across: across.clamp(1, pictures.max(1)), cell, picture }
    }

    fn size(&self) -> Point {
        let down = self.pictures.div_ceil(self.across);
        Point::new(self.across.to_f64() * self.cell.x + APART, down.to_f64() * self.cell.y + APART)
    }

    fn place(&self, index: usize) -> Point {
        let (x, y) = ((index % self.across).to_f64(), (index / self.across).to_f64());
        let beside = (self.cell.x - APART - self.picture.x) / 2.0;
        Point::new(APART + beside + x * self.cell.x, APART + y * self.cell.y)
    }

    fn caption(&self, xml: &mut Xml, name: &str, ink: Rgb) {
        let room = self.cell.x - APART;
        // A letter is about half as wide as it is high.
        let most = (room / (LETTERS * 0.55)).to_usize();
        let name: String = match name.char_indices().nth(most) {
            Some(_) => name.chars().take(most.saturating_sub(1)).chain(['…']).collect(),
            None => name.to_owned(),
        };
        let at = Point::new(self.picture.x / 2.0, self.cell.y - APART - CAPTION / 3.0);
        let style = format!(" font-family=\"sans-serif\" font-size=\"{LETTERS}\" fill=\"{ink}\"");
        xml.text(at, &name, &format!("{style} text-anchor=\"middle\""));
    }
}
