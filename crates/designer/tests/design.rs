//! Answers against planted bands, and against a search that knows nothing of clauses or tables.

use knotwright_band::{Kind, KnotChart, Piece};
use knotwright_designer::{
    DesignEnd, DesignStart, DesignTask, DesignWatch, Designed, WishedFace, design_band,
};
use proptest::prelude::*;
use std::collections::BTreeMap;

fn answer(task: &DesignTask) -> (DesignEnd, Vec<Designed>) {
    let mut shown = Vec::new();
    let mut better = |designed: &Designed| shown.push(designed.clone());
    let end = design_band(task, &mut DesignWatch { stop: &|| false, better: &mut better }).unwrap();
    (end, shown)
}

/// The best answer; what it says of itself is looked up in the band that it ties.
fn best(task: &DesignTask) -> Designed {
    let (end, shown) = answer(task);
    let (DesignEnd::Tied(best) | DesignEnd::Cannot(Some(best))) = &end else { panic!("{end:?}") };
    assert!(best.is_least && best.is_fewest_given_up);
    assert_eq!(matches!(end, DesignEnd::Tied(_)), best.given_up.is_empty());
    let piece = best.piece(&task.face);
    let color = |strand: u8| best.start[usize::from(strand)];
    assert_eq!(task.face.differs(&piece, color).unwrap(), best.given_up, "it shows what it says");
    let turns = |knot: &&knotwright_band::Knot| !knot.kind.swaps() && color(knot.working) != color(knot.base);
    assert_eq!(piece.knots().iter().filter(turns).count(), best.turning);
    if task.closes {
        let after: Vec<u16> = piece.order().iter().map(|strand| color(*strand)).collect();
        assert_eq!(after, best.start, "it closes");
    }
    match &task.start {
        DesignStart::Free => {}
        DesignStart::Even => assert!(best.start.iter().eq(best.start.iter().rev())),
        DesignStart::Given(given) => assert_eq!(given, &best.start),
    }
    assert!(
        shown.windows(2).all(|pair| pair[1].cost() < pair[0].cost()),
        "each is better than the one before"
    );
    let mut last = shown.last().unwrap().clone();
    (last.is_least, last.is_fewest_given_up) = (true, true);
    assert_eq!(&last, best, "the last one shown is the answer");
    best.clone()
}

/// Fewest knots given up, then fewest turning knots: all orders that can be reached, knot by knot.
fn searched(task: &DesignTask, colors: u16) -> Option<(usize, usize)> {
    let strands = usize::from(task.face.strands());
    let all = (0..usize::from(colors).pow(u32::try_from(strands).unwrap())).map(|number| {
        let digit = |place: usize| {
            number / usize::from(colors).pow(u32::try_from(place).unwrap()) % usize::from(colors)
        };
        (0..strands).map(|place| u16::try_from(digit(place)).unwrap()).collect::<Vec<u16>>()
    });
    let starts: Vec<Vec<u16>> = match &task.start {
        DesignStart::Free => all.collect(),
        DesignStart::Even => all.filter(|start| start.iter().eq(start.iter().rev())).collect(),
        DesignStart::Given(given) => vec![given.clone()],
    };
    let of = |start: &Vec<u16>| {
        let mut reached = BTreeMap::from([(start.clone(), (0, 0))]);
        for knot in task.face.knots() {
            let gap = usize::from(knot.gap);
            let mut next: BTreeMap<Vec<u16>, (usize, usize)> = BTreeMap::new();
            for (hung, (given_up, turning)) in reached {
                let lacks = knot.color.is_some_and(|color| hung[gap] != color && hung[gap + 1] != color);
                let mut crossed = hung.clone();
                crossed.swap(gap, gap + 1);
                let turns = usize::from(crossed != hung);
                for (hung, turns) in [(crossed, 0), (hung, turns)] {
                    let cost = (given_up + usize::from(lacks), turning + turns);
                    let least = next.entry(hung).or_insert(cost);
                    *least = cost.min(*least);
                }
            }
            reached = next;
        }
        match task.closes {
            true => reached.get(start).copied(),
            false => reached.into_values().min(),
        }
    };
    starts.iter().filter_map(of).min()
}

/// Strands, colors, and rows of kinds, with a few knots left out.
fn planted(strands: std::ops::Range<usize>, colors: u16) -> impl Strategy<Value = (Piece, Vec<u16>)> {
    let kind = prop_oneof![
        8 => prop::sample::select(vec![Kind::Forward, Kind::Backward]).prop_map(Some),
        3 => prop::sample::select(vec![Kind::ForwardBackward, Kind::BackwardForward]).prop_map(Some),
        1 => Just(None),
    ];
    strands.prop_flat_map(move |strands| {
        let rows = prop::collection::vec(prop::collection::vec(kind.clone(), strands), 2..7);
        let start = prop::collection::vec(0..colors, strands);
        (rows, start).prop_map(move |(mut rows, start)| {
            for (number, row) in rows.iter_mut().enumerate() {
                row.truncate((strands - 1 - number % 2).div_ceil(2));
            }
            (KnotChart::from_rows(strands, false, &rows).unwrap().piece().unwrap(), start)
        })
    })
}

/// A face of noise: any mark anywhere.
fn noise(strands: std::ops::Range<usize>, colors: u16) -> impl Strategy<Value = WishedFace> {
    let mark = prop_oneof![8 => (0..colors).prop_map(|color| Some(Some(color))), 1 => Just(Some(None)), 1 => Just(None)];
    strands.prop_flat_map(move |strands| {
        let rows = prop::collection::vec(prop::collection::vec(mark.clone(), strands), 2..7);
        (rows, any::<bool>()).prop_filter_map("a face has a knot", move |(mut rows, is_offset)| {
            for (number, row) in rows.iter_mut().enumerate() {
                row.truncate((strands - 1 - (number + usize::from(is_offset)) % 2).div_ceil(2));
            }
            WishedFace::from_rows(strands, is_offset, &rows).ok()
        })
    })
}

fn starts(given: &[u16]) -> [DesignStart; 3] {
    [DesignStart::Free, DesignStart::Even, DesignStart::Given(given.to_vec())]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn a_planted_band_is_found_or_a_simpler_one((piece, start) in planted(3..12, 4)) {
        let color = |strand: u8| start[usize::from(strand)];
        let Ok(face) = WishedFace::of_piece(&piece, color) else { return Ok(()) };
        let turns = |knot: &&knotwright_band::Knot| !knot.kind.swaps() && color(knot.working) != color(knot.base);
        let own = piece.knots().iter().filter(turns).count();
        let closes = piece.order().iter().map(|strand| color(*strand)).eq(start.iter().copied());
        for begin in [DesignStart::Free, DesignStart::Given(start.clone())] {
            let designed = best(&DesignTask { face: face.clone(), start: begin, closes });
            prop_assert!(designed.given_up.is_empty());
            prop_assert!(designed.turning <= own, "{} turn, {own} were planted", designed.turning);
        }
    }

    #[test]
    fn three_colors_agree_with_a_search(face in noise(3..6, 3), given in prop::collection::vec(0_u16..3, 6), closes: bool) {
        for start in starts(&given[..usize::from(face.strands())]) {
            let task = DesignTask { face: face.clone(), start, closes };
            prop_assert_eq!(Some(best(&task).cost()), searched(&task, 3), "{:?}", task);
        }
    }

    #[test]
    fn two_colors_agree_with_a_search(face in noise(3..8, 2), given in prop::collection::vec(0_u16..2, 8), closes: bool) {
        for start in starts(&given[..usize::from(face.strands())]) {
            let task = DesignTask { face: face.clone(), start, closes };
            prop_assert_eq!(Some(best(&task).cost()), searched(&task, 2), "{:?}", task);
        }
    }

    #[test]
    fn strands_of_two_colors_in_turn_show_any_face_of_two_colors(face in noise(3..14, 2)) {
        let given = (0..u16::from(face.strands())).map(|place| place % 2).collect();
        let designed = best(&DesignTask { face, start: DesignStart::Given(given), closes: false });
        prop_assert!(designed.given_up.is_empty());
    }
}

/// The table and the clauses answer the same question: a third color that hangs at the edge, where it meets nobody, or is
/// wished nowhere, makes the one or the other be asked.
#[test]
fn table_and_clauses_agree_on_drawn_discs() {
    let is_in = |row: usize, gap: usize| (row.abs_diff(5).pow(2) + gap.abs_diff(4).pow(2)) < 14;
    let rows = |edge: bool| -> Vec<Vec<Option<Option<u16>>>> {
        (0..12)
            .map(|row| {
                let own = (row % 2..9).step_by(2).map(|gap| Some(Some(u16::from(is_in(row, gap)))));
                own.chain((edge && row % 2 == 1).then_some(None)).collect()
            })
            .collect()
    };
    let alternating: Vec<u16> = (0..10).map(|place| place % 2).collect();
    let with_edge: Vec<u16> = alternating.iter().copied().chain([2]).collect();
    for closes in [false, true] {
        let two = WishedFace::from_rows(10, false, &rows(false)).unwrap();
        let three = WishedFace::from_rows(11, false, &rows(true)).unwrap();
        let two = best(&DesignTask { face: two, start: DesignStart::Given(alternating.clone()), closes });
        let three = best(&DesignTask { face: three, start: DesignStart::Given(with_edge.clone()), closes });
        assert_eq!(two.turning, three.turning);
    }
}

#[test]
fn whoever_stops_gets_the_best_so_far_and_it_is_not_called_proved() {
    let is_in = |row: usize, gap: usize| (row % 14).abs_diff(6).pow(2) + gap.abs_diff(9).pow(2) < 30;
    let rows: Vec<Vec<_>> = (0..28)
        .map(|row| (row % 2..19).step_by(2).map(|gap| Some(Some(u16::from(is_in(row, gap))))).collect())
        .collect();
    let face = WishedFace::from_rows(20, false, &rows).unwrap();
    let shown = std::cell::Cell::new(0);
    let mut better = |_: &Designed| shown.set(shown.get() + 1);
    let stop = || shown.get() > 0;
    let task = DesignTask { face, start: DesignStart::Free, closes: true };
    let end = design_band(&task, &mut DesignWatch { stop: &stop, better: &mut better }).unwrap();
    let DesignEnd::Tied(designed) = end else { panic!("{end:?}") };
    assert!(!designed.is_least);
    assert_eq!(
        task.face.differs(&designed.piece(&task.face), |strand| designed.start[usize::from(strand)]),
        Some(vec![])
    );
}

#[test]
fn a_start_of_another_width_is_refused() {
    let face = WishedFace::from_rows(4, false, &[vec![Some(None); 2]]).unwrap();
    let task = DesignTask { face, start: DesignStart::Given(vec![0; 3]), closes: false };
    assert!(design_band(&task, &mut DesignWatch { stop: &|| false, better: &mut |_| () }).is_err());
}
