//! Cuts what each strand ties into series.

use super::Begins;
use super::strand::{Stacked, base_side};
use crate::{Knot, Layout, Piece};
use knotwright_numbers::ToNumber;

/// Which knot belongs to which series.
pub(super) struct Cuts {
    /// By knot, its series. Series are numbered by strand, and for one strand in the order of the script.
    pub(super) series_of: Vec<u32>,
    /// By series, why it begins.
    pub(super) begins: Vec<Begins>,
}

pub(super) fn cut_pick_ups(piece: &Piece, layout: &Layout, within: Option<u32>) -> Cuts {
    let knots = piece.knots();
    let mut cuts = Cuts { series_of: vec![0; knots.len()], begins: Vec::new() };
    for acts in acts_of_strands(piece) {
        let strand = Strand { acts: &acts, knots, rows: &layout.rows, within };
        let mut starts = strand.longest();
        strand.prefer_turns(&mut starts);
        for (number, &(start, begins)) in starts.iter().enumerate() {
            let end = starts.get(number + 1).map_or(acts.len(), |next| next.0);
            for act in &acts[start..end] {
                cuts.series_of[act.knot.to_usize()] = cuts.begins.len().to_u32();
            }
            cuts.begins.push(begins);
        }
    }
    cuts
}

/// A knot that a strand ties, and what was before it. There is one for every knot: so it is kept small.
struct Act {
    knot: u32,
    /// The knot in which another strand tied over this one since its last act.
    tied_over: MaybeNumber,
    /// The last knot that the base was in.
    base_in: MaybeNumber,
    /// Which of this strand's acts that was, if it was one.
    own: MaybeNumber,
}

/// A number, or none, in four bytes. The largest number stands for none; no piece has as many knots.
#[derive(Clone, Copy)]
struct MaybeNumber(u32);

impl From<Option<u32>> for MaybeNumber {
    fn from(number: Option<u32>) -> Self {
        Self(number.unwrap_or(u32::MAX))
    }
}

impl MaybeNumber {
    fn get(self) -> Option<u32> {
        (self.0 != u32::MAX).then_some(self.0)
    }
}

/// The last knot of a strand: who worked, which knot it is, which act of who worked.
type Last = Option<(u8, u32, u32)>;

/// By strand, the knots it ties.
fn acts_of_strands(piece: &Piece) -> Vec<Vec<Act>> {
    let mut counts = vec![0; piece.strands()];
    piece.knots().iter().for_each(|knot| counts[usize::from(knot.working)] += 1);
    let mut acts: Vec<Vec<Act>> = counts.into_iter().map(Vec::with_capacity).collect();
    let mut last: Vec<Last> = vec![None; piece.strands()];
    for (number, knot) in (0_u32..).zip(piece.knots()) {
        let (working, base) = (usize::from(knot.working), usize::from(knot.base));
        let (before, base_before) = (last[working], last[base]);
        let now = Some((knot.working, number, acts[working].len().to_u32()));
        acts[working].push(Act {
            knot: number,
            tied_over: before.filter(|last| last.0 != knot.working).map(|last| last.1).into(),
            base_in: base_before.map(|last| last.1).into(),
            own: base_before.filter(|last| last.0 == knot.working).map(|last| last.2).into(),
        });
        (last[working], last[base]) = (now, now);
    }
    acts
}

/// A strand and what it ties.
struct Strand<'a> {
    acts: &'a [Act],
    knots: &'a [Knot],
    rows: &'a [u32],
    within: Option<u32>,
}

impl Strand<'_> {
    fn knot(&self, act: usize) -> &Knot {
        &self.knots[self.acts[act].knot.to_usize()]
    }

    /// Series that each go on as long as they can: by series, its first act and why it begins.
    fn longest(&self) -> Vec<(usize, Begins)> {
        let mut starts = Vec::new();
        let mut at = 0;
        let mut begins = Begins::First;
        while at < self.acts.len() {
            starts.push((at, begins));
            (at, begins) = self.reach(at);
        }
        starts
    }

    /// Where a series that begins with an act must end: the first act past it, and why.
    fn reach(&self, start: usize) -> (usize, Begins) {
        let mut stacked = Stacked::default();
        for act in start..self.acts.len() {
            if let Some(why) = self.stops(start, act, stacked).filter(|_| act > start) {
                return (act, why);
            }
            stacked.tie(self.knot(act));
        }
        (self.acts.len(), Begins::First)
    }

    /// Why a series from `start` cannot hold this act.
    fn stops(&self, start: usize, act: usize, stacked: Stacked) -> Option<Begins> {
        let this = &self.acts[act];
        if let Some(knot) = this.tied_over.get() {
            return Some(Begins::TiedOver { knot });
        }
        let own = this.own.get().is_some_and(|own| own.to_usize() >= start);
        if !stacked.allows(self.knot(act), own) {
            // Where something is stacked, the base came there in a knot.
            return this.base_in.get().map(|other| Begins::Waits { knot: this.knot, other });
        }
        let row = |act: usize| self.rows[self.acts[act].knot.to_usize()];
        let over = row(act) - row(start);
        self.within.filter(|within| over >= (*within).max(1)).map(|_| Begins::TooManyRows)
    }

    /// Moves the beginnings that can lie elsewhere back to where the strand turns, if the series still reach as far.
    fn prefer_turns(&self, starts: &mut [(usize, Begins)]) {
        let mut end = self.acts.len();
        for number in (1..starts.len()).rev() {
            let (start, begins) = starts[number];
            let earliest = starts[number - 1].0 + 1;
            if !matches!(begins, Begins::TiedOver { .. }) {
                let turn = (earliest..=start).rev().find(|&act| self.turns_at(act));
                starts[number].0 = turn.filter(|&turn| self.reach(turn).0 >= end).unwrap_or(start);
            }
            end = starts[number].0;
        }
    }

    /// Whether the strand goes the other way from this act on.
    fn turns_at(&self, act: usize) -> bool {
        base_side(self.knot(act)) != base_side(self.knot(act - 1))
    }
}
