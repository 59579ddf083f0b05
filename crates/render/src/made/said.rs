//! Ends in the words of the notation, where there is no room for a picture.

use knotwright_band::ends::EndWork;

/// What threads and beads are called.
#[derive(Clone, Copy)]
pub struct EndNames<'n, 'a> {
    /// Of a thread.
    pub thread: &'n dyn Fn(u16) -> &'a str,
    /// Of a bead.
    pub bead: &'n dyn Fn(u16) -> &'a str,
}

/// The pieces of an end on one line: `knot, plait 3 for 6 cm, tassel 2 cm`.
pub fn say_works(works: &[EndWork], names: EndNames<'_, '_>) -> String {
    let name = names.thread;
    let of = |work: &EndWork| match work {
        EndWork::Knot => "knot".to_owned(),
        EndWork::Plait { bundles, length } => format!("plait {bundles} for {}", centimeters(*length)),
        EndWork::Twist { length } => format!("twist for {}", centimeters(*length)),
        EndWork::Wrap { thread, turns } => format!("wrap {} {turns} turns", name(*thread)),
        EndWork::Split { parts, works } => format!("split {parts} {{ {} }}", say_works(works, names)),
        EndWork::Loop { length } => format!("loop {}", centimeters(*length)),
        EndWork::Tassel { length } => format!("tassel {}", centimeters(*length)),
        EndWork::Bead { bead, .. } => format!("bead {}", (names.bead)(*bead)),
        EndWork::ClosingKnot => "closing knot".to_owned(),
        EndWork::Slide { thread, turns } => format!("slide {} {turns} turns", name(*thread)),
    };
    works.iter().map(of).collect::<Vec<_>>().join(", ")
}

/// To a hundredth of a centimeter.
fn centimeters(millimeters: f64) -> String {
    format!("{} cm", (millimeters * 10.0).round() / 100.0)
}
