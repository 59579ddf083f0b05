//! A kit as comma-separated values (RFC 4180): a line for each thread to buy, then for each piece to cut and each moment of
//! each pattern. Lengths are in millimeters, times in seconds.

use crate::measures::field;
use knotwright_band::thread::{Cut, OwnThread};
use knotwright_maker::{Bought, BoughtBead, Cue, Kit, KitBand, StrandPiece, first_strand, list_strands};

/// The names of the columns. `list` says what a line is about: `buy`, `bead`, `cut` or `time`. Of a bead,
/// `pieces` is how many, and the length its size.
const HEADER: &str =
    "list,pattern,what,color,strands,pieces,length_mm,skeins,at_least,too_long,grams,cost,seconds\r\n";

/// All lines. `paths`: the files of the kit's patterns.
pub(crate) fn csv(paths: &[&str], kit: &Kit) -> String {
    let mut out = HEADER.to_owned();
    kit.bought.iter().for_each(|of| out += &buy(of));
    kit.beads.iter().for_each(|of| out += &bead(of));
    for (path, band) in paths.iter().zip(&kit.bands) {
        band.measured.pieces.iter().for_each(|piece| out += &cut(path, band, kit.options.count, *piece));
        band.measured.joined.iter().for_each(|piece| out += &joined(path, band, kit.options.count, piece));
        band.measured.own.iter().for_each(|own| out += &around(path, band, kit.options.count, own));
        band.cues.iter().for_each(|moment| out += &cue(path, *moment));
    }
    out
}

fn buy(of: &Bought) -> String {
    let number =
        |number: Option<f64>, digits: usize| number.map(|of| format!("{of:.digits$}")).unwrap_or_default();
    format!(
        "buy,,{},{},,{},{:.1},{},{},{},{},{},\r\n",
        field(&of.thread.name),
        of.thread.color,
        of.pieces,
        of.length,
        of.skeins.skeins,
        of.skeins.at_least,
        of.skeins.too_long,
        number(of.grams, 1),
        number(of.cost, 2)
    )
}

fn bead(of: &BoughtBead) -> String {
    format!(
        "bead,,{},{},,{},{:.1},,,,,,\r\n",
        field(&of.bead.look.name),
        of.bead.look.color,
        of.count,
        of.bead.across
    )
}

/// `count`: how many of it, one for each band.
fn cut(path: &str, band: &KitBand, count: u32, piece: Cut) -> String {
    let first = usize::from(first_strand(piece));
    let thread =
        band.measured.pattern.strands.get(first).and_then(|thread| band.threads.get(usize::from(*thread)));
    let color = thread.map(|thread| thread.color.to_string()).unwrap_or_default();
    let strands: Vec<String> = list_strands(piece).iter().map(|strand| (strand + 1).to_string()).collect();
    format!(
        "cut,{},{},{color},{},{count},{:.1},,,,,,\r\n",
        field(path),
        field(band.measured.thread_of(first)),
        strands.join(" "),
        piece.length()
    )
}

/// A thread with which a joined strand goes on.
fn joined(path: &str, band: &KitBand, count: u32, piece: &StrandPiece) -> String {
    let thread = band.threads.get(usize::from(piece.thread));
    let color = thread.map(|thread| thread.color.to_string()).unwrap_or_default();
    format!(
        "cut,{},{},{color},{},{count},{:.1},,,,,,\r\n",
        field(path),
        field(band.measured.name(piece.thread)),
        u16::from(piece.strand) + 1,
        piece.cut
    )
}

/// A thread that goes around an end: it makes no strand.
fn around(path: &str, band: &KitBand, count: u32, own: &OwnThread) -> String {
    let thread = band.threads.get(usize::from(own.thread));
    let color = thread.map(|thread| thread.color.to_string()).unwrap_or_default();
    format!(
        "cut,{},{},{color},,{},{:.1},,,,,,\r\n",
        field(path),
        field(band.measured.name(own.thread)),
        u64::from(count) * u64::from(own.count),
        own.length
    )
}

fn cue(path: &str, of: Cue) -> String {
    format!("time,{},{},,,,,,,,,,{:.0}\r\n", field(path), field(&of.moment.said()), of.at)
}
