//! What to cut, thread by thread: for where there is little room.

use super::{Measured, first_strand};
use crate::lengths::LengthUnit;
use knotwright_band::thread::Cut;

/// What to cut of one thread.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ThreadCut {
    /// Its number.
    pub thread: u16,
    /// How many pieces, and how long each: `4 of 88 to 95 cm`.
    pub pieces: String,
    /// All of them together: `3.7 m`.
    pub in_all: String,
}

/// What to cut of each thread that hangs in the band.
pub(super) fn by_thread(measured: &Measured, unit: LengthUnit) -> Vec<ThreadCut> {
    let of = |(thread, _, count, length)| {
        let is_of =
            |cut: &&Cut| measured.pattern.strands.get(usize::from(first_strand(**cut))) == Some(&thread);
        let own = || measured.own.iter().filter(|own| own.thread == thread).map(|own| own.length);
        let joined = || measured.joined.iter().filter(|piece| piece.thread == thread).map(|piece| piece.cut);
        let first = || measured.pieces.iter().filter(is_of).map(|cut| cut.length());
        let lengths = || first().chain(joined()).chain(own());
        let (least, most) = (lengths().fold(f64::INFINITY, f64::min), lengths().fold(0.0, f64::max));
        ThreadCut {
            thread,
            pieces: format!("{count} of {}", unit.cut_between(least, most)),
            in_all: unit.bought(length),
        }
    };
    measured.by_color().into_iter().map(of).collect()
}
