//! Colors of thread: reading them, how far apart they look, and how they look to other eyes.
//!
//! Only numbers and the names of CSS; no text of patterns, no file, no picture.
//!
//! ```
//! use knotwright_color::{Eyes, Rgb, Seen, look_alike};
//!
//! let apple: Rgb = "firebrick".parse().unwrap();
//! let leaf: Rgb = "#228b22".parse().unwrap();
//! let trouble = look_alike(&Seen::by_all(apple), &Seen::by_all(leaf)).unwrap();
//! assert_eq!(trouble.eyes, Eyes::Deutan);
//! ```

mod apart;
mod contrast;
mod described;
mod eyes;
mod few;
mod names;
mod parse;
mod srgb;

pub use apart::{LOOK_ALIKE_BELOW, LookAlike, Seen, color_distance, lab_distance, look_alike};
pub use described::{Hue, Tone};
pub use eyes::Eyes;
pub use few::{find_nearest, gather_colors};
pub use names::color_names;
pub use parse::NotAColor;
pub use srgb::Rgb;
