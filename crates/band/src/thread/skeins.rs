//! How many skeins to buy.
//!
//! Pieces are cut from skeins of one length, and what is left of each is waste: bin packing, for which no fast way to the
//! least number is known. First-fit-decreasing takes the longest piece that is left and cuts it from the first skein that
//! has enough. It never needs more than 11/9 of the least number and 6/9 of a skein (Dósa 2007, "The tight bound of first
//! fit decreasing bin-packing algorithm is FFD(I) <= 11/9 OPT(I) + 6/9", ESCAPE 2007), and mostly it needs the least, which
//! the bound beside it then shows.

use knotwright_numbers::ToNumber;

/// How much thread a skein has if nobody says so, in millimeters. Common practice, no source.
pub const USUAL_SKEIN: f64 = 8000.0;

/// Pieces of one length to be cut. Lengths in millimeters, or in any one unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PieceNeed {
    /// How long each is.
    pub length: f64,
    /// How many of them.
    pub count: u64,
}

/// What to buy for some pieces of one thread.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SkeinNeed {
    /// Skeins from which all pieces can be cut.
    pub skeins: u64,
    /// No fewer are enough, however the pieces are cut.
    pub at_least: u64,
    /// Pieces that are longer than a skein; no skein is counted for them.
    pub too_long: u64,
    /// How long all pieces are that fit.
    pub used: f64,
}

/// Skeins with the same length left.
struct Opened {
    left: f64,
    count: u64,
}

/// Packs pieces into skeins of that length, the longest first. Takes time in proportion to the square of the number of
/// different lengths, however many pieces there are of each: skeins that are cut alike are counted, not listed.
pub fn pack_skeins(needs: &[PieceNeed], skein: f64) -> SkeinNeed {
    let (fitting, long): (Vec<PieceNeed>, Vec<PieceNeed>) =
        needs.iter().filter(|need| need.count > 0).partition(|need| need.length <= skein);
    let used = fitting.iter().map(|need| need.length * need.count.to_f64()).sum();
    SkeinNeed {
        skeins: first_fit(fitting.clone(), skein),
        at_least: fewest_possible(&fitting, skein),
        too_long: long.iter().map(|need| need.count).sum(),
        used,
    }
}

fn first_fit(mut needs: Vec<PieceNeed>, skein: f64) -> u64 {
    needs.sort_by(|one, other| other.length.total_cmp(&one.length));
    let mut opened: Vec<Opened> = Vec::new();
    for PieceNeed { length, count } in needs {
        let mut waiting = count;
        let mut now = Vec::with_capacity(opened.len() + 2);
        for of in opened {
            now.extend(cut_from(of, length, &mut waiting));
        }
        let whole = Opened { left: skein, count: waiting.div_ceil(pieces_in(skein, length).max(1)) };
        now.extend(cut_from(whole, length, &mut waiting));
        opened = now;
    }
    opened.iter().map(|of| of.count).sum()
}

/// How many pieces of a length one skein has left.
fn pieces_in(left: f64, length: f64) -> u64 {
    // Lengths are sums of a few numbers: what is short by less than a thousandth of a millimeter fits.
    ((left + 1e-3) / length).floor().to_u64()
}

/// Cuts what is `waiting` from skeins that are alike: the first ones give all they can, one may give a part, the rest stay.
fn cut_from(of: Opened, length: f64, waiting: &mut u64) -> impl Iterator<Item = Opened> {
    let each = pieces_in(of.left, length);
    let full = waiting.checked_div(each).map_or(0, |skeins| skeins.min(of.count));
    *waiting -= full * each;
    let part = if each > 0 && full < of.count { *waiting } else { 0 };
    *waiting -= part;
    let in_part = u64::from(part > 0);
    let of_all = [
        Opened { left: of.left - each.to_f64() * length, count: full },
        Opened { left: of.left - part.to_f64() * length, count: in_part },
        Opened { left: of.left, count: of.count - full - in_part },
    ];
    of_all.into_iter().filter(|some| some.count > 0)
}

/// A number of skeins that no way of cutting goes below: all pieces together fill that many, and two pieces that are longer
/// than half a skein are never in one.
fn fewest_possible(needs: &[PieceNeed], skein: f64) -> u64 {
    let all: f64 = needs.iter().map(|need| need.length * need.count.to_f64()).sum();
    let halves = needs.iter().filter(|need| 2.0 * need.length > skein + 2e-3).map(|need| need.count).sum();
    (((all - 1e-3) / skein).ceil().max(0.0)).to_u64().max(halves)
}
