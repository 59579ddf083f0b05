//! The picture as SVG.

mod beads;
mod ends;
mod gradient;
mod knots;
mod marks;
mod strands;

use knotwright_color::Rgb;

use crate::bead::Form;
use crate::path::Point;
use crate::scene::{Bead, Scene};
use crate::xml::Xml;

pub use knots::rim_color as rim_of;

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
    /// Numbers of knots of the scene that have a ring around them, and an arrow at their row.
    pub marked: Vec<usize>,
}

impl Default for SvgOptions {
    fn default() -> Self {
        Self {
            ground: None,
            pixels_per_millimeter: 10.0,
            steps: false,
            prefix: String::new(),
            marked: Vec::new(),
        }
    }
}

/// Writes a scene as one SVG document, without any script, style sheet or outside reference.
pub fn draw_svg(scene: &Scene, options: &SvgOptions) -> String {
    let mut writer = Writer::new(scene, options);
    writer.open();
    writer.strands();
    writer.knots();
    writer.threaded();
    writer.joins();
    writer.marks();
    writer.close()
}

/// The picture without its knots: what `png` lays them onto.
pub(crate) fn ground_and_strands(scene: &Scene, options: &SvgOptions) -> String {
    let mut writer = Writer::new(scene, options);
    writer.open();
    writer.strands();
    writer.close()
}

/// The beads by themselves, where they are in the picture.
pub(crate) fn only_threaded(scene: &Scene, options: &SvgOptions) -> String {
    let options = SvgOptions { ground: None, ..options.clone() };
    let mut writer = Writer::new(scene, &options);
    writer.open();
    writer.threaded();
    writer.close()
}

/// The signs of joins by themselves.
pub(crate) fn joins_alone(scene: &Scene, options: &SvgOptions) -> String {
    let bare = SvgOptions { ground: None, ..options.clone() };
    let mut writer = Writer::new(scene, &bare);
    writer.open();
    writer.joins();
    writer.close()
}

/// One knot by itself, in the middle of twice `half`.
pub(crate) fn one_knot(scene: &Scene, form: Form, thread: u16, half: Point) -> String {
    let options = SvgOptions::default();
    let bead = Bead { middle: half, form, thread, row: 0, gap: 0, part: 0, step: 0 };
    let one = Scene {
        title: String::new(),
        size: half.scaled(2.0),
        cords: Vec::new(),
        joins: Vec::new(),
        ends: [Vec::new(), Vec::new()],
        neck: None,
        beads: vec![bead],
        threaded: Vec::new(),
        bead_colors: Vec::new(),
        colors: scene.colors.clone(),
        ..*scene
    };
    let mut writer = Writer::new(&one, &options);
    writer.open();
    writer.knots();
    writer.close()
}

/// The knots of a gauge as an element that shows nothing: what is in it can be used by `prefix` and the letter of a form,
/// and takes its colors from `fill` and `color` where it is used.
pub(crate) fn write_symbols(cell: Point, prefix: &str) -> String {
    let scene = Scene { cell, ..Scene::default() };
    let options = SvgOptions { prefix: prefix.to_owned(), ..SvgOptions::default() };
    let mut writer = Writer::new(&scene, &options);
    writer.xml.put("<svg class=\"symbols\" aria-hidden=\"true\" width=\"0\" height=\"0\">\n<defs>\n");
    for form in Form::ALL {
        writer.form(form);
    }
    writer.xml.put("</defs>\n</svg>\n");
    writer.xml.finish()
}

struct Writer<'a> {
    scene: &'a Scene,
    options: &'a SvgOptions,
    xml: Xml,
}

impl<'a> Writer<'a> {
    fn new(scene: &'a Scene, options: &'a SvgOptions) -> Self {
        Self { scene, options, xml: Xml::new(&options.prefix) }
    }

    fn open(&mut self) {
        let size = self.scene.size;
        self.xml.open(size.scaled(self.options.pixels_per_millimeter / 10.0), size, &self.scene.title);
        if let Some(ground) = self.options.ground {
            self.xml.add(format_args!("<rect width=\"100%\" height=\"100%\" fill=\"{ground}\"/>\n"));
        }
    }

    fn close(mut self) -> String {
        self.xml.put("</svg>\n");
        self.xml.finish()
    }
}
