//! Who ties a knot between two strands of one color, so that no strand uses more thread than it must.
//!
//! Such a knot may be tied by either. If the other works, the kind is the mirrored one (forward becomes backward): the
//! two still change places, or still do not. So after the exchange every strand hangs where it hung after every knot,
//! every knot lies in its row and gap between the same two strands, and every color seen is the same. What changes is
//! who works, so the slant of that knot, how much thread the two use, and maybe how often strands are picked up.

mod free;
mod keeping;
mod shares;

use crate::Piece;
use crate::orders::find_cycles;
use crate::plan::fewest_pick_ups;
use free::{Free, alike_in_every_set};
use shares::Shares;

/// A piece in which some knots are tied by the other of their two strands.
#[derive(Debug, Clone, PartialEq)]
pub struct BalancedPiece {
    /// The piece.
    pub piece: Piece,
    /// The knots that changed, ascending.
    pub turned: Vec<u32>,
    /// The largest mean use in a round before.
    pub before: f64,
    /// The largest mean use in a round after.
    pub after: f64,
    /// Whether nothing less is possible, whatever is turned. Always so if pick-ups did not matter.
    pub least: bool,
}

/// What strands use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lengths<'a> {
    /// By position, what the strand there uses as the set is tied now, and may be elsewhere.
    pub used: &'a [f64],
    /// How much more a strand uses in a knot when it works than when it is the base; above zero.
    pub extra: f64,
}

/// Balances a set that is tied over and over: what counts is the mean use in a round, as in the long run all strands
/// of a round use as much. A knot may be turned if its two strands are of one color in every set. `colors`: by
/// position as the first set begins; `lengths.used`: by position, in one set.
///
/// The result is the least possible largest use. With `keep_pick_ups`, only knots are turned that leave the fewest
/// pick-ups as they were; then the result is what single exchanges lead to, and may not be the least under that
/// condition (`least` says whether it is nevertheless the least of all). Lengths or colors that are missing or not
/// finite count as 0, an `extra` that is not above zero changes nothing.
pub fn balance_set(set: &Piece, colors: &[u16], lengths: Lengths<'_>, keep_pick_ups: bool) -> BalancedPiece {
    let rounds = find_cycles(set.order());
    let free = Free::new(set, &rounds, alike_in_every_set(&rounds, colors));
    let shares = Shares::new(&rounds, lengths);
    let (now, before) = (free.counts(), shares.largest());
    let (mut leveled, mut counts) = (shares.clone(), now.clone());
    leveled.level(&mut counts);
    let after = leveled.largest();
    let turned = free.turned(&now, &counts);
    let exact = set.turned(&turned);
    let limit = fewest_pick_ups(set);
    if !keep_pick_ups || fewest_pick_ups(&exact) <= limit {
        return BalancedPiece { piece: exact, turned, before, after, least: true };
    }
    let keeps = |turned: &[u32]| fewest_pick_ups(&set.turned(turned)) <= limit;
    let (turned, kept) = keeping::turn_chains(&free, shares, set.knots().len(), keeps);
    BalancedPiece { piece: set.turned(&turned), turned, before, after: kept, least: kept <= after }
}
