//! The picture as PNG.

use knotwright_numbers::ToNumber;
use std::collections::BTreeMap;
use std::fmt;

use knotwright_color::Rgb;
use resvg::tiny_skia::{Color, Pixmap, PixmapPaint, Transform};
use resvg::usvg;

use crate::Band;
use crate::bead::{self, Form};
use crate::frame::PictureFrame;
use crate::path::Point;
use crate::placed::place_knots;
use crate::repeat::BandRepeat;
use crate::scene::{Bead, Scene};
use crate::svg::{self, SvgOptions};

/// The most pixels a picture may have.
pub const MOST_PIXELS: u64 = 100_000_000;

/// A picture of this many pixels is large.
const FAST_FROM: u64 = 8_000_000;

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
///
/// # Errors
/// If the picture would be too large, or could not be painted.
pub fn draw_png(scene: &Scene, options: &SvgOptions) -> Result<Vec<u8>, NoPng> {
    packed(painted(scene, options)?)
}

/// Paints a band. Of what a long band repeats, one time is painted, and its lines of pixels are copied; copies may then lie
/// up to half a pixel beside where the scene has them.
///
/// # Errors
/// As with [`draw_png`].
pub fn png_of_band(band: &Band<'_>, options: &SvgOptions) -> Result<Vec<u8>, NoPng> {
    let Some(repeat) = BandRepeat::of(band) else { return draw_png(&Scene::of(band), options) };
    let shorter = repeat.shorter(band);
    let (scene, frame) = (Scene::of(&shorter), PictureFrame::of(&shorter, &place_knots(&shorter)));
    let scale = options.pixels_per_millimeter / 10.0;
    let left_out = repeat.rows_left_out().to_f64() * scene.cell.y * scale;
    check_size((scene.size.x * scale).ceil(), (scene.size.y * scale).ceil() + left_out)?;
    let short = painted(&scene, options)?;
    let row = frame.knot(repeat.row.to_u32(), 0).y;
    let cut = StripCut {
        top: ((row - scene.cell.y / 2.0) * scale).round().to_u32(),
        period: repeat.rows.to_f64() * scene.cell.y * scale,
        added: left_out.round().to_u32(),
    };
    packed(cut.lengthened(&short)?)
}

/// Where lines of pixels are put in, and which.
struct StripCut {
    /// The first line of what comes again and again.
    top: u32,
    /// After how many lines it comes again.
    period: f64,
    /// How many lines are put in.
    added: u32,
}

impl StripCut {
    fn lengthened(&self, short: &Pixmap) -> Result<Pixmap, NoPng> {
        let mut long = Pixmap::new(short.width(), short.height() + self.added).ok_or(NoPng::NotPainted)?;
        let line = short.width().to_usize() * 4;
        for (to, pixels) in (0_u32..).zip(long.data_mut().chunks_exact_mut(line)) {
            let from = self.source(to).min(short.height() - 1).to_usize() * line;
            pixels.copy_from_slice(&short.data()[from..from + line]);
        }
        Ok(long)
    }

    /// The line that is copied to a line.
    fn source(&self, line: u32) -> u32 {
        if line < self.top {
            return line;
        }
        if line >= self.top + self.added {
            return line - self.added;
        }
        self.top + f64::from(line - self.top).rem_euclid(self.period).to_u32()
    }
}

fn painted(scene: &Scene, options: &SvgOptions) -> Result<Pixmap, NoPng> {
    let scale = (options.pixels_per_millimeter / 10.0).to_f32();
    let mut picture = paint(&svg::ground_and_strands(scene, options), options.ground)?;
    let mut beads = Beads { scene, scale, half: bead::measure_reach(scene.cell), painted: BTreeMap::new() };
    for bead in &scene.beads {
        beads.copy(bead, &mut picture)?;
    }
    if !scene.threaded.is_empty() {
        let over = paint(&svg::only_threaded(scene, options), None)?;
        picture.draw_pixmap(0, 0, over.as_ref(), &PixmapPaint::default(), Transform::identity(), None);
    }
    if !scene.joins.is_empty() {
        let signs = tree(&svg::joins_alone(scene, options))?;
        resvg::render(&signs, Transform::identity(), &mut picture.as_mut());
    }
    Ok(picture)
}

/// As a file. Large pictures are packed fast: they are long because they repeat, and packing is most of the work.
fn packed(picture: Pixmap) -> Result<Vec<u8>, NoPng> {
    let (width, height) = (picture.width(), picture.height());
    if u64::from(width) * u64::from(height) < FAST_FROM {
        return picture.encode_png().map_err(|_| NoPng::NotPainted);
    }
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, width, height);
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Fast);
    let written = encoder.write_header().and_then(|mut writer| {
        writer.write_image_data(&picture.take_demultiplied())?;
        writer.finish()
    });
    written.map_err(|_| NoPng::NotPainted)?;
    Ok(file)
}

/// Paints a chart or a sheet (SVG of this crate), `scale` times as large as it says. Its letters are those of a
/// type that comes with the program, whatever the machine has.
///
/// # Errors
/// As with [`draw_png`]; what is no SVG cannot be painted either.
pub fn png_of_svg(svg: &str, scale: f64) -> Result<Vec<u8>, NoPng> {
    let mut options = usvg::Options::default();
    let types = options.fontdb_mut();
    types.load_font_data(epaint_default_fonts::UBUNTU_LIGHT.to_vec());
    types.set_sans_serif_family("Ubuntu");
    let tree = usvg::Tree::from_str(svg, &options).map_err(|_| NoPng::NotPainted)?;
    let size = |length: f32| (f64::from(length) * scale).ceil();
    let mut pixmap = blank(size(tree.size().width()), size(tree.size().height()))?;
    resvg::render(&tree, Transform::from_scale(scale.to_f32(), scale.to_f32()), &mut pixmap.as_mut());
    pixmap.encode_png().map_err(|_| NoPng::NotPainted)
}

fn check_size(width: f64, height: f64) -> Result<(), NoPng> {
    if width * height > MOST_PIXELS.to_f64() {
        return Err(NoPng::TooLarge { width: width.to_u64(), height: height.to_u64() });
    }
    Ok(())
}

fn blank(width: f64, height: f64) -> Result<Pixmap, NoPng> {
    check_size(width, height)?;
    Pixmap::new(width.to_u32(), height.to_u32()).ok_or(NoPng::NotPainted)
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

/// How a knot looks in pixels: its form and thread, and how many quarters of a pixel it begins beyond a whole one.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct KnotLook {
    form: Form,
    thread: u16,
    phase_x: u8,
    phase_y: u8,
}

/// Knots that were painted already.
struct Beads<'a> {
    scene: &'a Scene,
    scale: f32,
    /// Half the size of what a knot can cover, in the scene's unit.
    half: Point,
    painted: BTreeMap<KnotLook, Pixmap>,
}

impl Beads<'_> {
    fn copy(&mut self, bead: &Bead, picture: &mut Pixmap) -> Result<(), NoPng> {
        let half = self.half;
        let (x, phase_x) = pixel((bead.middle.x - half.x) * f64::from(self.scale));
        let (y, phase_y) = pixel((bead.middle.y - half.y) * f64::from(self.scale));
        let look = KnotLook { form: bead.form, thread: bead.thread, phase_x, phase_y };
        if !self.painted.contains_key(&look) {
            let painted = self.paint(look)?;
            self.painted.insert(look, painted);
        }
        lay(&self.painted[&look], picture, x, y);
        Ok(())
    }

    fn paint(&self, look: KnotLook) -> Result<Pixmap, NoPng> {
        let half = self.half;
        let tree = tree(&svg::one_knot(self.scene, look.form, look.thread, half))?;
        let pixels = |length: f64| (length * 2.0 * f64::from(self.scale)).ceil().to_u32() + 1;
        let mut pixmap = Pixmap::new(pixels(half.x), pixels(half.y)).ok_or(NoPng::NotPainted)?;
        let part = |phase: u8| f32::from(phase) / PHASES.to_f32();
        let at =
            Transform::from_row(self.scale, 0.0, 0.0, self.scale, part(look.phase_x), part(look.phase_y));
        resvg::render(&tree, at, &mut pixmap.as_mut());
        Ok(pixmap)
    }
}

/// A whole pixel and the quarters beyond it.
fn pixel(at: f64) -> (i32, u8) {
    let quarters = (at * PHASES).round();
    let whole = (quarters / PHASES).floor();
    (whole.to_i32(), (quarters - whole * PHASES).to_u8())
}

/// Lays a small picture onto a large one, its upper left corner at `x`, `y`; what sticks out is cut off.
fn lay(small: &Pixmap, large: &mut Pixmap, x: i32, y: i32) {
    let (across, down) = (large.width().to_i32(), large.height().to_i32());
    let (left, right) = (x.clamp(0, across), (x + small.width().to_i32()).clamp(0, across));
    let (top, bottom) = (y.clamp(0, down), (y + small.height().to_i32()).clamp(0, down));
    let length = (right - left).to_usize() * 4;
    let width = small.width().to_usize() * 4;
    for row in top..bottom {
        let from = (row - y).to_usize() * width + (left - x).to_usize() * 4;
        let to = (row.to_usize() * across.to_usize() + left.to_usize()) * 4;
        over(&small.data()[from..from + length], &mut large.data_mut()[to..to + length]);
    }
}

/// Source over, on premultiplied pixels of eight bits a channel.
fn over(source: &[u8], target: &mut [u8]) {
    for (new, old) in source.chunks_exact(4).zip(target.chunks_exact_mut(4)) {
        let rest = 255 - u16::from(new[3]);
        for (new, old) in new.iter().zip(old) {
            *old = new + ((u16::from(*old) * rest + 127) / 255).to_u8();
        }
    }
}
