//! How the strands hang: their order at any knot, replayed from checkpoints, and lists of them as a pattern writes
//! them.

use crate::Checked;
use knotwright_band::{Knot, ThreadWalk};
use knotwright_checker::{Part, PartKind, Pattern};
use knotwright_numbers::ToNumber;
use std::fmt::Write;

/// How many knots are between two checkpoints.
const EVERY: usize = 512;

/// The orders of one part at every [`EVERY`]th knot.
#[derive(Debug)]
pub(crate) struct Orders {
    checkpoints: Vec<Vec<u8>>,
}

impl Orders {
    /// Goes once over the knots.
    pub(crate) fn of(part: &Part) -> Self {
        let mut order: Vec<u8> = (0..=u8::MAX).take(part.piece.strands()).collect();
        let mut checkpoints = Vec::with_capacity(part.piece.knots().len() / EVERY + 1);
        for chunk in part.piece.knots().chunks(EVERY) {
            checkpoints.push(order.clone());
            chunk.iter().for_each(|knot| follow(&mut order, knot));
        }
        checkpoints.push(order);
        Self { checkpoints }
    }

    /// By position, which strand hangs there before that knot.
    pub(crate) fn before(&self, part: &Part, knot: u32) -> Vec<u8> {
        let at = knot.to_usize().min(part.piece.knots().len());
        let checkpoint = (at / EVERY).min(self.checkpoints.len() - 1);
        let mut order = self.checkpoints[checkpoint].clone();
        part.piece.knots()[checkpoint * EVERY..at].iter().for_each(|knot| follow(&mut order, knot));
        order
    }
}

/// Ties one knot. Where an `expect` hung the strands differently, the knot itself says which two hang there.
pub(crate) fn follow(order: &mut [u8], knot: &Knot) {
    let gap = usize::from(knot.gap);
    if gap + 1 >= order.len() {
        return;
    }
    let (left, right) = sides(knot);
    for (at, strand) in [(gap, left), (gap + 1, right)] {
        if order[at] != strand
            && let Some(found) = order.iter().position(|&other| other == strand)
        {
            order.swap(at, found);
        }
    }
    if knot.kind.swaps() {
        order.swap(gap, gap + 1);
    }
}

/// The strands at a knot before it is tied, the left one first.
pub(crate) fn sides(knot: &Knot) -> (u8, u8) {
    if knot.kind.left_works() { (knot.working, knot.base) } else { (knot.base, knot.working) }
}

impl Checked {
    /// By strand of a part (named by its position as the part begins), its thread.
    pub(crate) fn threads(&self, which: PartKind) -> Vec<u16> {
        self.pattern().map(|pattern| pattern.threads_before(which)).unwrap_or_default()
    }
}

impl Checked {
    /// By strand of a part, its thread before a knot of it: joined strands may go on with another thread.
    pub(crate) fn threads_at(&self, which: PartKind, part: &Part, knot: u32) -> Vec<u16> {
        let begun = self.threads(which);
        if !part.piece.changes_threads() {
            return begun;
        }
        let mut walk = ThreadWalk::new(&part.piece, &begun);
        walk.go_to(knot);
        (0..=u8::MAX).take(begun.len()).map(|strand| walk.of(strand)).collect()
    }
}

/// The name of a thread.
pub(crate) fn thread_name(pattern: &Pattern, thread: u16) -> &str {
    pattern.threads.get(usize::from(thread)).map_or("an unknown thread", |thread| thread.name.as_str())
}

/// Strands by thread as a list of the notation, in its shortest form: `2 kelp foam | mirror`.
pub(crate) fn list(names: &[&str]) -> String {
    let count = names.len();
    let half = &names[..count / 2];
    let mirrors = count > 2 && half.iter().eq(names[count - count / 2..].iter().rev());
    match (mirrors, count % 2) {
        (true, 0) => format!("{} | mirror", items(half)),
        (true, _) => format!("{} | {} | mirror", items(half), names[count / 2]),
        _ => items(names),
    }
}

/// Strands by thread as a list, cut short for the margin of a line.
pub(crate) fn short_list(names: &[&str], most: usize) -> String {
    let whole = list(names);
    if whole.chars().count() <= most {
        return whole;
    }
    let kept: String = whole.chars().take(most).collect();
    let end = kept.rfind(' ').unwrap_or(kept.len());
    format!("{} …", &kept[..end])
}

fn items(names: &[&str]) -> String {
    let mut text = String::new();
    for run in names.chunk_by(|one, other| one == other) {
        if !text.is_empty() {
            text.push(' ');
        }
        // A String takes whatever is written.
        let _ = match run.len() {
            1 => write!(text, "{}", run[0]),
            count => write!(text, "{count} {}", run[0]),
        };
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use knotwright_band::{Kind, Piece};

    #[test]
    fn lists_take_their_shortest_form() {
        assert_eq!(list(&["a", "a", "b"]), "2 a b");
        assert_eq!(list(&["a", "b", "b", "a"]), "a b | mirror");
        assert_eq!(list(&["a", "b", "c", "b", "a"]), "a b | c | mirror");
        assert_eq!(list(&["a", "a"]), "2 a");
        assert_eq!(list(&[]), "");
        assert_eq!(short_list(&["kelp", "foam", "sand", "tar"], 11), "kelp foam …");
    }

    #[test]
    fn any_knot_s_order_is_the_one_tied_up_to_it() {
        let gaps = [0, 2, 4, 1, 3].into_iter().cycle();
        let kinds = [Kind::Forward, Kind::Backward, Kind::ForwardBackward].into_iter().cycle();
        let steps: Vec<(u8, Kind)> = gaps.zip(kinds).take(9000).collect();
        let whole = Piece::tie(6, steps.iter().copied()).unwrap();
        let part = Part { piece: whole, ..Part::default() };
        let orders = Orders::of(&part);
        for at in [0, 1, 511, 512, 513, 8999, 9000] {
            let upto = Piece::tie(6, steps[..at.to_usize()].iter().copied()).unwrap();
            assert_eq!(orders.before(&part, at), upto.order(), "before knot {at}");
        }
    }
}
