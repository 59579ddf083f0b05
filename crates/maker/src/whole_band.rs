//! From a tied pattern to the numbers of its band: how often the set is tied, how many rows that makes, what each
//! strand does, and how long all is.

use knotwright_band::ends::EndWork;
use knotwright_band::orders::one_then;
use knotwright_band::thread::{Figures, Gauge, MeasureError, sets_for};
use knotwright_band::{
    Growth, Piece, PieceOf, Repeats, Rows, Sets, TiedPieces, Use, count_uses, find_repeats, total_uses_with,
};
use knotwright_checker::{Extent, Part, PartKind, Pattern};
use knotwright_numbers::ToNumber;
use std::borrow::Cow;

/// Sets that differ are kept with their steps, one by one; more knots than this in them are not.
const MOST_KNOTS_KEPT: usize = 2_000_000;

/// The numbers of a band. Strands of a piece are named by their position as it begins, everything counts from 0.
#[derive(Debug)]
pub struct WholeBand {
    /// Tied once, at the start; without knots if there is none.
    pub opening: Piece,
    /// Tied over and over. If it cannot be said how the sets go on, the first one stands for all.
    pub sets: Sets,
    /// If sets pick strands by color: each that differs, with its steps. Those after the first [`MOST_KNOTS_KEPT`] are left out.
    by_color: Vec<Part>,
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

impl WholeBand {
    /// The band as long as its pattern says.
    pub fn of(pattern: &Pattern) -> Self {
        Self::sized(pattern, pattern.extent, pattern.gauge)
    }

    /// The band as long as is asked for, of thread with this gauge.
    pub fn sized(pattern: &Pattern, extent: Extent, gauge: Gauge) -> Self {
        let growing = Growing::new(pattern);
        let figures = growing.figures(gauge).ok();
        growing.grown(extent, figures)
    }

    /// A set of the pattern that this band was made of, counted from 0, with its steps; none if there is none, or if it
    /// was not kept, which happens when many large sets differ.
    pub fn set_part<'a>(&'a self, pattern: &'a Pattern, number: u64) -> Option<&'a Part> {
        match self.by_color.is_empty() {
            true => pattern.set.as_ref(),
            false => self.by_color.get(self.sets.first_like(number)),
        }
    }

    /// By position, which strand of the pattern hangs there after the opening and `sets` sets.
    pub fn order_after(&self, sets: u64) -> Vec<u8> {
        one_then(self.opening.order(), &self.sets.order_after(sets))
    }

    /// By position, the thread that hangs there after the opening and `sets` sets.
    pub fn threads_after(&self, pattern: &Pattern, sets: u64) -> Vec<u16> {
        self.sets.threads_after(&self.opening.threads_after(&pattern.strands), sets)
    }

    /// How many rows a set has by itself, if the next one begins in the last of them, so that the rows of sets do not add up;
    /// none if they do, or if sets differ in it.
    pub fn rows_of_set(&self) -> Option<u64> {
        let heights = |piece: &Piece| {
            let mut rows = Rows::new(piece.strands());
            rows.pass(piece);
            let alone = rows.height();
            rows.pass(piece);
            (alone, rows.height())
        };
        let mut sets = self.sets.run_in().iter().chain(self.sets.period()).map(heights);
        let (alone, twice) = sets.next()?;
        let is_alike = sets.all(|(other, _)| other == alone);
        (is_alike && twice < 2 * alone).then_some(alone)
    }

    /// The length of the knotted part in millimeters, if there is a gauge.
    pub fn length(&self) -> Option<f64> {
        Some(self.rows.to_f64() * self.figures?.pitch)
    }
}

/// What is known of a band before it is known how long it is to be.
pub(crate) struct Growing<'a> {
    pattern: &'a Pattern,
    opening: Piece,
    /// The first one stands for all if it cannot be said how they go on.
    sets: Sets,
    by_color: Vec<Part>,
    repeats: Option<Repeats>,
    growth: Growth,
}

impl<'a> Growing<'a> {
    pub(crate) fn new(pattern: &'a Pattern) -> Self {
        let piece = |kind| {
            let part = pattern.part(kind);
            part.map_or_else(|| Piece::empty(pattern.strands.len()), |part| part.piece.clone())
        };
        let (opening, set) = (piece(PartKind::Opening), piece(PartKind::Set));
        let followed = if pattern.picks_by_color { by_color(pattern, &opening) } else { None };
        let is_known = followed.is_some() || !pattern.picks_by_color;
        let (sets, by_color) = followed.unwrap_or_else(|| (Sets::alike(set), Vec::new()));
        let repeats = is_known.then(|| find_repeats(&sets, &opening.threads_after(&pattern.strands)));
        let growth = Growth::new(&opening, &sets);
        Self { pattern, opening, sets, by_color, repeats, growth }
    }

    /// The pattern of the band.
    pub(crate) fn pattern(&self) -> &'a Pattern {
        self.pattern
    }

    /// Whether it can be said how the sets go on.
    pub(crate) fn is_known(&self) -> bool {
        self.repeats.is_some()
    }

    /// How many rows the band has with that many sets.
    pub(crate) fn rows(&self, times: u64) -> u64 {
        self.growth.height_with(times, &self.closing(times))
    }

    /// A set, counted from 0, with its steps; none if there is none or it was not kept.
    pub(crate) fn set_part(&self, number: u64) -> Option<&Part> {
        match self.by_color.is_empty() {
            true => self.pattern.set.as_ref(),
            false => self.by_color.get(self.sets.first_like(number)),
        }
    }

    /// By position, the thread that hangs there after the opening and `sets` sets.
    pub(crate) fn threads_after(&self, sets: u64) -> Vec<u16> {
        self.sets.threads_after(&self.opening.threads_after(&self.pattern.strands), sets)
    }

    /// How many rows it has with that many sets and another piece after them in place of the closing.
    pub(crate) fn rows_with(&self, times: u64, last: &Piece) -> u64 {
        self.growth.height_with(times, last)
    }

    /// What knots and rows take of thread with this gauge.
    ///
    /// # Errors
    /// As [`Gauge::figures`].
    pub(crate) fn figures(&self, gauge: Gauge) -> Result<Figures, MeasureError> {
        gauge.figures(self.growth.straight_part(&self.opening, &self.closing(1)))
    }

    /// The band with as many sets as make its extent; with one set if that cannot be said.
    pub(crate) fn grown(self, extent: Extent, figures: Option<Figures>) -> WholeBand {
        let times = self.times(extent, figures).filter(|_| self.is_known());
        let closing = self.closing(times.unwrap_or(1));
        let rows = self.growth.height_with(times.unwrap_or(1), &closing);
        let pieces = TiedPieces { opening: &self.opening, sets: &self.sets, closing: &closing };
        let uses = total_uses_with(pieces, times.unwrap_or(1), |which, piece| self.uses_of(which, piece));
        let Self { opening, sets, by_color, repeats, .. } = self;
        WholeBand { opening, sets, by_color, repeats, times, closing, rows, uses, figures }
    }

    /// What the strands do in a piece, beads included.
    fn uses_of(&self, which: PieceOf, piece: &Piece) -> Vec<Use> {
        let part = match which {
            PieceOf::Opening => self.pattern.opening.as_ref(),
            PieceOf::Set(number) => self.set_part(number.to_u64()),
            PieceOf::Closing => self.pattern.closing.as_ref(),
        };
        let mut uses = count_uses(piece);
        if let Some(part) = part {
            add_beads(&mut uses, part, piece, self.pattern);
        }
        uses
    }

    pub(crate) fn times(&self, extent: Extent, figures: Option<Figures>) -> Option<u64> {
        match extent {
            Extent::Open => None,
            Extent::Sets(sets) => Some(u64::from(sets)),
            Extent::Length(length) => sets_for(length / figures?.pitch, |sets| self.rows(sets)).ok(),
        }
    }

    fn closing(&self, times: u64) -> Piece {
        let closing = closing_after(self.pattern, &self.threads_after(times));
        closing.map_or_else(|| Piece::empty(self.opening.strands()), |closing| closing.piece.clone())
    }
}

/// Adds what the beads of a part take of its strands. They are threaded at the positions where they are threaded, whatever
/// the colors: `piece` is tied by the same steps.
fn add_beads(uses: &mut [Use], part: &Part, piece: &Piece, pattern: &Pattern) {
    let mut order: Vec<u8> = (0..=u8::MAX).take(piece.strands()).collect();
    let mut tied = 0;
    for bead in part.beads() {
        let before = bead.before.to_usize().min(piece.knots().len());
        for knot in piece.knots()[tied..before].iter().filter(|knot| knot.kind.swaps()) {
            order.swap(usize::from(knot.gap), usize::from(knot.gap) + 1);
        }
        tied = before;
        let across = pattern.beads.get(usize::from(bead.bead)).map_or(0.0, |bead| bead.across);
        let positions = usize::from(bead.position)..usize::from(bead.position) + usize::from(bead.strands);
        for strand in order.get(positions).into_iter().flatten() {
            uses[usize::from(*strand)].in_beads += (across * 1000.0).round().to_u64();
        }
    }
}

/// By bead of the pattern, how many of it a band with `times` sets has, its ends included.
pub fn count_beads(pattern: &Pattern, whole: &WholeBand, times: u64) -> Vec<u64> {
    let mut counts = vec![0_u64; pattern.beads.len()];
    let mut add = |part: Option<&Part>, often: u64| {
        for bead in part.into_iter().flat_map(Part::beads) {
            if let Some(count) = counts.get_mut(usize::from(bead.bead)) {
                *count += often;
            }
        }
    };
    add(pattern.opening.as_ref(), 1);
    add(pattern.closing.as_ref(), 1);
    if pattern.set.is_some() {
        let (run_in, period) = (whole.sets.run_in().len().to_u64(), whole.sets.period().len().to_u64());
        for number in 0..(run_in + period).min(times) {
            let again = if number < run_in { 0 } else { (times - 1 - number) / period };
            add(whole.set_part(pattern, number), 1 + again);
        }
    }
    pattern.made.begin.iter().chain(&pattern.made.finish).for_each(|works| add_at_end(works, 1, &mut counts));
    counts
}

fn add_at_end(works: &[EndWork], often: u64, counts: &mut [u64]) {
    for work in works {
        match work {
            EndWork::Bead { bead, .. } => {
                if let Some(count) = counts.get_mut(usize::from(*bead)) {
                    *count += often;
                }
            }
            EndWork::Split { parts, works } => add_at_end(works, often * u64::from(*parts), counts),
            EndWork::Knot
            | EndWork::Plait { .. }
            | EndWork::Twist { .. }
            | EndWork::Wrap { .. }
            | EndWork::Loop { .. }
            | EndWork::Tassel { .. }
            | EndWork::ClosingKnot
            | EndWork::Slide { .. } => {}
        }
    }
}

/// The closing when these threads hang there. One that cannot be tied so is there as it is tied after one set.
pub fn closing_after<'a>(pattern: &'a Pattern, threads: &[u16]) -> Option<Cow<'a, Part>> {
    let closing = pattern.closing.as_ref()?;
    Some(pattern.closing_from(threads).map_or(Cow::Borrowed(closing), Cow::Owned))
}

/// The sets of a pattern that picks strands by color, as pieces and with their steps; none if they go on for too long
/// without coming again.
fn by_color(pattern: &Pattern, opening: &Piece) -> Option<(Sets, Vec<Part>)> {
    let (mut parts, mut knots) = (Vec::new(), 0);
    let tie = |threads: &[u16]| {
        let part = pattern.set_from(threads).ok_or(())?;
        let piece = part.piece.clone();
        knots += piece.knots().len();
        if knots <= MOST_KNOTS_KEPT {
            parts.push(part);
        }
        Ok::<Piece, ()>(piece)
    };
    let sets = Sets::by_color(&opening.threads_after(&pattern.strands), tie).ok()?;
    Some((sets, parts))
}
