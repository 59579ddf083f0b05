//! Knots added, removed, changed and moved.
//!
//! What two bands have in common from the start and from the end is set aside, gap by gap, as most changes are small.
//! Between them a search finds the fewest knots to leave out ([`search`]); bands with little in common would cost it too
//! much, and get few edits in place of the fewest ([`rough`]). Then a knot gone and a knot new that lie between the same
//! knots that stay are one knot changed, or moved if they lie in other rows. Checked against trying every way on small
//! bands.

use super::by_gap::{ByGap, Pair};
use super::{rough, search};
use crate::{Kind, Knot, Piece};
use knotwright_numbers::ToNumber;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

/// How to make one band into another. Knots are given by their number in the piece they belong to; pairs are a knot
/// of the first and one of the other.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct KnotEdits {
    /// In the first only.
    pub removed: Vec<u32>,
    /// In the other only.
    pub added: Vec<u32>,
    /// At one place, but of another kind.
    pub changed: Vec<(u32, u32)>,
    /// At the same height, but one gap further to a side.
    pub moved: Vec<(u32, u32)>,
    /// In both.
    pub kept: Vec<(u32, u32)>,
    /// Whether no way has fewer removed and added knots (a changed or moved one counts as both). If the bands are too
    /// different to be sure, it is only few.
    pub fewest: bool,
}

impl KnotEdits {
    /// How many knots are removed or added; a changed or moved one is both.
    pub fn count(&self) -> usize {
        self.removed.len() + self.added.len() + 2 * (self.changed.len() + self.moved.len())
    }
}

/// The fewest knots to remove from one piece and to add to come to the other. `None` if they have different numbers of
/// strands. Colors do not matter.
pub fn find_edits(one: &Piece, other: &Piece) -> Option<KnotEdits> {
    if one.strands() != other.strands() {
        return None;
    }
    let (gone, fewest) = knots_left_out(one, other);
    let mut out = [vec![false; one.knots().len()], vec![false; other.knots().len()]];
    for (band, number) in gone {
        out[band][number.to_usize()] = true;
    }
    let (mut removed, mut added) = (places(one, &out[0]), places(other, &out[1]));
    let changed = pair_up(&mut removed, &mut added, [Beside::Both, Beside::Both], |same| !same);
    let mut moved = Vec::new();
    for same_kind in [true, false] {
        for ways in [[Beside::Right, Beside::Left], [Beside::Left, Beside::Right]] {
            moved.extend(pair_up(&mut removed, &mut added, ways, |same| same == same_kind));
        }
    }
    moved.sort_unstable();
    let numbers = |places: Vec<Place>| places.into_iter().map(|place| place.number).collect();
    let (removed, added) = (numbers(removed), numbers(added));
    Some(KnotEdits { removed, added, changed, moved, kept: kept(one, other, &out), fewest })
}

/// The knots to leave out of either, and whether they are the fewest possible.
fn knots_left_out(one: &Piece, other: &Piece) -> (Vec<search::SearchEdit>, bool) {
    let gaps = one.gaps();
    let forth = |piece: &Piece| ByGap::new(gaps, (0..).zip(piece.knots()));
    let back = |piece: &Piece| {
        let numbers = (0..piece.knots().len().to_u32()).rev();
        ByGap::new(gaps, numbers.map(|number| (number, &piece.knots()[number.to_usize()])))
    };
    let mut pair = Pair::new([forth(one), forth(other)]);
    let start = pair.common();
    let mut from_end = Pair::new([back(one), back(other)]);
    for (band, ends) in from_end.ends.iter_mut().enumerate() {
        let all = &pair.ends[band];
        *ends = all.iter().zip(&start).map(|(all, start)| all - start).collect();
    }
    let end = from_end.common();
    for ends in &mut pair.ends {
        ends.iter_mut().zip(&end).for_each(|(all, end)| *all -= end);
    }
    match search::fewest_edits(&pair, &start) {
        Some(edits) => (edits, true),
        None => (rough::few_edits(&pair, &start), false),
    }
}

/// The knots of both that stay: in each gap, one after another.
fn kept(one: &Piece, other: &Piece, out: &[Vec<bool>; 2]) -> Vec<(u32, u32)> {
    let mut of_other: Vec<Vec<u32>> = vec![Vec::new(); one.gaps()];
    let stays = |band: usize, number: &u32| !out[band][number.to_usize()];
    for number in (0..other.knots().len().to_u32()).rev().filter(|number| stays(1, number)) {
        of_other[usize::from(other.knots()[number.to_usize()].gap)].push(number);
    }
    let like =
        |number: u32| of_other[usize::from(one.knots()[number.to_usize()].gap)].pop().map(|n| (number, n));
    (0..one.knots().len().to_u32()).filter(|number| stays(0, number)).filter_map(like).collect()
}

/// Where a knot that is left out lies among those that stay.
struct Place {
    number: u32,
    gap: u8,
    kind: Kind,
    /// How many that stay come before it in the gap to the left, in its own and in the gap to the right.
    before: [u32; 3],
}

/// By which gaps places are compared.
#[derive(Clone, Copy)]
enum Beside {
    /// The knot's own and both next to it.
    Both,
    /// Its own and the one to the left.
    Left,
    /// Its own and the one to the right.
    Right,
}

impl Place {
    /// The leftmost gap compared by, and how many knots that stay come before in each.
    fn key(&self, beside: Beside) -> Option<(u8, [u32; 3])> {
        let [left, own, right] = self.before;
        match beside {
            Beside::Both => Some((self.gap, self.before)),
            Beside::Left => self.gap.checked_sub(1).map(|gap| (gap, [left, own, 0])),
            Beside::Right => Some((self.gap, [own, right, 0])),
        }
    }
}

/// Takes out pairs of a removed and an added knot at one place; `kinds` receives whether their kinds are the same.
fn pair_up(
    removed: &mut Vec<Place>,
    added: &mut Vec<Place>,
    beside: [Beside; 2],
    kinds: impl Fn(bool) -> bool,
) -> Vec<(u32, u32)> {
    let mut there: HashMap<_, Vec<(u32, Kind)>> = HashMap::default();
    for place in added.iter().rev() {
        place
            .key(beside[1])
            .into_iter()
            .for_each(|key| there.entry(key).or_default().push((place.number, place.kind)));
    }
    let mut pairs = Vec::new();
    removed.retain(|place| {
        let found = place.key(beside[0]).and_then(|key| {
            let at_key = there.get_mut(&key)?;
            let at = at_key.iter().rposition(|(_, kind)| kinds(*kind == place.kind))?;
            Some((place.number, at_key.remove(at).0))
        });
        pairs.extend(found);
        found.is_none()
    });
    let taken: HashSet<u32> = pairs.iter().map(|pair| pair.1).collect();
    added.retain(|place| !taken.contains(&place.number));
    pairs
}

fn places(piece: &Piece, out: &[bool]) -> Vec<Place> {
    let mut stay = vec![0_u32; piece.gaps() + 2];
    let mut places = Vec::new();
    for (number, Knot { gap, kind, .. }) in (0_u32..).zip(piece.knots()) {
        let at = usize::from(*gap);
        if out[number.to_usize()] {
            places.push(Place {
                number,
                gap: *gap,
                kind: *kind,
                before: [stay[at], stay[at + 1], stay[at + 2]],
            });
        } else {
            stay[at + 1] += 1;
        }
    }
    places
}
