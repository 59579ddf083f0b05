//! From a tied pattern to the numbers of its band: how often the set is tied, how many rows that makes, what each
//! strand does, and how long all is.

use knotwright_band::orders::one_then;
use knotwright_band::thread::{Figures, Gauge, sets_for};
use knotwright_band::{Growth, Piece, PieceError, Repeats, Sets, Use, repeats, total_uses};
use knotwright_checker::{Extent, Part, Pattern};

/// The numbers of a band. Strands of a piece are named by their position as it begins, everything counts from 0.
#[derive(Debug)]
pub struct Reckoning {
    /// Tied once, at the start; without knots if there is none.
    pub opening: Piece,
    /// Tied over and over. If it cannot be said how the sets go on, the first one stands for all.
    pub sets: Sets,
    /// When all comes again; none if it cannot be said.
    pub repeats: Option<Repeats>,
    /// How often the set is tied; none if the pattern does not say, or no gauge turns its length into sets.
    pub times: Option<u64>,
    /// Tied once, at the end.
    pub closing: Piece,
    /// Rows in all, with one set if it is not known how many.
    pub rows: u64,
    /// By strand of the whole band, what it does in all those rows.
    pub uses: Vec<Use>,
    /// What knots and rows take of a thread; none without a gauge.
    pub figures: Option<Figures>,
}

impl Reckoning {
    /// Reckons a pattern.
    ///
    /// # Errors
    /// A part of it does not fit the others, which a checked pattern never says.
    pub fn of(pattern: &Pattern) -> Result<Self, PieceError> {
        let strands = pattern.strands.len();
        let opening = piece(pattern.opening.as_ref(), strands)?;
        let set = piece(pattern.set.as_ref(), strands)?;
        let sets =
            if pattern.picks_by_color { by_color(pattern, &opening) } else { Some(Sets::alike(set.clone())) };
        let colors = colors_after(pattern, opening.order());
        let repeats = sets.as_ref().map(|sets| repeats(sets, &colors));
        let is_known = sets.is_some();
        let sets = sets.unwrap_or_else(|| Sets::alike(set));
        let figures = gauge(pattern).figures().ok();
        let growth = Growth::new(&opening, &sets);
        let closing_after = |times| closing(pattern, &opening, &sets, times);
        let height = |times| closing_after(times).map_or(0, |closing| growth.height_with(times, &closing));
        let times = times(pattern.extent, figures, height).filter(|_| is_known);
        let closing = closing_after(times.unwrap_or(1))?;
        let rows = growth.height_with(times.unwrap_or(1), &closing);
        let uses = total_uses(&opening, &sets, times.unwrap_or(1), &closing);
        Ok(Self { opening, sets, repeats, times, closing, rows, uses, figures })
    }

    /// The length of the knotted part in millimeters, if a gauge tells.
    pub fn length(&self) -> Option<f64> {
        Some(self.rows as f64 * self.figures?.pitch)
    }
}

fn piece(part: Option<&Part>, strands: usize) -> Result<Piece, PieceError> {
    match part {
        Some(part) => Piece::from_tied(part.knots.clone(), part.order.clone(), part.straight.clone()),
        None => Ok(Piece::empty(strands)),
    }
}

/// The sets of a pattern that picks strands by color; none if they go on for too long without coming again.
fn by_color(pattern: &Pattern, opening: &Piece) -> Option<Sets> {
    let order: Vec<u8> = (0..opening.strands()).map(|strand| strand as u8).collect();
    let tie = |order: &[u8]| {
        let part = pattern.set_from(&one_then(opening.order(), order));
        piece(part.as_ref(), order.len())
    };
    Sets::by_color(&order, &colors_after(pattern, opening.order()), tie).ok()
}

fn closing(pattern: &Pattern, opening: &Piece, sets: &Sets, times: u64) -> Result<Piece, PieceError> {
    let part = pattern
        .closing
        .as_ref()
        .and_then(|_| pattern.closing_from(&one_then(opening.order(), &sets.order_after(times))));
    piece(part.as_ref(), opening.strands())
}

fn times(extent: Extent, figures: Option<Figures>, height: impl Fn(u64) -> u64) -> Option<u64> {
    match extent {
        Extent::Open => None,
        Extent::Sets(sets) => Some(u64::from(sets)),
        Extent::Length(length) => {
            let rows = length / figures?.pitch;
            if height(1) as f64 > rows { Some(1) } else { sets_for(rows, height).ok() }
        }
    }
}

fn gauge(pattern: &Pattern) -> Gauge {
    let gauge = pattern.gauge;
    Gauge { thickness: gauge.thickness, knots_use: gauge.knots_use, rows_measure: gauge.rows_measure }
}

/// By position after `order`, the thread that hangs there.
pub fn colors_after(pattern: &Pattern, order: &[u8]) -> Vec<u16> {
    order.iter().filter_map(|strand| pattern.strands.get(usize::from(*strand)).copied()).collect()
}
