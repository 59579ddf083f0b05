//! The band as pictures: what it looks like when it is tied, and how it is tied.
//!
//! A [`Band`] is plain numbers. [`Scene::of`] lays it out as strands and knots in true proportion, and [`draw_svg`] and
//! [`draw_png`] write the scene; [`draw_terminal`] shows the band in half blocks or letters, [`draw_chart`] is what
//! one ties from, [`contact_sheet`] shows all colorways, [`Band::seen_by`] gives the colors that other eyes see. No text of a
//! pattern, no file and no clock; the same band gives the same bytes on every machine, and everything that comes
//! from a pattern (a title, a name) is made harmless where it is written.
//!
//! ```
//! use knotwright_band::{Kind, Piece};
//! use knotwright_render::{Band, KnotSize, BandPart, Scene, StrandStart, SvgOptions, BandThread, draw_svg};
//!
//! let thread = |name: &str, color: &str| BandThread {
//!     name: name.into(),
//!     color: color.parse().unwrap(),
//!     shades: Vec::new(),
//! };
//! let set = Piece::tie(3, [(0, Kind::Forward), (1, Kind::Forward)]).unwrap();
//! let part = BandPart { piece: &set, steps: &[0..2], wish: None, beads: Vec::new(), set: 0 };
//! let band = Band {
//!     title: "Three reeds".into(),
//!     threads: vec![thread("reed", "#4a7c59"), thread("mud", "#6b4f3a"), thread("sky", "lightblue")],
//!     beads: Vec::new(),
//!     strands: vec![0, 1, 2],
//!     gauge: KnotSize::default(),
//!     start: StrandStart::Loose,
//!     made: Default::default(),
//!     taken: None,
//!     parts: vec![part.clone(), part.clone(), part],
//! };
//! let picture = draw_svg(&Scene::of(&band), &SvgOptions::default());
//! assert!(picture.contains("<title>Three reeds</title>"));
//! ```

mod bead;
mod chart;
mod contact;
mod cord;
mod dye;
mod ends;
mod eye;
mod face;
mod fold;
mod frame;
mod gallery;
mod hitches;
mod input;
mod joined;
mod letters;
mod made;
mod path;
mod placed;
mod png;
mod prose;
mod repeat;
mod scene;
mod script;
mod sheet;
mod stencil;
mod svg;
mod terminal;
mod text;
mod threaded;
mod wrap;
mod xml;

pub use bead::Form;
pub use chart::{
    ChartBlock, ChartKnot, ChartMark, ChartOptions, ChartShape, ChartWords, WorkingChart, chart_pages,
    chart_text, draw_chart, hanging_end, knot_shape, tag_shape,
};
pub use contact::{NamedColors, contact_sheet};
pub use dye::list_colors;
pub use face::{FaceBrick, FacePicture, draw_face};
pub use gallery::{
    BandFacts, CutLine, HangingBand, HungThread, WordsLinks, draw_hanging, page_of_words, write_gallery,
};
pub use hitches::knot_drawing;
pub use input::{Band, BandBead, BandPart, BandThread, KnotSize, StrandStart, ThreadShade, ThreadTaken};
pub use letters::assign_letters;
pub use made::{EndNames, say_works};
pub use path::{Path, PathStretch, Point};
pub use png::{MOST_PIXELS, NoPng, draw_png, png_of_band, png_of_svg};
pub use prose::{
    Aside, AsideKind, CountFrom, Language, Order, ProseDocument, ProseOptions, StepNumber, list_asides,
    write_instructions,
};
pub use scene::{Bead, Cord, EndCord, Fade, Neck, Scene};
pub use script::{
    CannotMirror, CutAtRepeat, CutPiece, Event, JoinedPiece, JoinedStrand, Materials, Mirror, Named,
    OwnPiece, Passage, StatedBasis, StatedUnit, Step, TyingScript,
};
pub use sheet::{NoSheet, write_sheet};
pub use stencil::{Stencil, cut_stencils};
pub use svg::{SvgOptions, draw_svg, rim_of};
pub use terminal::{TerminalOptions, draw_terminal};
pub use threaded::ThreadedBead;
