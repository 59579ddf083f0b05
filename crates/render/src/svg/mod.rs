//! The picture as SVG.

mod gradient;
mod knots;
mod strands;

use std::fmt::Write;

use knotwright_color::Rgb;

use crate::bead::Form;
use crate::path::Point;
use crate::scene::{Bead, Scene};
use crate::text::{escaped, number};

/// How a picture is written.
#[derive(Debug, Clone, PartialEq)]
pub struct SvgOptions {
    /// What lies behind the band; nothing if `None`.
    pub ground: Option<Rgb>,
    /// Pixels to a millimeter, for the size that is written into the picture.
    pub pixels_per_millimeter: f64,
    /// Whether every knot says in `data-step` which step of which part it belongs to (`part.step`, from 0).
    pub steps: bool,
    /// Put before every name inside the picture, so that several pictures can live in one page. Only ASCII
    /// letters, digits, `-` and `_` are kept.
    pub prefix: String,
}

impl Default for SvgOptions {
    fn default() -> Self {
        Self { ground: None, pixels_per_millimeter: 10.0, steps: false, prefix: String::new() }
    }
}

/// Writes a scene as one SVG document, without any script, style sheet or outside reference.
pub fn svg(scene: &Scene, options: &SvgOptions) -> String {
    let mut writer = Writer::new(scene, options);
    writer.open();
    writer.strands();
    writer.knots();
    writer.out.push_str("</svg>\n");
    writer.out
}

/// The picture without its knots: what `png` lays them onto.
pub(crate) fn ground_and_strands(scene: &Scene, options: &SvgOptions) -> String {
    let mut writer = Writer::new(scene, options);
    writer.open();
    writer.strands();
    writer.out.push_str("</svg>\n");
    writer.out
}

/// One knot by itself, in the middle of twice `half`.
pub(crate) fn one_knot(scene: &Scene, form: Form, thread: u16, half: Point) -> String {
    let options = SvgOptions::default();
    let bead = Bead { middle: half, form, thread, row: 0, gap: 0, part: 0, step: 0 };
    let one = Scene {
        title: String::new(),
        size: half.scaled(2.0),
        cords: Vec::new(),
        neck: None,
        beads: vec![bead],
        colors: scene.colors.clone(),
        ..*scene
    };
    let mut writer = Writer::new(&one, &options);
    writer.open();
    writer.knots();
    writer.out.push_str("</svg>\n");
    writer.out
}

struct Writer<'a> {
    scene: &'a Scene,
    options: &'a SvgOptions,
    prefix: String,
    out: String,
}

impl<'a> Writer<'a> {
    fn new(scene: &'a Scene, options: &'a SvgOptions) -> Self {
        let kept = |letter: &char| letter.is_ascii_alphanumeric() || matches!(letter, '-' | '_');
        let prefix = options.prefix.chars().filter(kept).collect();
        Self { scene, options, prefix, out: String::with_capacity(8192 + scene.beads.len() * 40) }
    }

    fn open(&mut self) {
        let size = self.scene.size;
        let scale = self.options.pixels_per_millimeter / 10.0;
        self.out.push_str("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\"");
        self.numbers(&[("width", size.x * scale), ("height", size.y * scale)]);
        self.out.push_str(" viewBox=\"0 0 ");
        number(&mut self.out, size.x);
        self.out.push(' ');
        number(&mut self.out, size.y);
        self.out.push_str("\">\n<title>");
        escaped(&mut self.out, &self.scene.title);
        self.out.push_str("</title>\n");
        if let Some(ground) = self.options.ground {
            self.write(format_args!("<rect width=\"100%\" height=\"100%\" fill=\"{ground}\"/>\n"));
        }
    }

    fn write(&mut self, text: std::fmt::Arguments<'_>) {
        // A String takes whatever is written: the result says nothing.
        let _ = self.out.write_fmt(text);
    }

    /// Attributes whose values are numbers.
    fn numbers(&mut self, values: &[(&str, f64)]) {
        for (name, value) in values {
            self.write(format_args!(" {name}=\""));
            number(&mut self.out, *value);
            self.out.push('"');
        }
    }

    fn place(&mut self, at: Point) {
        self.numbers(&[("x", at.x), ("y", at.y)]);
    }
}
