//! The numbers of the whole band: rows, when the set closes, how often it is tied, what each strand does.

use knotwright_band::orders::one_then;
use knotwright_band::thread::{Figures, Gauge, sets_for};
use knotwright_band::{Growth, Layout, Piece, Repeats, Sets, Use, repeats, total_uses};
use knotwright_checker::{Extent, Part, Pattern};

/// What is reckoned from a tied pattern.
#[derive(Debug)]
pub(crate) struct Reckoning {
    /// When all comes again; `None` without a set, or if it cannot be said.
    pub(crate) repeats: Option<Repeats>,
    /// How often the set is tied; `None` if the pattern does not say.
    pub(crate) times: Option<u64>,
    /// Rows of the whole band, with one set if it is not known how many.
    pub(crate) rows: u64,
    /// By strand, what it does in the whole band.
    pub(crate) uses: Vec<Use>,
    /// What knots and rows take of a thread; `None` without a gauge.
    pub(crate) figures: Option<Figures>,
}

impl Reckoning {
    /// `None` if the parts do not fit one another, as in a pattern with errors.
    pub(crate) fn of(pattern: &Pattern) -> Option<Self> {
        let strands = pattern.strands.len();
        let opening = piece(pattern.opening.as_ref(), strands)?;
        let set = piece(pattern.set.as_ref(), strands)?;
        let known =
            if pattern.picks_by_color { by_color(pattern, &opening) } else { Some(Sets::alike(set.clone())) };
        let colors = colors_after(pattern, opening.order());
        let repeats = known.as_ref().filter(|_| pattern.set.is_some()).map(|sets| repeats(sets, &colors));
        let is_known = known.is_some();
        let sets = known.unwrap_or_else(|| Sets::alike(set));
        let figures = gauge(pattern).figures().ok();
        let growth = Growth::new(&opening, &sets);
        let closing = |times| closing(pattern, &opening, &sets, times);
        let height = |times| closing(times).map_or(0, |closing| growth.height_with(times, &closing));
        let times = times(pattern.extent, figures, height).filter(|_| is_known);
        let last = closing(times.unwrap_or(1))?;
        let rows = growth.height_with(times.unwrap_or(1), &last);
        let uses = total_uses(&opening, &sets, times.unwrap_or(1), &last);
        Some(Self { repeats, times, rows, uses, figures })
    }

    /// The length of the knotted part in millimeters, if a gauge tells.
    pub(crate) fn length(&self) -> Option<f64> {
        Some(self.rows as f64 * self.figures?.pitch)
    }
}

/// A part by itself; without one, no knots. `None` if it has errors that moved strands.
pub(crate) fn piece(part: Option<&Part>, strands: usize) -> Option<Piece> {
    match part {
        Some(part) => Piece::from_tied(part.knots.clone(), part.order.clone(), part.straight.clone()).ok(),
        None => Some(Piece::empty(strands)),
    }
}

/// How many rows a part has by itself.
pub(crate) fn rows(part: &Part) -> Option<u32> {
    piece(Some(part), part.order.len()).map(|piece| Layout::of(&piece).height)
}

fn by_color(pattern: &Pattern, opening: &Piece) -> Option<Sets> {
    let order: Vec<u8> = (0..opening.strands()).map(|strand| strand as u8).collect();
    let tie = |order: &[u8]| {
        let part = pattern.set_from(&one_then(opening.order(), order));
        piece(part.as_ref(), order.len()).ok_or(())
    };
    Sets::by_color(&order, &colors_after(pattern, opening.order()), tie).ok()
}

fn closing(pattern: &Pattern, opening: &Piece, sets: &Sets, times: u64) -> Option<Piece> {
    let order = || one_then(opening.order(), &sets.order_after(times));
    let part = pattern.closing.as_ref().and_then(|_| pattern.closing_from(&order()));
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

fn colors_after(pattern: &Pattern, order: &[u8]) -> Vec<u16> {
    order.iter().filter_map(|strand| pattern.strands.get(usize::from(*strand)).copied()).collect()
}
