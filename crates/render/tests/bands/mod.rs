//! Bands for the tests.

#![allow(dead_code, reason = "every test file takes what it needs")]

use knotwright_band::{Kind, Piece};
use knotwright_render::{Band, Gauge, Part, Start, Thread};

pub(crate) fn threads(list: &[(&str, &str)]) -> Vec<Thread> {
    list.iter().map(|(name, color)| Thread { name: (*name).into(), color: color.parse().unwrap() }).collect()
}

/// Three strands of three colors; the set is tied so often.
pub(crate) fn reeds(set: &Piece, sets: usize) -> Band<'_> {
    let list = [("reed", "#4a7c59"), ("sand", "#f4f1e8"), ("dusk", "#2c4a6e")];
    Band { threads: threads(&list), strands: vec![0, 1, 2], ..band(set, sets) }
}

/// As many strands as the set has, of one thread.
pub(crate) fn band(set: &Piece, sets: usize) -> Band<'_> {
    Band {
        title: "A band".into(),
        threads: threads(&[("reed", "#4a7c59")]),
        strands: vec![0; set.strands()],
        gauge: Gauge::default(),
        start: Start::Loose,
        parts: vec![Part { piece: set, steps: &[] }; sets],
    }
}

/// One diagonal of forward knots.
pub(crate) fn diagonal(strands: usize) -> Piece {
    Piece::tie(strands, (0..strands as u8 - 1).map(|gap| (gap, Kind::Forward))).unwrap()
}

/// Two brick rows with all four kinds.
pub(crate) fn of_all_kinds() -> Piece {
    use Kind::{Backward, BackwardForward, Forward, ForwardBackward};
    Piece::tie(5, [(0, Forward), (2, ForwardBackward), (1, BackwardForward), (3, Backward)]).unwrap()
}

/// A leader goes across four strands and back: it shows, is covered, shows.
pub(crate) fn led() -> Piece {
    use Kind::{Backward, Forward};
    let steps = [(0, Forward), (1, Backward), (2, Forward), (2, Backward), (1, Forward), (0, Backward)];
    Piece::tie(4, steps).unwrap().with_straight(vec![0..3, 3..6]).unwrap()
}
