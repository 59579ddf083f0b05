//! How much thread the samples take, against strands that are drawn through space and measured chord by chord.
//!
//! Nothing of the formulas is used here: rows and columns lie where knots of thread of thickness 1 touch, a strand that ties
//! winds twice around its base and climbs over itself once in each turn, and a strand that is tied over goes straight on.

mod samples;

use knotwright_band::{Kind, Layout, Piece, Rows, orders::one_then};
use knotwright_checker::Extent;
use knotwright_maker::{MeasureOptions, Measured};
use knotwright_numbers::ToNumber;
use samples::samples;
use std::f64::consts::TAU;

type Point = [f64; 3];

/// What a strand meets on its way: a place, and whether it ties there.
struct Stop {
    at: Point,
    /// Where the base of the knot runs.
    along: Point,
    ties: bool,
}

/// By strand, where it is tied. Thread is 1 thick: bricks lie 1.5 apart in rows 2 high, a leader's knots 2.5 apart in rows
/// 2.4 high. Rows are as high as what lies in them, columns as wide as rows ask on average.
fn ways(pieces: &[Piece]) -> (Vec<Vec<Stop>>, f64) {
    let strands = pieces[0].strands();
    let mut rows = Rows::new(strands);
    let (mut placed, mut tied, mut straight) = (Vec::new(), Vec::new(), Vec::new());
    let is_of = |range: &std::ops::Range<u32>, knot: usize| range.contains(&(knot.to_u32()));
    let mut order: Vec<u8> = (0..strands.to_u8()).collect();
    for piece in pieces {
        let lies = rows.lay(piece);
        straight.extend(piece.straight().iter().map(|range| lies[range.start.to_usize()]));
        for (number, (knot, row)) in piece.knots().iter().zip(&lies).enumerate() {
            let is_straight = piece.straight().iter().any(|range| is_of(range, number));
            placed.push((*row, knot.gap, along(knot.kind, is_straight)));
            let of = |strand: u8| usize::from(order[usize::from(strand)]);
            tied.push((of(knot.working), of(knot.base)));
        }
        order = one_then(&order, piece.order());
    }
    let height = rows.height().to_usize();
    let is_straight: Vec<bool> = (0..height.to_u32()).map(|row| straight.contains(&row)).collect();
    let share = is_straight.iter().filter(|is| **is).count().to_f64() / height.to_f64();
    let mut below = vec![0.0];
    is_straight.iter().for_each(|is| below.push(below.last().unwrap() + if *is { 2.4 } else { 2.0 }));
    let mut ways: Vec<Vec<Stop>> = (0..strands).map(|_| Vec::new()).collect();
    for ((row, gap, along), (working, base)) in placed.into_iter().zip(tied) {
        let at = [(1.5 + share) * f64::from(gap), below[row.to_usize()], 0.0];
        ways[working].push(Stop { at, along, ties: true });
        ways[base].push(Stop { at, along, ties: false });
    }
    (ways, below[height])
}

/// The base of a brick that changes places runs across the strand that ties; one that stays, and those of a leader's row,
/// hang straight down.
fn along(kind: Kind, is_straight: bool) -> Point {
    match kind {
        Kind::Forward if !is_straight => [-0.6, 0.8, 0.0],
        Kind::Backward if !is_straight => [0.6, 0.8, 0.0],
        _ => [0.0, 1.0, 0.0],
    }
}

/// The two half hitches of a knot around a base that runs along `along`: turn by turn, at the thickness of a thread from
/// it, the next one beside the last; halfway through each the strand crosses itself, and both give way by half a thickness.
/// It comes from the front and leaves to the front.
fn hitches(at: Point, along: Point) -> Vec<Point> {
    let side = [-along[1], along[0], 0.0];
    let point = |step: usize| {
        let turn = step.to_f64() / 100.0;
        let from_crossing = (turn.fract() - 0.5).abs();
        let climb = if from_crossing < 1.0 / 6.0 {
            0.5 * (from_crossing * 3.0 * TAU / 2.0).cos().powi(2)
        } else {
            0.0
        };
        let (out, angle, on) = (1.0 + climb, (turn + 0.25) * TAU, turn - 1.0);
        let across = |axis: usize| at[axis] + on * along[axis] + out * angle.cos() * side[axis];
        [across(0), across(1), out * angle.sin()]
    };
    (0..=200).map(point).collect()
}

fn distance(one: Point, other: Point) -> f64 {
    one.iter().zip(other).map(|(one, other)| (other - one).powi(2)).sum::<f64>().sqrt()
}

/// The length of a strand from the first row to the last.
fn length(way: &[Stop], height: f64) -> f64 {
    let mut path: Vec<Point> = Vec::new();
    if let Some(first) = way.first() {
        path.push([first.at[0], 0.0, 0.0]);
    }
    for stop in way {
        match stop.ties {
            true => path.extend(hitches(stop.at, stop.along)),
            false => path.push(stop.at),
        }
    }
    let across: f64 = path.windows(2).map(|pair| distance(pair[0], pair[1])).sum();
    let after = way.last().map_or(height, |last| height - last.at[1]);
    across + after
}

/// By strand, how far it runs through beads, in millimeters: followed knot by knot.
fn through_beads(measured: &Measured) -> Vec<f64> {
    let pattern = measured.pattern;
    let mut order: Vec<usize> = (0..pattern.strands.len()).collect();
    let mut through = vec![0.0; order.len()];
    let sets = (0..measured.sets).filter_map(|number| measured.whole.set_part(pattern, number));
    for part in pattern.opening.iter().chain(sets).chain(&pattern.closing) {
        for tied in 0..=part.piece.knots().len() {
            for bead in part.beads().filter(|bead| bead.before.to_usize() == tied) {
                let first = usize::from(bead.position);
                for strand in &order[first..first + usize::from(bead.strands)] {
                    through[*strand] += pattern.beads[usize::from(bead.bead)].across;
                }
            }
            if let Some(knot) = part.piece.knots().get(tied).filter(|knot| knot.kind.swaps()) {
                order.swap(usize::from(knot.gap), usize::from(knot.gap) + 1);
            }
        }
    }
    through
}

/// Opening, sets and closing, one after another.
fn pieces(measured: &Measured) -> Vec<Piece> {
    let sets = (0..measured.sets).map(|number| measured.whole.sets.set(number).clone());
    std::iter::once(measured.whole.opening.clone())
        .chain(sets.filter(|_| measured.pattern.set.is_some()))
        .chain(std::iter::once(measured.whole.closing.clone()))
        .collect()
}

#[test]
fn every_sample_takes_what_its_strands_measure_along_their_path() {
    let samples = samples();
    assert!(samples.len() > 15);
    let (mut leaders, mut wrong) = (0, Vec::new());
    for pattern in &samples {
        // Without a swatch that a sample may have: what is measured here is the model.
        let wish = MeasureOptions {
            extent: Some(Extent::Sets(6)),
            thickness: Some(0.9),
            ..MeasureOptions::default()
        };
        let measured = Measured::new(pattern, wish).unwrap();
        let (ways, height) = ways(&pieces(&measured));
        let e = measured.figures.tight;
        let off = |found: f64, wanted: f64| (found / wanted - 1.0).abs();
        assert!(off(measured.length(), height * e) < 0.01, "{}: {height}", pattern.title.text);
        leaders += usize::from(measured.figures.width > 1.6 * e);
        let through = through_beads(&measured);
        let mut sums = (0.0, 0.0);
        for (strand, (way, length_of)) in ways.iter().zip(&measured.lengths).enumerate() {
            let (found, wanted) =
                (length_of.likely - measured.held.of_each, length(way, height) * e + through[strand]);
            wrong.extend(
                (off(found, wanted) >= 0.20)
                    .then(|| format!("{}, strand {strand}: {found} for {wanted}", pattern.title.text)),
            );
            sums = (sums.0 + found, sums.1 + wanted);
        }
        wrong.extend((off(sums.0, sums.1) >= 0.15).then(|| format!("{}: {sums:?}", pattern.title.text)));
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(leaders > 0, "some band has a leader");
}

/// The path itself: two turns at a distance of 1 and a pitch of 1, climbing once a turn.
#[test]
fn a_knot_is_two_turns_that_climb_over_themselves() {
    let turns = hitches([0.0; 3], [0.0, 1.0, 0.0]);
    let length: f64 = turns.windows(2).map(|pair| distance(pair[0], pair[1])).sum();
    let plain = 2.0 * TAU.hypot(1.0);
    assert!(plain < length && length < plain + 4.0, "{length}");
    let piece = Piece::tie(2, [(0, Kind::Forward)]).unwrap();
    assert_eq!(Layout::of(&piece).height, 1);
}
