//! The tie against a second, plainer one: steps are mirrored as steps, and every knot is a swap of neighbors.

use knotwright_checker::{NoLibrary, Settings, Source, check};
use proptest::prelude::*;
use std::fmt::Write;
use std::sync::Arc;

/// What a set is made of here.
#[derive(Debug, Clone)]
enum Op {
    /// From the left or the right, which strand; forward or not, turning or not, how many.
    Take {
        left: bool,
        place: usize,
        forward: bool,
        turning: bool,
        count: usize,
    },
    /// `take left N: forward A down to 1`
    Series {
        first: usize,
    },
    On(usize, usize, Vec<Op>),
    Both(Vec<Op>),
    Mirrored(Vec<Op>),
    Repeat(usize, Vec<Op>),
}

fn write(ops: &[Op], text: &mut String) {
    for op in ops {
        match op {
            Op::Take { left, place, forward, turning, count } => {
                let side = if *left { "left" } else { "right" };
                let kind = match (forward, turning) {
                    (true, false) => "forward",
                    (false, false) => "backward",
                    (true, true) => "forward-backward",
                    (false, true) => "backward-forward",
                };
                let _ = writeln!(text, "take {side} {place}: {kind} {count}");
            }
            Op::Series { first } => {
                let _ = writeln!(text, "take left 1: forward {first} down to 1");
            }
            Op::On(first, last, body) => block(&format!("on {first} to {last}"), body, text),
            Op::Both(body) => block("both", body, text),
            Op::Mirrored(body) => block("mirrored", body, text),
            Op::Repeat(times, body) => block(&format!("repeat {times}"), body, text),
        }
    }
}

fn block(head: &str, body: &[Op], text: &mut String) {
    let _ = writeln!(text, "{head} {{");
    write(body, text);
    text.push_str("}\n");
}

/// The image of a step among `width` strands.
fn mirror(op: &Op, width: usize) -> Op {
    let all = |body: &[Op], width| body.iter().map(|op| mirror(op, width)).collect();
    match op {
        Op::Take { left, place, forward, turning, count } => {
            Op::Take { left: !left, place: *place, forward: !forward, turning: *turning, count: *count }
        }
        // Written out: the image of a series is not one of these.
        Op::Series { first } => Op::Repeat(
            1,
            (1..=*first)
                .rev()
                .map(|count| Op::Take { left: false, place: 1, forward: false, turning: false, count })
                .collect(),
        ),
        Op::On(first, last, body) => Op::On(width + 1 - last, width + 1 - first, all(body, last + 1 - first)),
        Op::Both(body) => Op::Repeat(1, vec![Op::Mirrored(body.clone()), Op::Repeat(1, body.clone())]),
        Op::Mirrored(body) => Op::Repeat(1, body.clone()),
        Op::Repeat(times, body) => Op::Repeat(*times, all(body, width)),
    }
}

/// Ties steps; each knot is (left strand, right strand, does the left one work), as it was tied. `None` if one goes
/// past the edge.
fn tie(ops: &[Op], strands: &mut [usize], knots: &mut Vec<(usize, usize, bool)>) -> Option<()> {
    let width = strands.len();
    for op in ops {
        match op {
            Op::Take { left, place, forward, turning, count } => {
                let mut at = if *left { place - 1 } else { width - place };
                for _ in 0..*count {
                    let gap = if *forward { at } else { at.checked_sub(1)? };
                    if gap + 1 >= width {
                        return None;
                    }
                    knots.push((strands[gap], strands[gap + 1], *forward));
                    if !turning {
                        strands.swap(gap, gap + 1);
                        at = if *forward { gap + 1 } else { gap };
                    }
                }
            }
            Op::Series { first } => {
                for count in (1..=*first).rev() {
                    tie(
                        &[Op::Take { left: true, place: 1, forward: true, turning: false, count }],
                        strands,
                        knots,
                    )?;
                }
            }
            Op::On(first, last, body) => tie(body, &mut strands[first - 1..*last], knots)?,
            Op::Both(body) => {
                tie(body, strands, knots)?;
                tie(&[Op::Mirrored(body.clone())], strands, knots)?;
            }
            Op::Mirrored(body) => {
                let image: Vec<Op> = body.iter().map(|op| mirror(op, width)).collect();
                tie(&image, strands, knots)?;
            }
            Op::Repeat(times, body) => (0..*times).try_for_each(|_| tie(body, strands, knots))?,
        }
    }
    Some(())
}

/// Steps among `width` strands, `deep` blocks within one another at most.
fn ops(width: usize, deep: usize) -> BoxedStrategy<Vec<Op>> {
    let take = (any::<bool>(), 1..=width, any::<bool>(), any::<bool>(), 0..width)
        .prop_map(|(left, place, forward, turning, count)| Op::Take { left, place, forward, turning, count });
    let series = (1..width).prop_map(|first| Op::Series { first });
    if deep == 0 {
        return prop::collection::vec(prop_oneof![4 => take, 1 => series], 1..4).boxed();
    }
    let on = (1..width, 1..width).prop_flat_map(move |(first, more)| {
        let last = (first + more).min(width);
        ops(last + 1 - first, deep - 1).prop_map(move |body| Op::On(first, last, body))
    });
    let inner = move || ops(width, deep - 1);
    let any_op = prop_oneof![
        6 => take,
        1 => series,
        2 => on,
        2 => inner().prop_map(Op::Both),
        2 => inner().prop_map(Op::Mirrored),
        1 => (0..3_usize, inner()).prop_map(|(times, body)| Op::Repeat(times, body)),
    ];
    prop::collection::vec(any_op, 1..5).boxed()
}

fn case() -> impl Strategy<Value = (usize, Vec<Op>)> {
    (2..9_usize).prop_flat_map(|width| (Just(width), ops(width, 3)))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn both_tie_the_same_knots((width, ops) in case()) {
        let mut text = "pattern \"Oracle\"\n".to_owned();
        let names: Vec<String> = (0..width).map(|strand| format!("t{strand}")).collect();
        for name in &names {
            let _ = writeln!(text, "thread {name} teal");
        }
        let _ = writeln!(text, "strands {}\nset {{", names.join(" "));
        write(&ops, &mut text);
        text.push_str("}\n");
        let mut strands: Vec<usize> = (0..width).collect();
        let mut knots = Vec::new();
        let tied = tie(&ops, &mut strands, &mut knots);
        let report = check(Arc::new(Source::new("oracle.knot", text.as_str())), &NoLibrary, &Settings::default());
        let past_edge = report.findings.iter().any(|finding| finding.rule.name == "past-the-edge");
        prop_assert_eq!(past_edge, tied.is_none(), "{}", text);
        if tied.is_some() {
            let set = report.pattern.unwrap().set.unwrap();
            let order: Vec<usize> = set.piece.order().iter().map(|&strand| usize::from(strand)).collect();
            prop_assert_eq!(order, strands, "{}", text);
            let seen: Vec<_> = set
                .piece
                .knots()
                .iter()
                .map(|knot| match knot.kind.left_works() {
                    true => (usize::from(knot.working), usize::from(knot.base), true),
                    false => (usize::from(knot.base), usize::from(knot.working), false),
                })
                .collect();
            prop_assert_eq!(seen, knots, "{}", text);
        }
    }
}
