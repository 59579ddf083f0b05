//! Ends in the words of the notation, where there is no room for a picture.

use knotwright_band::ends::EndWork;

/// The pieces of an end on one line: `knot, plait 3 for 6 cm, tassel 2 cm`. `name`: of a thread.
pub fn say_works<'a>(works: &[EndWork], name: &dyn Fn(u16) -> &'a str) -> String {
    let of = |work: &EndWork| match work {
        EndWork::Knot => "knot".to_owned(),
        EndWork::Plait { bundles, length } => format!("plait {bundles} for {}", centimeters(*length)),
        EndWork::Twist { length } => format!("twist for {}", centimeters(*length)),
        EndWork::Wrap { thread, turns } => format!("wrap {} {turns} turns", name(*thread)),
        EndWork::Split { parts, works } => format!("split {parts} {{ {} }}", say_works(works, name)),
        EndWork::Loop { length } => format!("loop {}", centimeters(*length)),
        EndWork::Tassel { length } => format!("tassel {}", centimeters(*length)),
        EndWork::ClosingKnot => "closing knot".to_owned(),
        EndWork::Slide { thread, turns } => format!("slide {} {turns} turns", name(*thread)),
    };
    works.iter().map(of).collect::<Vec<_>>().join(", ")
}

/// To a hundredth of a centimeter.
fn centimeters(millimeters: f64) -> String {
    format!("{} cm", (millimeters * 10.0).round() / 100.0)
}
