//! What a maker asks of a checked pattern: how long it becomes and how much thread it takes, how it looks, how it is
//! told, and how it is tied with the fewest pick-ups.
//!
//! The program and the language server answer these questions alike. There is no file and no terminal here.

mod drawn;
mod escaped;
mod fewest;
mod lengths;
mod measured;
mod planned;
mod reckoning;
mod rewritten;
mod scripted;
mod tying;

pub use drawn::{Look, MOST_KNOTS, SETS_TO_SEE, drawn, scripted_to_see};
pub use escaped::escaped;
pub use fewest::{Fewest, fewest_pick_ups};
pub use lengths::{Typed, Unit, rounded};
pub use measured::{
    Basis, Measured, NotMeasured, Reader, Saving, ThreadCut, Told, ToldTable, USUAL_ENDS, USUAL_THICKNESS,
    Wish, counted, first, free_of_each, shared_out, strands, told,
};
pub use planned::{Again, PickUp, Planned};
pub use reckoning::{Reckoning, colors_after};
pub use rewritten::{left_out, not_rewritten};
pub use scripted::{NoScript, recolor, script, script_of};
pub use tying::{Instructed, Mirrored, Tying};
