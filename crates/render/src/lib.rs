//! The band as pictures: what it looks like when it is tied, and how it is tied.
//!
//! A [`Band`] is plain numbers. [`Scene::of`] lays it out as strands and knots in true proportion, and [`svg`] and
//! [`png`] write the scene; [`terminal`] shows the band in half blocks or letters, [`chart`] is what one ties from,
//! [`contact_sheet`] shows all colorways, [`Band::seen_by`] gives the colors that other eyes see. No text of a
//! pattern, no file and no clock; the same band gives the same bytes on every machine, and everything that comes
//! from a pattern (a title, a name) is made harmless where it is written.
//!
//! ```
//! use knotwright_band::{Kind, Piece};
//! use knotwright_render::{Band, Gauge, Part, Scene, Start, SvgOptions, Thread, svg};
//!
//! let thread = |name: &str, color: &str| Thread { name: name.into(), color: color.parse().unwrap() };
//! let set = Piece::tie(3, [(0, Kind::Forward), (1, Kind::Forward)]).unwrap();
//! let part = Part { piece: &set, steps: &[0..2] };
//! let band = Band {
//!     title: "Three reeds".into(),
//!     threads: vec![thread("reed", "#4a7c59"), thread("mud", "#6b4f3a"), thread("sky", "lightblue")],
//!     strands: vec![0, 1, 2],
//!     gauge: Gauge::default(),
//!     start: Start::Loose,
//!     parts: vec![part; 3],
//! };
//! let picture = svg(&Scene::of(&band), &SvgOptions::default());
//! assert!(picture.contains("<title>Three reeds</title>"));
//! ```

mod bead;
mod chart;
mod contact;
mod cord;
mod ends;
mod eye;
mod fold;
mod frame;
mod input;
mod letters;
mod path;
mod placed;
mod png;
mod prose;
mod scene;
mod script;
mod sheet;
mod stencil;
mod svg;
mod terminal;
mod text;
mod wrap;
mod xml;

pub use bead::Form;
pub use chart::{ChartOptions, ChartWords, chart};
pub use contact::{Colorway, contact_sheet};
pub use input::{Band, Gauge, Part, Start, Thread};
pub use path::{Path, Point, Stretch};
pub use png::{MOST_PIXELS, NoPng, png, png_of_svg};
pub use prose::{Counting, Document, Language, Order, ProseOptions, instructions};
pub use scene::{Bead, Cord, Neck, Scene};
pub use script::{Basis, CannotMirror, CutPiece, Event, Materials, Mirror, Named, Passage, Script, Step};
pub use sheet::{NoSheet, sheet};
pub use stencil::{Stencil, stencils};
pub use svg::{SvgOptions, rim_of, svg};
pub use terminal::{TerminalOptions, terminal};
