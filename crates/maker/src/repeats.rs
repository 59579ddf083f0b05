//! Pieces of thread that changes color: its colors come round, and every piece begins, or is folded, where the first does.
//!
//! On a skein, the places where the first color begins are equally far apart. A piece begins at such a place, so the next
//! one can begin only at the next place that is behind it; what is between is waste, except behind the last piece.

use crate::measured::{Measured, first_strand};
use knotwright_band::thread::{Cut, PieceNeed, SkeinNeed, pack_skeins};
use knotwright_checker::PatternThread;
use knotwright_numbers::ToNumber;

/// Pieces of one length, and where they lie on a skein.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PlacedNeed {
    /// How long and how many.
    pub(crate) need: PieceNeed,
    /// Where they begin.
    pub(crate) at: PiecePlace,
}

/// Where a piece lies among the colors of its thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum PiecePlace {
    /// It begins where the first color does.
    FirstColor,
    /// Its middle is there.
    FoldedThere,
    /// Wherever: it goes around an end.
    Anywhere,
}

/// The pieces of a thread for one band.
pub(crate) fn pieces_of(measured: &Measured, thread: u16) -> Vec<PlacedNeed> {
    let is_its = |strand: u8| measured.pattern.strands.get(usize::from(strand)) == Some(&thread);
    let placed = |length: f64, count: u64, at| PlacedNeed { need: PieceNeed { length, count }, at };
    let cuts = measured.pieces.iter().filter(|cut| is_its(first_strand(**cut))).map(|cut| {
        let is_folded = matches!(cut, Cut::Folded { .. });
        let at = if is_folded { PiecePlace::FoldedThere } else { PiecePlace::FirstColor };
        placed(cut.length(), 1, at)
    });
    let joined = measured.joined.iter().filter(|piece| piece.thread == thread);
    let joined = joined.map(|piece| placed(piece.cut, 1, PiecePlace::FirstColor));
    let own = measured.own.iter().filter(|own| own.thread == thread);
    let own = own.map(|own| placed(own.length, u64::from(own.count), PiecePlace::Anywhere));
    cuts.chain(joined).chain(own).collect()
}

/// How far all colors of a thread go together, in millimeters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ColorRepeat(f64);

/// What a piece takes of a skein.
#[derive(Debug, Clone, Copy)]
struct Spaced {
    need: PieceNeed,
    /// From its beginning to that of the next piece, and how much of that is not needed behind the last one.
    slot: f64,
    spare: f64,
}

impl ColorRepeat {
    /// Nothing if the thread has one color.
    pub(crate) fn of(thread: &PatternThread) -> Option<Self> {
        let length: f64 = thread.shades.iter().map(|shade| shade.length).sum();
        (length > 0.0).then_some(Self(length))
    }

    pub(crate) fn length(self) -> f64 {
        self.0
    }

    /// How far it is to the first place where the colors begin again that is not before `length`.
    fn up(self, length: f64) -> f64 {
        // What is over by less than a thousandth of a millimeter is not.
        ((length - 1e-3) / self.0).ceil().max(1.0) * self.0
    }

    /// The pieces that lie somewhere. Folded ones reach to both sides of their place; if all are alike, they can stand
    /// nearer.
    fn spaced(self, pieces: &[PlacedNeed]) -> Vec<Spaced> {
        let mut placed = pieces.iter().filter(|of| of.at != PiecePlace::Anywhere);
        let first = placed.clone().next();
        let is_like = |of: &PlacedNeed| {
            first.is_some_and(|first| of.at == first.at && (of.need.length - first.need.length).abs() < 1e-3)
        };
        let are_alike = placed.clone().all(is_like);
        let spaced = |of: &PlacedNeed| {
            let (need, half) = (of.need, of.need.length / 2.0);
            let (slot, spare) = match of.at {
                PiecePlace::FoldedThere if are_alike => {
                    let slot = self.up(need.length);
                    (slot, slot - self.up(half) - half)
                }
                PiecePlace::FoldedThere => (2.0 * self.up(half), self.up(half) - half),
                PiecePlace::FirstColor | PiecePlace::Anywhere => {
                    (self.up(need.length), self.up(need.length) - need.length)
                }
            };
            Spaced { need, slot, spare }
        };
        placed.by_ref().map(spaced).collect()
    }

    /// How much thread is enough for all, cut one after another, from where the first color begins.
    pub(crate) fn needed(self, pieces: &[PlacedNeed]) -> f64 {
        let spaced = self.spaced(pieces);
        let slots: f64 = spaced.iter().map(|of| of.slot * of.need.count.to_f64()).sum();
        let spare = spaced.iter().map(|of| of.spare).fold(f64::NEG_INFINITY, f64::max);
        slots - if spare.is_finite() { spare } else { 0.0 } + length_of(&around(pieces))
    }

    /// How many pieces like one come from a skein that begins with the first color.
    pub(crate) fn in_skein(self, piece: PlacedNeed, skein: f64) -> u64 {
        let one = PlacedNeed { need: PieceNeed { count: 1, ..piece.need }, ..piece };
        let of = self.spaced(&[one]);
        of.first().map_or(0, |of| ((skein + of.spare + 1e-3) / of.slot).floor().max(0.0).to_u64())
    }

    /// From how many skeins they can be cut that begin with the first color.
    pub(crate) fn pack(self, pieces: &[PlacedNeed], skein: f64) -> SkeinNeed {
        let spaced = self.spaced(pieces);
        let (fitting, long): (Vec<Spaced>, Vec<Spaced>) =
            spaced.into_iter().partition(|of| of.slot - of.spare <= skein + 1e-3);
        let spares = || fitting.iter().map(|of| of.spare);
        let least = spares().fold(f64::INFINITY, f64::min);
        let most = spares().fold(f64::NEG_INFINITY, f64::max);
        let slots = |room: f64| {
            let slot = |of: &Spaced| PieceNeed { length: of.slot.min(room), ..of.need };
            pack_skeins(&fitting.iter().map(slot).collect::<Vec<_>>(), room)
        };
        let anywhere = around(pieces);
        let beside = pack_skeins(&anywhere, skein);
        let all: Vec<PieceNeed> = fitting.iter().map(|of| of.need).chain(anywhere).collect();
        let plain = pack_skeins(&all, skein);
        if fitting.is_empty() {
            return SkeinNeed { too_long: plain.too_long + count_of(&long), ..plain };
        }
        // Whichever piece is the last one on a skein, as much as the least spare one may hang over its end.
        let cut = slots(skein + least);
        let slot = fitting.first().map_or(0.0, |of| of.slot);
        let are_alike = fitting.iter().all(|of| (of.slot - slot).abs() < 1e-3) && most - least < 1e-3;
        let at_least = match are_alike {
            true => cut.skeins,
            // Where pieces are folded and not alike, they might stand nearer than they are counted.
            false if pieces.iter().any(|of| of.at == PiecePlace::FoldedThere) => 0,
            false => slots(skein + most).at_least,
        };
        SkeinNeed {
            skeins: cut.skeins + beside.skeins,
            at_least: at_least.max(plain.at_least),
            too_long: count_of(&long) + beside.too_long,
            used: plain.used,
        }
    }
}

fn around(pieces: &[PlacedNeed]) -> Vec<PieceNeed> {
    pieces.iter().filter(|of| of.at == PiecePlace::Anywhere).map(|of| of.need).collect()
}

/// How long all pieces are together, in millimeters.
pub(crate) fn length_of<'n>(needs: impl IntoIterator<Item = &'n PieceNeed>) -> f64 {
    needs.into_iter().map(|need| need.length * need.count.to_f64()).sum()
}

fn count_of(spaced: &[Spaced]) -> u64 {
    spaced.iter().map(|of| of.need.count).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn need(length: f64, count: u64, at: PiecePlace) -> PlacedNeed {
        PlacedNeed { need: PieceNeed { length, count }, at }
    }

    /// Cuts piece by piece, each as near as it goes.
    fn cut_by_hand(repeat: f64, length: f64, is_folded: bool, skein: f64) -> u64 {
        let before = if is_folded { length / 2.0 } else { 0.0 };
        let (mut end, mut cut) = (0.0, 0);
        loop {
            let mut place = 0.0;
            while place - before < end - 1e-6 {
                place += repeat;
            }
            end = place - before + length;
            if end > skein + 1e-6 {
                return cut;
            }
            cut += 1;
        }
    }

    #[test]
    fn a_skein_gives_as_many_pieces_as_can_be_cut_by_hand() {
        assert_eq!(cut_by_hand(1080.0, 800.0, false, 8000.0), 7);
        for (at, is_folded) in [(PiecePlace::FirstColor, false), (PiecePlace::FoldedThere, true)] {
            for repeat in [150.0, 720.0, 1080.0, 2500.0] {
                for length in [300.0, 800.0, 1080.0, 1300.0, 2160.0, 3950.0] {
                    let by_hand = cut_by_hand(repeat, length, is_folded, 8000.0);
                    let repeat = ColorRepeat(repeat);
                    let piece = need(length, 40, at);
                    assert_eq!(repeat.in_skein(piece, 8000.0), by_hand, "{repeat:?} {length} {at:?}");
                    let packed = repeat.pack(&[piece], 8000.0);
                    let skeins = if by_hand == 0 { 0 } else { 40_u64.div_ceil(by_hand) };
                    assert_eq!(
                        (packed.skeins, packed.at_least),
                        (skeins, skeins),
                        "{repeat:?} {length} {at:?}"
                    );
                    assert_eq!(packed.too_long, if by_hand == 0 { 40 } else { 0 });
                }
            }
        }
    }

    #[test]
    fn one_run_is_enough_for_all_pieces_and_no_longer() {
        let repeat = ColorRepeat(1080.0);
        let pieces = [need(800.0, 6, PiecePlace::FirstColor)];
        assert_eq!(repeat.needed(&pieces), 5.0 * 1080.0 + 800.0);
        let (enough, less) = (repeat.needed(&pieces), repeat.needed(&pieces) - 1.0);
        assert_eq!(
            (cut_by_hand(1080.0, 800.0, false, enough), cut_by_hand(1080.0, 800.0, false, less)),
            (6, 5)
        );
        let mixed = [need(800.0, 2, PiecePlace::FirstColor), need(200.0, 3, PiecePlace::Anywhere)];
        assert_eq!(repeat.needed(&mixed), 1080.0 + 800.0 + 600.0);
        let folded = [need(1300.0, 2, PiecePlace::FoldedThere)];
        assert_eq!(cut_by_hand(1080.0, 1300.0, true, repeat.needed(&folded)), 2);
    }

    #[test]
    fn pieces_of_several_lengths_come_from_enough_skeins() {
        let repeat = ColorRepeat(1000.0);
        let pieces = [need(2500.0, 3, PiecePlace::FirstColor), need(900.0, 3, PiecePlace::FirstColor)];
        let packed = repeat.pack(&pieces, 8000.0);
        // 3000 + 3000 + 900 and 3000 + 1000 + 900, or nearer; in one skein there is no room.
        assert_eq!((packed.skeins, packed.at_least), (2, 2));
        let around = repeat.pack(&[need(900.0, 1, PiecePlace::Anywhere)], 8000.0);
        assert_eq!((around.skeins, around.at_least), (1, 1));
    }
}
