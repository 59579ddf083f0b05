//! Bands for the tests.

#![allow(dead_code, reason = "every test file takes what it needs")]

use knotwright_band::{Kind, Piece};
use knotwright_numbers::ToNumber;
use knotwright_render::{
    Band, BandPart, BandThread, Event, KnotSize, Named, Passage, Step, StrandStart, TyingScript,
};

pub(crate) fn threads(list: &[(&str, &str)]) -> Vec<BandThread> {
    list.iter()
        .map(|(name, color)| BandThread {
            name: (*name).into(),
            color: color.parse().unwrap(),
            shades: Vec::new(),
        })
        .collect()
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
        beads: Vec::new(),
        strands: vec![0; set.strands()],
        gauge: KnotSize::default(),
        start: StrandStart::Loose,
        made: Default::default(),
        taken: None,
        parts: vec![BandPart { piece: set, steps: &[], wish: None, beads: Vec::new(), set: 0 }; sets],
    }
}

/// One diagonal of forward knots.
pub(crate) fn diagonal(strands: usize) -> Piece {
    Piece::tie(strands, (0..strands.to_u8() - 1).map(|gap| (gap, Kind::Forward))).unwrap()
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

/// A script that ties a set so often, in a step for every row of a leader, or else in one step.
pub(crate) fn script(set: &Piece, times: u64, threads: Vec<BandThread>, strands: Vec<u16>) -> TyingScript {
    TyingScript {
        title: "A band".into(),
        about: Vec::new(),
        authors: Vec::new(),
        license: None,
        threads,
        beads: Vec::new(),
        strands,
        gauge: KnotSize::default(),
        start: StrandStart::Loose,
        made: Default::default(),
        taken: None,
        unit: Default::default(),
        opening: None,
        run_in: Vec::new(),
        period: vec![passage(set)],
        times,
        closing: None,
        materials: None,
    }
}

pub(crate) fn passage(piece: &Piece) -> Passage {
    let straight = piece.straight();
    let all = 0..piece.knots().len().to_u32();
    let (ranges, named) = match straight {
        [] => (vec![all], Named::Row),
        _ => (straight.to_vec(), Named::Leader),
    };
    let within = (0, piece.strands().saturating_sub(1).to_u8());
    let step = |range: &std::ops::Range<u32>| Step {
        within,
        from: piece.knots().get(range.start.to_usize()).map_or(0, |knot| knot.gap),
        named,
    };
    Passage {
        piece: piece.clone(),
        steps: ranges.iter().map(step).collect(),
        events: (0..ranges.len().to_u32()).map(Event::Step).collect(),
        ranges,
        wish: None,
    }
}

/// As many strands as the set has, of one thread.
pub(crate) fn plain_script(set: &Piece, times: u64) -> TyingScript {
    script(set, times, threads(&[("reed", "#4a7c59")]), vec![0; set.strands()])
}

/// Three strands of three colors.
pub(crate) fn reeds_script(set: &Piece, times: u64) -> TyingScript {
    let list = [("reed", "#4a7c59"), ("sand", "#f4f1e8"), ("dusk", "#2c4a6e")];
    script(set, times, threads(&list), vec![0, 1, 2])
}
