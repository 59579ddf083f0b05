//! Skeins and times, against trying every way and figures that are known.

mod support;

use knotwright_band::pace::{FittedPace, Pace, TimedWork, TyingWork};
use knotwright_band::thread::{PieceNeed, pack_skeins};
use knotwright_band::{Kind, Piece, Sets, pick_ups};
use knotwright_numbers::ToNumber;
use proptest::prelude::*;
use support::*;

/// The least number of skeins, by trying every skein for every piece.
fn fewest(pieces: &[u32], skein: u32) -> usize {
    fn search(pieces: &[u32], left: &mut Vec<u32>, skein: u32, best: &mut usize) {
        if left.len() >= *best {
            return;
        }
        let Some((piece, rest)) = pieces.split_first() else { return *best = left.len() };
        for at in 0..left.len() {
            if left[at] >= *piece {
                left[at] -= piece;
                search(rest, left, skein, best);
                left[at] += piece;
            }
        }
        left.push(skein - piece);
        search(rest, left, skein, best);
        left.pop();
    }
    let mut best = pieces.len() + 1;
    search(pieces, &mut Vec::new(), skein, &mut best);
    best
}

/// First-fit-decreasing as it is defined, one piece after another.
fn one_by_one(pieces: &[u32], skein: u32) -> usize {
    let mut sorted = pieces.to_vec();
    sorted.sort_unstable_by(|one, other| other.cmp(one));
    let mut left: Vec<u32> = Vec::new();
    for piece in sorted {
        match left.iter_mut().find(|left| **left >= piece) {
            Some(left) => *left -= piece,
            None => left.push(skein - piece),
        }
    }
    left.len()
}

fn needs(pieces: &[u32]) -> Vec<PieceNeed> {
    let mut lengths = pieces.to_vec();
    lengths.sort_unstable();
    let alike = lengths.chunk_by(|one, other| one == other);
    alike.map(|of| PieceNeed { length: f64::from(of[0]), count: of.len().to_u64() }).collect()
}

proptest! {
    /// Source of the ratio: Dósa 2007, "The tight bound of first fit decreasing bin-packing algorithm is FFD(I) <= 11/9
    /// OPT(I) + 6/9".
    #[test]
    fn skeins_are_near_the_fewest(pieces in prop::collection::vec(1_u32..=20, 0..9), skein in 20_u32..40) {
        let packed = pack_skeins(&needs(&pieces), f64::from(skein));
        let (best, packed_skeins) = (fewest(&pieces, skein).to_u64(), packed.skeins);
        prop_assert_eq!(packed_skeins, one_by_one(&pieces, skein).to_u64());
        prop_assert!(packed.at_least <= best && best <= packed_skeins);
        prop_assert!(9 * packed_skeins <= 11 * best + 6, "{packed_skeins} for {best}");
        prop_assert_eq!((packed.too_long, packed.used), (0, f64::from(pieces.iter().sum::<u32>())));
    }

    #[test]
    fn skeins_that_are_cut_alike_are_counted_as_if_they_were_listed(
        pieces in prop::collection::vec((1_u32..=90, 1_usize..40), 1..7),
    ) {
        let all: Vec<u32> = pieces.iter().flat_map(|(length, count)| vec![*length; *count]).collect();
        prop_assert_eq!(pack_skeins(&needs(&all), 90.0).skeins, one_by_one(&all, 90).to_u64());
    }

    #[test]
    fn the_work_of_many_sets_is_that_of_each(set in any_piece(5, 0..12), times in 0_u64..9) {
        let sets = Sets::alike(set);
        let each = |of: fn(&Piece) -> usize| (0..times).map(|number| of(sets.set(number)).to_u64()).sum::<u64>();
        let work = TyingWork::of_sets(&sets, times);
        prop_assert_eq!(work.knots, each(|piece| piece.knots().len()));
        prop_assert_eq!(work.pick_ups, each(pick_ups));
        prop_assert_eq!(work.turning, each(|piece| piece.knots().iter().filter(|knot| !knot.kind.swaps()).count()));
    }

    /// Times of a maker whose figures are known, each off by up to a twentieth, give the figures back.
    #[test]
    fn a_makers_pace_is_found_again(
        knot in 3.0..12.0_f64,
        turning in 0.5..4.0_f64,
        pick_up in 1.0..8.0_f64,
        off in prop::collection::vec(-0.05..0.05_f64, 60),
    ) {
        let pace = Pace { knot, turning, pick_up };
        let work = |at: usize| {
            let at = at.to_u64();
            TyingWork { knots: 40 + 7 * (at % 11), turning: 5 * (at % 7), pick_ups: 4 + 9 * (at % 5) }
        };
        let timed: Vec<TimedWork> = (0..60).map(|at| TimedWork {
            work: work(at),
            seconds: pace.seconds(work(at)) * (1.0 + off[at]),
        }).collect();
        let fitted = FittedPace::of_times(&timed);
        prop_assert!((fitted.pace.knot / knot - 1.0).abs() < 0.08, "{:?} for {pace:?}", fitted.pace);
        let other = TyingWork { knots: 500, turning: 60, pick_ups: 90 };
        let (time, wanted) = (fitted.time(other), pace.seconds(other));
        prop_assert!((time.likely / wanted - 1.0).abs() < 0.03, "{time:?} for {wanted}");
        prop_assert!(time.low < wanted && wanted < time.high && time.high < 1.35 * time.low, "{time:?}");
    }
}

#[test]
fn a_piece_that_is_longer_than_a_skein_is_reported_and_not_bought() {
    let needs = [PieceNeed { length: 9000.0, count: 2 }, PieceNeed { length: 1000.0, count: 9 }];
    let packed = pack_skeins(&needs, 8000.0);
    assert_eq!((packed.skeins, packed.at_least, packed.too_long, packed.used), (2, 2, 2, 9000.0));
    assert_eq!(pack_skeins(&[], 8000.0).skeins, 0);
}

/// Four pieces of 2 m fill a skein of 8 m, and five of 1.5 m all of it but half a meter.
#[test]
fn a_million_bands_are_packed_at_once() {
    let needs =
        [PieceNeed { length: 2000.0, count: 6_000_000 }, PieceNeed { length: 1500.0, count: 6_000_000 }];
    let packed = pack_skeins(&needs, 8000.0);
    assert_eq!(packed.skeins, 1_500_000 + 1_200_000);
    assert_eq!(packed.at_least, 2_625_000);
}

#[test]
fn without_times_it_is_the_usual_pace_and_an_interval_of_half_as_much_again() {
    let piece = Piece::tie(3, [(0, Kind::Forward), (1, Kind::Forward), (0, Kind::ForwardBackward)]).unwrap();
    let work = TyingWork::of(&piece);
    assert_eq!(work, TyingWork { knots: 3, turning: 1, pick_ups: 2 });
    let time = FittedPace::of_times(&[]).time(work);
    assert_eq!((time.low, time.likely, time.high), (28.0 / 1.5, 28.0, 42.0));
    assert!(!FittedPace::of_knot(3.0).is_measured());
    assert_eq!(FittedPace::of_knot(3.0).time(work).likely, 14.0);
}

/// Times of one band alone cannot tell its knots from its pick-ups; what is known of that band is known all the same.
#[test]
fn times_that_are_alike_say_much_of_their_own_band_and_little_of_others() {
    let own = TyingWork { knots: 100, turning: 0, pick_ups: 10 };
    let timed = [1200.0, 1180.0, 1215.0, 1190.0].map(|seconds| TimedWork { work: own, seconds });
    let fitted = FittedPace::of_times(&timed);
    let off = |work: TyingWork| {
        let time = fitted.time(work);
        (time.high - time.low) / time.likely
    };
    assert!((fitted.time(own).likely - 1196.0).abs() < 40.0, "{:?}", fitted.time(own));
    assert!(off(own) < off(TyingWork { knots: 10, turning: 10, pick_ups: 10 }));
}
