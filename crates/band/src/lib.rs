//! The knotted band as pure numbers: strands, knots, layout, repeats, thread.
//!
//! There is no text, no color name and no file here. Positions, strands, gaps, rows and sets count from 0; whoever
//! speaks to a person adds one. A color is a number that says which strands are alike.

pub mod balance;
mod band_rows;
pub mod beads;
mod chart;
pub mod compare;
mod counts;
pub mod ends;
mod face;
mod growth;
mod holes;
mod joins;
mod knot;
pub mod locate;
mod normal_form;
pub mod orders;
pub mod pace;
mod piece;
mod plan;
mod repeats;
mod ridge;
mod rows;
mod sets;
mod symmetry;
mod texture;
pub mod thread;
mod tying;

pub use band_rows::BandRows;
pub use chart::{ChartError, KnotChart};
pub use counts::{PieceOf, TiedPieces, Use, count_uses, total_uses, total_uses_with};
pub use face::{Face, FaceSpot, Seen};
pub use growth::Growth;
pub use holes::{Hole, Loose, never_joined};
pub use joins::{Join, JoinMark, ThreadWalk};
pub use knot::{Kind, Knot, MOST_KNOTS, MOST_STRANDS};
pub use normal_form::{Cell, normal_form};
pub use piece::{Piece, PieceError};
pub use plan::{Begins, Plan, Series, fewest_pick_ups, pick_ups, plan_pick_ups};
pub use repeats::{Repeats, find_repeats, sets_until_back};
pub use rows::{BrickRows, Layout, Rows};
pub use sets::{Sets, SetsError};
pub use symmetry::{NearSymmetry, Symmetries, Symmetry, Turning};
pub use tying::Tying;
