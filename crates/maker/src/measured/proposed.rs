//! Where to join strands so that no piece is longer than what there is: greedily, each strand as late as can be.

use super::joined::{Followed, LaidKnot, PartLaid, PieceUse, follow, piece_ends};
use super::{Measured, list_strands};
use crate::LengthUnit;
use knotwright_band::Use;
use knotwright_band::thread::Cut;
use knotwright_checker::{Extent, PartKind};
use knotwright_numbers::ToNumber;
use knotwright_rewriter::{JoinSpot, NewJoin, SpotAt, list_join_spots};
use knotwright_wording::{both, digits::count};
use std::collections::HashMap;

/// A join is not within this many rows of another.
const APART: u64 = 6;

/// Nor nearer to an edge than this many places.
const FROM_EDGE: usize = 2;

/// Where to join.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ProposedJoins {
    /// One join after another, strand by strand.
    pub joins: Vec<ProposedJoin>,
    /// Strands of which some piece stays longer, as there is no place to join them before.
    pub without_place: Vec<u8>,
}

/// A join that is proposed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProposedJoin {
    /// The line to write.
    pub line: NewJoin,
    /// The strand, by where it hangs at the start.
    pub strand: u8,
    /// The row of the band in which it is tied over next, from 0.
    pub row: u64,
    /// How long the piece is cut that ends there.
    pub cut: f64,
}

/// Why nothing is proposed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotProposed {
    /// Sets differ, as they pick strands by color.
    SetsDiffer,
    /// Too many knots or statements to look through.
    TooLarge,
    /// What is over at the joins and the ends alone takes that much.
    TooShort,
    /// More sets are measured than the pattern says are tied, and a strand is to be joined in one of those.
    BeyondSets,
}

impl NotProposed {
    /// In words.
    pub fn said(self) -> &'static str {
        match self {
            Self::SetsDiffer => {
                "its sets pick strands by color and differ, so it cannot be said in which of them a line would join \
                 which strand; pick the strands by place"
            }
            Self::TooLarge => "it is too large to look for places to join; ask for fewer sets",
            Self::BeyondSets => {
                "a strand would be joined in a set that the pattern does not tie: you ask for more sets than its `sets` \
                 says. Write that number into the pattern first, or ask for no other length"
            }
            Self::TooShort => {
                "that is too short for what is left free at an end and over at a join; name a longer piece"
            }
        }
    }
}

/// A knot in which a strand is tied over, and the line above it that would join the strand.
#[derive(Debug, Clone, Copy)]
struct JoinCandidate {
    line: NewJoin,
    row: u64,
    /// What the strand has done from its beginning, or its last join in the pattern, to that knot.
    before: PieceUse,
    /// How many joins of the pattern it had before.
    piece: usize,
}

/// Where to join the strands of a band so that no piece is longer than `longest` millimeters.
///
/// # Errors
/// [`NotProposed`].
pub fn propose_joins(
    measured: &Measured,
    longest: f64,
    unit: LengthUnit,
) -> Result<ProposedJoins, NotProposed> {
    let whole = &measured.whole;
    if !whole.sets.run_in().is_empty() || whole.sets.period().len() > 1 {
        return Err(NotProposed::SetsDiffer);
    }
    if longest <= 2.0 * knotwright_band::thread::JOIN_OVER + measured.held.above.max(measured.held.below) {
        return Err(NotProposed::TooShort);
    }
    let spots = JoinSpots::of(measured).ok_or(NotProposed::TooLarge)?;
    let candidates = candidates(measured, &spots).ok_or(NotProposed::TooLarge)?;
    let mut search = JoinSearch { measured, unit, rows: Vec::new(), found: ProposedJoins::default() };
    for strand in 0..measured.pattern.strands.len().to_u8() {
        let most = JoinLimits { first: longest / measured.strands_in_first_piece(strand), later: longest };
        search.strand_at_best(strand, &candidates[usize::from(strand)], most);
    }
    let beyond = |join: &ProposedJoin| match measured.pattern.extent {
        Extent::Sets(sets) => join.line.set.is_some_and(|set| set >= u64::from(sets)),
        Extent::Open | Extent::Length(_) => false,
    };
    match search.found.joins.iter().any(beyond) {
        true => Err(NotProposed::BeyondSets),
        false => Ok(search.found),
    }
}

impl Measured<'_> {
    /// How many strands are made of the thread with which a strand begins.
    fn strands_in_first_piece(&self, strand: u8) -> f64 {
        let is_its = |cut: &&Cut| list_strands(**cut).contains(&strand);
        self.pieces.iter().find(is_its).map_or(1.0, |cut| list_strands(*cut).len().to_f64())
    }
}

/// Places to join by part, each with the number of knots of the part before it.
struct JoinSpots {
    of: HashMap<PartKind, Vec<(JoinSpot, u64)>>,
}

impl JoinSpots {
    fn of(measured: &Measured) -> Option<Self> {
        let mut of: HashMap<PartKind, Vec<(JoinSpot, u64)>> = HashMap::new();
        for (spot, knots) in list_join_spots(measured.pattern)? {
            of.entry(spot.part).or_default().push((spot, knots));
        }
        Some(Self { of })
    }

    /// The last place of a part before the knot of that number.
    fn before(&self, part: PartKind, knot: u32) -> Option<&(JoinSpot, u64)> {
        let of = self.of.get(&part)?;
        let after = of.partition_point(|(_, knots)| *knots <= u64::from(knot));
        of.get(after.checked_sub(1)?)
    }
}

/// By strand, where it could be joined, from the top.
fn candidates(measured: &Measured, spots: &JoinSpots) -> Option<Vec<Vec<JoinCandidate>>> {
    let (pattern, strands) = (measured.pattern, measured.pattern.strands.len());
    let edge = FROM_EDGE.min((strands - 1) / 2);
    let mut found: Vec<Vec<JoinCandidate>> = vec![Vec::new(); strands];
    // By strand, the last place before which it was not tied since.
    let mut tied_in: Vec<Option<(PartLaid, u64, u32)>> = vec![None; strands];
    let look = |followed: &mut [Followed], part: PartLaid, laid: &LaidKnot| {
        let base = laid.knot.base;
        let kind = match part {
            PartLaid::Opening => PartKind::Opening,
            PartLaid::Set => PartKind::Set,
            PartLaid::Closing => PartKind::Closing,
        };
        let position = usize::from(laid.knot.gap) + usize::from(laid.knot.kind.left_works());
        let is_inside = position >= edge && position + edge < strands;
        let last = tied_in[usize::from(base)];
        let spot = spots.before(kind, laid.number).filter(|(_, knots)| {
            // The strand has no knot between the place and this one.
            let since = last.filter(|(of, set, _)| *of == part && *set == laid.set);
            since.is_none_or(|(_, _, knot)| u64::from(knot) < *knots)
        });
        let set = (kind == PartKind::Set).then_some(laid.set);
        let of = &followed[usize::from(base)];
        if let (Some((at, _)), Some(piece)) = (spot.filter(|_| is_inside), of.pieces_before()) {
            let line = NewJoin { at: *at, position: position.to_u8(), set };
            let before = of.before(laid.row);
            found[usize::from(base)].push(JoinCandidate { line, row: laid.row, before, piece });
        }
        for strand in [laid.knot.working, base] {
            tied_in[usize::from(strand)] = Some((part, laid.set, laid.number));
        }
    };
    follow(pattern, &measured.whole, look)?;
    Some(found)
}

/// How long pieces may be: the first one of a strand, and those after it.
#[derive(Clone, Copy)]
struct JoinLimits {
    first: f64,
    later: f64,
}

struct JoinSearch<'m, 'a> {
    measured: &'m Measured<'a>,
    unit: LengthUnit,
    /// Of the joins so far.
    rows: Vec<u64>,
    found: ProposedJoins,
}

impl JoinSearch<'_, '_> {
    /// Nothing is parted for a strand that can be joined otherwise.
    fn strand_at_best(&mut self, strand: u8, candidates: &[JoinCandidate], most: JoinLimits) {
        let whole: Vec<JoinCandidate> =
            candidates.iter().copied().filter(|of| of.line.at.at == SpotAt::Above).collect();
        let before = (self.rows.len(), self.found.joins.len());
        if self.strand(strand, &whole, most) {
            return;
        }
        let (rows, joins) = (self.rows.split_off(before.0), self.found.joins.split_off(before.1));
        if !self.strand(strand, candidates, most) {
            self.rows.truncate(before.0);
            self.found.joins.truncate(before.1);
            self.rows.extend(rows);
            self.found.joins.extend(joins);
            self.found.without_place.push(strand);
        }
    }

    /// Whether no piece of the strand stays too long.
    fn strand(&mut self, strand: u8, candidates: &[JoinCandidate], most: JoinLimits) -> bool {
        let pieces = &self.measured.strand_pieces[usize::from(strand)];
        let mut all_fit = true;
        for (number, piece) in pieces.iter().enumerate() {
            let of_piece: Vec<JoinCandidate> =
                candidates.iter().copied().filter(|of| of.piece == number).collect();
            let (is_first, is_last) = (number == 0, number + 1 == pieces.len());
            let all = self.measured.stretches[usize::from(strand)][number].1;
            let mut begun = PieceUse::default();
            let mut limit = if is_first { most.first } else { most.later };
            let mut needs = self.unit.to_cut(piece.need.high);
            let mut begins_band = is_first;
            while needs > limit {
                let done = |of: &JoinCandidate| with_beads(of.before, all).since(begun);
                let fits = |of: &&JoinCandidate| {
                    of.before.rows > begun.rows
                        && self.cut(done(of), begins_band, false) <= limit
                        && self.rows.iter().all(|row| row.abs_diff(of.row) >= APART)
                };
                let Some(best) = of_piece.iter().rev().find(fits).copied() else {
                    all_fit = false;
                    break;
                };
                let cut = self.cut(done(&best), begins_band, false);
                self.rows.push(best.row);
                self.found.joins.push(ProposedJoin { line: best.line, strand, row: best.row, cut });
                (begun, limit, begins_band) = (with_beads(best.before, all), most.later, false);
                needs = self.cut(all.since(begun), false, is_last);
            }
        }
        all_fit
    }

    fn cut(&self, stretch: PieceUse, is_first: bool, is_last: bool) -> f64 {
        let ends = piece_ends(&self.measured.held, is_first, is_last);
        let need = self.measured.figures.length(stretch.used, stretch.rows, ends);
        self.unit.to_cut(need.high)
    }
}

/// What beads take is counted in the first piece, wherever they are; `all`: what the whole stretch has done.
fn with_beads(before: PieceUse, all: PieceUse) -> PieceUse {
    PieceUse { used: Use { in_beads: all.used.in_beads, ..before.used }, ..before }
}

impl ProposedJoins {
    /// What is proposed, for a person: a line a join, and what has no place.
    pub fn said(&self, measured: &Measured, longest: f64, unit: LengthUnit) -> Vec<String> {
        let strands = measured.pattern.strands.len();
        let line = |join: &ProposedJoin| {
            let part = match join.line.at.part {
                PartKind::Set => String::new(),
                part => format!("in the {}: ", part.word()),
            };
            let parted = match join.line.at.at {
                SpotAt::Above => "",
                SpotAt::Row(_) => ", between two rows of a chart",
                SpotAt::Pass(_) => ", between two passes of a `repeat`",
            };
            format!(
                "{part}`{}` ends a piece of strand {} ({}) at {}, in row {}{parted}",
                knotwright_rewriter::write_join(&join.line, strands),
                u16::from(join.strand) + 1,
                measured.thread_of(usize::from(join.strand)),
                unit.cut(join.cut),
                join.row + 1
            )
        };
        let mut said: Vec<String> = self.joins.iter().map(line).collect();
        if self.joins.is_empty() && self.without_place.is_empty() {
            said.push(format!("No piece is longer than {}: nothing need be joined.", unit.cut(longest)));
        }
        if !self.without_place.is_empty() {
            let numbers: Vec<String> =
                self.without_place.iter().map(|strand| (u16::from(*strand) + 1).to_string()).collect();
            said.push(format!(
                "{} {} cannot be joined so that no piece is longer than {}: a join lies between two statements of a part or \
                 a section, between two rows of a chart there, or between two passes of a `repeat`; before a knot in which \
                 the strand is tied over; {} from an edge, and not within six rows of another. Name a longer piece, or \
                 write the steps in smaller blocks.",
                if numbers.len() == 1 { "Strand" } else { "Strands" },
                both(&numbers),
                unit.cut(longest),
                count(FROM_EDGE.to_u64(), "place"),
            ));
        }
        said
    }
}
