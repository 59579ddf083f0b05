//! From a band back to text: rewrites the opening, the set or the closing of a pattern so that it ties what you ask
//! for.
//!
//! The rest of the file stays byte for byte, except for motifs that nothing works any longer. What is returned was
//! read, tied and compared first: a text that does not tie the wanted knots is an error, never an answer. There is
//! no file and no terminal here.

mod body;
mod chart;
mod headings;
mod idle;
mod joins;
mod rewrite;
mod steps;
mod strands;
mod unworked;

pub use body::NewBody;
pub use chart::write_mark;
pub use headings::{Heading, find_headings};
pub use idle::NoPlace;
pub use joins::{JoinSpot, Joined, NewJoin, NotJoined, SpotAt, add_joins, list_join_spots, write_join};
pub use rewrite::{LeftOut, Original, RewriteError, Rewritten, line_end, rewrite};
pub use steps::{write_kind, write_takes};
pub use strands::{with_strands, write_list};
