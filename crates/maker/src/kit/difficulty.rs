//! What makes a band hard to tie, as plain facts: nobody knows how to add them up.

use crate::measured::Measured;
use knotwright_band::{Kind, Piece, fewest_pick_ups, pick_ups};
use knotwright_checker::{PartKind, PatternThread};
use knotwright_color::{Eyes, Seen, look_alike};
use knotwright_numbers::ToNumber;

/// Plain facts.
#[derive(Debug, Clone, PartialEq)]
pub struct Difficulty {
    /// Strands side by side.
    pub strands: usize,
    /// Threads that hang in the band.
    pub threads: usize,
    /// The kinds of knots in it, in the order of [`Kind`].
    pub kinds: Vec<Kind>,
    /// The most knots that are tied before a strand is let go.
    pub longest_run: u64,
    /// How many times a strand is taken in hand in a set, and how few would do; none without a set.
    pub pick_ups: Option<(u64, u64)>,
    /// Threads that are hard to tell apart, by their names, and to which eyes.
    pub alike: Vec<(String, String, Eyes)>,
}

const KINDS: [Kind; 4] = [Kind::Forward, Kind::Backward, Kind::ForwardBackward, Kind::BackwardForward];

impl Difficulty {
    /// Of a band in these colors.
    pub(super) fn of(measured: &Measured, threads: &[PatternThread]) -> Self {
        let whole = &measured.whole;
        let sets = whole.sets.run_in().iter().chain(whole.sets.period());
        let pieces: Vec<&Piece> = [&whole.opening, &whole.closing].into_iter().chain(sets).collect();
        let is_there =
            |kind: &Kind| pieces.iter().any(|piece| piece.knots().iter().any(|knot| knot.kind == *kind));
        let hanging: Vec<&PatternThread> = (0_u16..)
            .zip(threads)
            .filter(|(at, _)| measured.pattern.strands.contains(at))
            .map(|(_, of)| of)
            .collect();
        let set = measured.pattern.part(PartKind::Set).map(|part| &part.piece);
        Self {
            strands: measured.lengths.len(),
            threads: hanging.len(),
            kinds: KINDS.into_iter().filter(is_there).collect(),
            longest_run: pieces.iter().map(|piece| longest_run(piece)).max().unwrap_or(0),
            pick_ups: set.map(|set| (pick_ups(set).to_u64(), fewest_pick_ups(set).to_u64())),
            alike: alike(&hanging),
        }
    }
}

fn longest_run(piece: &Piece) -> u64 {
    let runs = piece.knots().chunk_by(|one, other| one.working == other.working);
    runs.map(<[_]>::len).max().unwrap_or(0).to_u64()
}

fn alike(threads: &[&PatternThread]) -> Vec<(String, String, Eyes)> {
    // Of a thread that changes color, any color may lie beside any of the other thread's.
    let colors = |of: &PatternThread| -> Vec<Seen> {
        let further = of.shades.iter().skip(1).map(|shade| shade.color);
        std::iter::once(of.color).chain(further).map(Seen::by_all).collect()
    };
    let seen: Vec<Vec<Seen>> = threads.iter().map(|thread| colors(thread)).collect();
    let found = |one: &[Seen], other: &[Seen]| {
        let pairs = one.iter().flat_map(|one| other.iter().filter_map(move |other| look_alike(one, other)));
        pairs.min_by(|one, other| one.distance.total_cmp(&other.distance))
    };
    let mut alike = Vec::new();
    for (at, one) in threads.iter().enumerate() {
        for (other_at, other) in threads.iter().enumerate().skip(at + 1) {
            if let Some(found) = found(&seen[at], &seen[other_at]) {
                alike.push((one.name.to_string(), other.name.to_string(), found.eyes));
            }
        }
    }
    alike
}
