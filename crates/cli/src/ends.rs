//! What is made at the ends of a band, for other programs and in a few words.

use knotwright_band::ends::EndWork;
use knotwright_checker::Pattern;
use knotwright_maker::round_length;
use knotwright_render::{EndNames, say_works};
use serde::Serialize;

/// A piece of an end as JSON.
#[derive(Serialize)]
#[serde(tag = "piece", rename_all = "kebab-case")]
pub(crate) enum ExportedPiece<'a> {
    Knot,
    Plait { bundles: u8, length_mm: f64 },
    Twist { length_mm: f64 },
    Wrap { color: &'a str, turns: u32 },
    Split { parts: u8, pieces: Vec<ExportedPiece<'a>> },
    Loop { length_mm: f64 },
    Tassel { length_mm: f64 },
    Bead { bead: &'a str },
    ClosingKnot,
    Slide { color: &'a str, turns: u32 },
}

/// The pieces of an end.
pub(crate) fn exported<'a>(works: &[EndWork], pattern: &'a Pattern) -> Vec<ExportedPiece<'a>> {
    works.iter().map(|work| piece(work, pattern)).collect()
}

fn piece<'a>(work: &EndWork, pattern: &'a Pattern) -> ExportedPiece<'a> {
    match *work {
        EndWork::Knot => ExportedPiece::Knot,
        EndWork::Plait { bundles, length } => {
            ExportedPiece::Plait { bundles, length_mm: round_length(length) }
        }
        EndWork::Twist { length } => ExportedPiece::Twist { length_mm: round_length(length) },
        EndWork::Wrap { thread, turns } => ExportedPiece::Wrap { color: name(pattern, thread), turns },
        EndWork::Split { parts, ref works } => {
            ExportedPiece::Split { parts, pieces: exported(works, pattern) }
        }
        EndWork::Loop { length } => ExportedPiece::Loop { length_mm: round_length(length) },
        EndWork::Tassel { length } => ExportedPiece::Tassel { length_mm: round_length(length) },
        EndWork::Bead { bead, .. } => ExportedPiece::Bead { bead: bead_name(pattern, bead) },
        EndWork::ClosingKnot => ExportedPiece::ClosingKnot,
        EndWork::Slide { thread, turns } => ExportedPiece::Slide { color: name(pattern, thread), turns },
    }
}

fn name(pattern: &Pattern, thread: u16) -> &str {
    pattern.threads.get(usize::from(thread)).map_or("", |thread| thread.name.as_str())
}

/// The name of a bead.
pub(crate) fn bead_name(pattern: &Pattern, bead: u16) -> &str {
    pattern.beads.get(usize::from(bead)).map_or("", |bead| bead.look.name.as_str())
}

/// An end in the words of the notation, on one line.
pub(crate) fn said(works: &[EndWork], pattern: &Pattern) -> String {
    say_works(
        works,
        EndNames { thread: &|thread| name(pattern, thread), bead: &|bead| bead_name(pattern, bead) },
    )
}

/// To a hundredth of a centimeter.
pub(crate) fn centimeters(millimeters: f64) -> String {
    format!("{} cm", (millimeters * 10.0).round() / 100.0)
}
