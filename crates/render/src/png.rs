//! The picture as PNG.

use std::collections::BTreeMap;
use std::fmt;

use knotwright_color::Rgb;
use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg;

use crate::bead::{self, Form};
use crate::path::Point;
use crate::scene::{Bead, Scene};
use crate::svg::{self, SvgOptions};

/// The most pixels a picture may have.
pub const MOST_PIXELS: u64 = 100_000_000;

/// Knots are painted once for every quarter of a pixel and then only copied.
const PHASES: f64 = 4.0;

/// Why there is no PNG.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoPng {
    /// It would have more than [`MOST_PIXELS`].
    TooLarge {
        /// Pixels from left to right.
        width: u64,
        /// Pixels from top to bottom.
        height: u64,
    },
    /// The picture could not be painted or packed.
    NotPainted,
}

impl fmt::Display for NoPng {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge { width, height } => {
                write!(
                    f,
                    "the picture would have {width} by {height} pixels; draw fewer sets or draw it smaller"
                )
            }
            Self::NotPainted => f.write_str("the picture could not be painted"),
        }
    }
}

impl std::error::Error for NoPng {}

/// Paints a scene. The same scene gives the same bytes.
pub fn png(scene: &Scene, options: &SvgOptions) -> Result<Vec<u8>, NoPng> {
    let scale = (options.pixels_per_millimeter / 10.0) as f32;
    let mut picture = paint(&svg::ground_and_strands(scene, options), options.ground)?;
    let mut beads = Beads { scene, scale, half: bead::reach(scene.cell), painted: BTreeMap::new() };
    for bead in &scene.beads {
        beads.copy(bead, &mut picture)?;
    }
    picture.encode_png().map_err(|_| NoPng::NotPainted)
}

/// Paints a chart or a sheet, SVG of this crate, so many times as large as it says. Its letters are those of a type
/// that comes with the program, whatever the machine has.
pub fn png_of_svg(svg: &str, scale: f64) -> Result<Vec<u8>, NoPng> {
    let mut options = usvg::Options::default();
    let types = options.fontdb_mut();
    types.load_font_data(epaint_default_fonts::UBUNTU_LIGHT.to_vec());
    types.set_sans_serif_family("Ubuntu");
    let tree = usvg::Tree::from_str(svg, &options).map_err(|_| NoPng::NotPainted)?;
    let size = |length: f32| (f64::from(length) * scale).ceil();
    let mut pixmap = blank(size(tree.size().width()), size(tree.size().height()))?;
    resvg::render(&tree, Transform::from_scale(scale as f32, scale as f32), &mut pixmap.as_mut());
    pixmap.encode_png().map_err(|_| NoPng::NotPainted)
}

fn blank(width: f64, height: f64) -> Result<Pixmap, NoPng> {
    if width * height > MOST_PIXELS as f64 {
        return Err(NoPng::TooLarge { width: width as u64, height: height as u64 });
    }
    Pixmap::new(width as u32, height as u32).ok_or(NoPng::NotPainted)
}

/// Paints an SVG of this crate in the size that it says, on a ground that also fills the last part of a pixel.
fn paint(svg: &str, ground: Option<Rgb>) -> Result<Pixmap, NoPng> {
    let tree = tree(svg)?;
    let size = tree.size();
    let mut pixmap = blank(f64::from(size.width().ceil()), f64::from(size.height().ceil()))?;
    if let Some(Rgb { red, green, blue }) = ground {
        pixmap.fill(Color::from_rgba8(red, green, blue, 255));
    }
    resvg::render(&tree, Transform::identity(), &mut pixmap.as_mut());
    Ok(pixmap)
}

fn tree(svg: &str) -> Result<usvg::Tree, NoPng> {
    usvg::Tree::from_str(svg, &usvg::Options::default()).map_err(|_| NoPng::NotPainted)
}

/// Knots that were painted already, by form, thread and the fraction of a pixel where they begin.
struct Beads<'a> {
    scene: &'a Scene,
    scale: f32,
    /// Half the size of what a knot can cover, in the scene's unit.
    half: Point,
    painted: BTreeMap<(Form, u16, u8, u8), Pixmap>,
}

impl Beads<'_> {
    fn copy(&mut self, bead: &Bead, picture: &mut Pixmap) -> Result<(), NoPng> {
        let half = self.half;
        let (x, phase_x) = pixel((bead.middle.x - half.x) * f64::from(self.scale));
        let (y, phase_y) = pixel((bead.middle.y - half.y) * f64::from(self.scale));
        let key = (bead.form, bead.thread, phase_x, phase_y);
        if !self.painted.contains_key(&key) {
            let painted = self.paint(key)?;
            self.painted.insert(key, painted);
        }
        lay(&self.painted[&key], picture, x, y);
        Ok(())
    }

    fn paint(&self, (form, thread, phase_x, phase_y): (Form, u16, u8, u8)) -> Result<Pixmap, NoPng> {
        let half = self.half;
        let tree = tree(&svg::one_knot(self.scene, form, thread, half))?;
        let pixels = |length: f64| (length * 2.0 * f64::from(self.scale)).ceil() as u32 + 1;
        let mut pixmap = Pixmap::new(pixels(half.x), pixels(half.y)).ok_or(NoPng::NotPainted)?;
        let part = |phase: u8| f32::from(phase) / PHASES as f32;
        let at = Transform::from_row(self.scale, 0.0, 0.0, self.scale, part(phase_x), part(phase_y));
        resvg::render(&tree, at, &mut pixmap.as_mut());
        Ok(pixmap)
    }
}

/// A whole pixel and the quarters beyond it.
fn pixel(at: f64) -> (i32, u8) {
    let quarters = (at * PHASES).round();
    let whole = (quarters / PHASES).floor();
    (whole as i32, (quarters - whole * PHASES) as u8)
}

/// Lays a small picture onto a large one, its upper left corner at `x`, `y`; what sticks out is cut off.
fn lay(small: &Pixmap, large: &mut Pixmap, x: i32, y: i32) {
    let (across, down) = (large.width() as i32, large.height() as i32);
    let (left, right) = (x.clamp(0, across), (x + small.width() as i32).clamp(0, across));
    let (top, bottom) = (y.clamp(0, down), (y + small.height() as i32).clamp(0, down));
    let length = (right - left) as usize * 4;
    let width = small.width() as usize * 4;
    for row in top..bottom {
        let from = (row - y) as usize * width + (left - x) as usize * 4;
        let to = (row as usize * across as usize + left as usize) * 4;
        over(&small.data()[from..from + length], &mut large.data_mut()[to..to + length]);
    }
}

/// Source over, on premultiplied pixels of eight bits a channel.
fn over(source: &[u8], target: &mut [u8]) {
    for (new, old) in source.chunks_exact(4).zip(target.chunks_exact_mut(4)) {
        let rest = 255 - u16::from(new[3]);
        for (new, old) in new.iter().zip(old) {
            *old = new + ((u16::from(*old) * rest + 127) / 255) as u8;
        }
    }
}
