//! The band as a picture: what it looks like when it is tied.
//!
//! A [`Band`] is plain numbers. [`Scene::of`] lays it out as strands and knots in true proportion, and [`svg`] and
//! [`png`] write the scene. No text of a pattern, no file and no clock; the same band gives the same bytes on every
//! machine, and everything that comes from a pattern (a title, a name) is escaped where it is written.
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
mod cord;
mod ends;
mod eye;
mod fold;
mod frame;
mod input;
mod path;
mod placed;
mod png;
mod scene;
mod svg;
mod text;
mod wrap;

pub use bead::Form;
pub use input::{Band, Gauge, Part, Start, Thread};
pub use path::{Path, Point, Stretch};
pub use png::{MOST_PIXELS, NoPng, png};
pub use scene::{Bead, Cord, Neck, Scene};
pub use svg::{SvgOptions, svg};
