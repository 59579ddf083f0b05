//! Where to stop within a set, so that the band comes nearer to its length than whole sets bring it.

use crate::whole_band::Growing;
use knotwright_band::thread::Figures;
use knotwright_band::{Knot, Piece, ThreadWalk};
use knotwright_checker::Part;
use knotwright_numbers::ToNumber;

/// A place within a set where the band is nearer to the length that is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Stop {
    /// Sets that are tied whole before.
    pub sets: u64,
    /// Steps of the next set that are tied.
    pub steps: usize,
    /// How many steps that set has.
    pub of: usize,
    /// How long the band is then, in millimeters.
    pub length: f64,
    /// By position, the threads that hang there then.
    pub threads: Vec<u16>,
}

/// Larger sets are not looked into.
const MOST_KNOTS: usize = 20_000;

/// The step of the last set after which the band is nearest to `wanted` millimeters, if that is nearer than `whole`
/// sets by a row or more. If some such step leaves the colors the same from both edges, as a set begins with them, it is
/// one of those. Nothing if a closing follows: it is tied after whole sets.
pub(super) fn find_stop(growing: &Growing, whole: u64, figures: Figures, wanted: f64) -> Option<Stop> {
    let pattern = growing.pattern();
    let wanted_rows = wanted / figures.pitch;
    let rows = growing.rows(whole).to_f64();
    let sets = if rows > wanted_rows { whole.checked_sub(1)? } else { whole };
    let part = growing.set_part(sets).filter(|_| pattern.closing.is_none() && growing.is_known())?;
    if part.piece.knots().len() > MOST_KNOTS || part.steps.len() < 2 {
        return None;
    }
    let looks = looks(part, &growing.threads_after(sets));
    let rows_after = |steps: usize| {
        first_steps(part, steps).map_or(f64::INFINITY, |piece| growing.rows_with(sets, &piece).to_f64())
    };
    let off = |rows: f64| (rows - wanted_rows).abs();
    let near = |steps: &usize| off(rows_after(*steps)) + 1.0 <= off(rows);
    // Rows grow with the steps, so that those near enough lie side by side.
    let all: Vec<usize> = (1..part.steps.len()).collect();
    let least = all.partition_point(|steps| rows_after(*steps) < wanted_rows - off(rows));
    let candidates: Vec<usize> = all
        .get(least..)?
        .iter()
        .copied()
        .take_while(|steps| rows_after(*steps) <= wanted_rows + off(rows))
        .collect();
    let candidates: Vec<usize> = candidates.into_iter().filter(near).collect();
    let is_even = |threads: &[u16]| threads.iter().eq(threads.iter().rev());
    let even: Vec<usize> = candidates.iter().copied().filter(|steps| is_even(&looks[*steps])).collect();
    let among = if is_even(&looks[0]) && !even.is_empty() { even } else { candidates };
    let steps = among.into_iter().min_by(|a, b| off(rows_after(*a)).total_cmp(&off(rows_after(*b))))?;
    let length = rows_after(steps) * figures.pitch;
    Some(Stop { sets, steps, of: part.steps.len(), length, threads: looks[steps].clone() })
}

/// By number of steps tied, the threads as they hang.
fn looks(part: &Part, begins: &[u16]) -> Vec<Vec<u16>> {
    let mut walk = ThreadWalk::new(&part.piece, begins);
    let mut order: Vec<u8> = (0..part.piece.strands().to_u8()).collect();
    let mut looks = vec![begins.to_vec()];
    for step in &part.steps {
        for knot in knots(part, step.knots.start, step.knots.end).iter().filter(|knot| knot.kind.swaps()) {
            let gap = usize::from(knot.gap);
            if gap + 1 < order.len() {
                order.swap(gap, gap + 1);
            }
        }
        walk.go_to(step.knots.end);
        looks.push(order.iter().map(|&strand| walk.of(strand)).collect());
    }
    looks
}

fn knots(part: &Part, start: u32, end: u32) -> &[Knot] {
    part.piece.knots().get(start.to_usize()..end.to_usize()).unwrap_or_default()
}

/// The part as far as its first steps go.
fn first_steps(part: &Part, steps: usize) -> Option<Piece> {
    let end = part.steps.get(steps.checked_sub(1)?)?.knots.end;
    let tied = knots(part, 0, end).iter().map(|knot| (knot.gap, knot.kind));
    let straight = part.piece.straight().iter().filter(|range| range.end <= end).cloned().collect();
    Piece::tie(part.piece.strands(), tied).ok()?.with_straight(straight).ok()
}
