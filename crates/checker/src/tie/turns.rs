//! What comes of a stretch in which no color decides, whoever hangs where: which strand hangs in whose place after it, and what
//! is asked of which. With each line that is put in beside it, a statement is tied again: so that is found out once.

use super::act::{Act, CountedKnots};
use super::replay::{Hands, Stop};
use super::{KnownStretch, PartStudy, keeps};
use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use knotwright_band::Kind;
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;

/// Of fewer acts it takes less to do them.
const FEWEST_ACTS: usize = 8;

/// The most strands and knots that are kept. Those stretches that are asked for next are near each other, mostly.
const MOST_KEPT: usize = 200_000;

/// Stretches of one part, as far as they were asked for.
#[derive(Debug, Default)]
pub(crate) struct KnownTurns {
    /// `None` of those in which a color decides.
    known: HashMap<KnownStretch, Option<Turn>>,
    /// How many strands and knots they have.
    kept: usize,
    /// Room for colors.
    before: Vec<ThreadId>,
}

/// What comes of one.
#[derive(Debug)]
struct Turn {
    /// By position, where the strand hung before that hangs there then.
    from: Vec<u8>,
    /// What is asked of strands, by where they hung before.
    asked: Vec<AskedColors>,
    /// Whether something is wrong whoever hangs where.
    is_wrong: bool,
    knots: Vec<(u8, Kind)>,
}

#[derive(Debug, Clone, Copy)]
enum AskedColors {
    /// One is of that thread.
    Color(u16, ThreadId),
    /// Two are of one thread.
    Alike(u16, u16),
}

impl KnownTurns {
    /// Another part begins.
    pub(crate) fn begin(&mut self) {
        self.known.clear();
        self.kept = 0;
    }

    /// Ties a stretch among strands of these colors: its knots, or an error if something is wrong. `None` if a color decides in
    /// it, or if it is short. `left`: how many acts and strands may be looked at yet.
    pub(super) fn tie(
        &mut self,
        part: &PartStudy,
        stretch: &KnownStretch,
        colors: &mut [ThreadId],
        left: &mut u64,
    ) -> Option<Result<&[(u8, Kind)], ()>> {
        let acts = stretch.time.len();
        if acts < FEWEST_ACTS {
            return None;
        }
        if !self.known.contains_key(stretch) {
            *left = left.checked_sub(acts.to_u64())?;
            if self.kept > MOST_KEPT {
                self.begin();
            }
            let turn = Turn::of(part, stretch);
            self.kept += turn.as_ref().map_or(1, |turn| turn.from.len() + turn.knots.len());
            self.known.insert(stretch.clone(), turn);
        }
        *left = left.checked_sub(1 + colors.len().to_u64() / 8)?;
        let turn = self.known.get(stretch)?.as_ref()?;
        let thread = |label: u16| colors[usize::from(label)];
        let holds = |&asked: &AskedColors| match asked {
            AskedColors::Color(one, wanted) => keeps(wanted, thread(one)),
            AskedColors::Alike(one, other) => keeps(thread(one), thread(other)),
        };
        if turn.is_wrong || !turn.asked.iter().all(holds) {
            return Some(Err(()));
        }
        self.before.clear();
        self.before.extend_from_slice(colors);
        let moved = turn.from.iter().map(|&from| self.before[usize::from(from)]);
        colors.iter_mut().zip(moved).for_each(|(color, moved)| *color = moved);
        Some(Ok(&turn.knots))
    }
}

impl Turn {
    fn of(part: &PartStudy, stretch: &KnownStretch) -> Option<Self> {
        let (acts, is_whole) = part.acts(stretch.time.clone());
        if !is_whole {
            return None;
        }
        // Each strand goes by where it hung before.
        let mut labels: Vec<u16> = (0..part.width.to_u16()).collect();
        let (mut tied, mut asked, mut is_wrong) = (Some(Vec::new()), Vec::new(), false);
        let mut hands = Hands::new(&[], &mut labels, &mut tied);
        for act in acts.iter().map(|&act| if stretch.mirrored { act.mirrored(stretch) } else { act }) {
            match act {
                Act::Promise(thread) => asked.push(AskedColors::Color(hands.in_hand(), thread)),
                Act::Wants { position, thread } => {
                    asked.push(AskedColors::Color(hands.thread(position), thread))
                }
                Act::WantsAlike(gap) => {
                    asked.push(AskedColors::Alike(hands.thread(gap), hands.thread(gap + 1)))
                }
                Act::TakeColor(_)
                | Act::Over { .. }
                | Act::Until { .. }
                | Act::Join(_)
                | Act::IsAt(_)
                | Act::WantsStart { .. }
                | Act::Unknown => return None,
                Act::Count(CountedKnots { over, .. }) if over != UNKNOWN_THREAD => return None,
                act => match hands.perform(act) {
                    Ok(()) => {}
                    Err(Stop::Unknown) => return None,
                    Err(Stop::Wrong) => {
                        is_wrong = true;
                        break;
                    }
                },
            }
        }
        let from = labels.iter().map(|&label| label.to_u8()).collect();
        Some(Self { from, asked, is_wrong, knots: tied? })
    }
}

#[cfg(test)]
mod tests {
    use super::super::Replay;
    use super::super::replay::Stuck;
    use super::*;
    use proptest::prelude::*;

    const WIDTH: u8 = 6;

    fn kind() -> impl Strategy<Value = Kind> {
        prop_oneof![
            3 => Just(Kind::Forward),
            3 => Just(Kind::Backward),
            1 => Just(Kind::ForwardBackward),
            1 => Just(Kind::BackwardForward)
        ]
    }

    fn act() -> impl Strategy<Value = Act> {
        let counted = (kind(), 0_u32..3).prop_map(|(kind, count)| {
            let edge = if kind.left_works() { WIDTH - 1 } else { 0 };
            Act::Count(CountedKnots { kind, count, edge, over: UNKNOWN_THREAD })
        });
        let swapping = || kind().prop_filter("it goes on", |kind| kind.swaps());
        prop_oneof![
            4 => (0..WIDTH).prop_map(Act::Take),
            4 => counted,
            2 => (swapping(), 0..WIDTH).prop_map(|(kind, position)| Act::To { kind, position }),
            2 => (0..WIDTH - 1, kind()).prop_map(|(gap, kind)| Act::Knot { gap, kind }),
            1 => Just(Act::TakeNext),
            1 => (0..WIDTH - 1).prop_map(|gap| Act::Meet { gap }),
            1 => (0_u16..2).prop_map(Act::Promise),
            1 => (0..WIDTH, 0_u16..2).prop_map(|(position, thread)| Act::Wants { position, thread }),
            1 => (0..WIDTH - 1).prop_map(Act::WantsAlike),
        ]
    }

    proptest! {
        #[test]
        fn a_stretch_comes_to_the_same_as_its_acts_among_any_strands(
            acts in prop::collection::vec(act(), FEWEST_ACTS..2 * FEWEST_ACTS),
            all in prop::collection::vec(prop::collection::vec(0_u16..2, usize::from(WIDTH)), 4),
            mirrored in any::<bool>(),
        ) {
            let end = acts.len().to_u32();
            let stretch = KnownStretch { time: 0..end, within: (0, WIDTH - 1), mirrored };
            let turned = acts.iter().map(|act| if mirrored { act.mirrored(&stretch) } else { *act }).collect();
            let part = |acts| {
                let mut part = PartStudy::default();
                (part.width, part.acts, part.last) = (WIDTH.into(), acts, end);
                part
            };
            let (written, turned) = (part(acts), part(turned));
            let (mut turns, mut left) = (KnownTurns::default(), u64::MAX);
            for colors in all {
                let (mut one, mut other) = (colors.clone(), colors);
                let mut replay = Replay { tied: Some(Vec::new()), start: &[], part: &turned, left: u64::MAX };
                let by_acts = replay.tie(&mut other, 0..end);
                let found = turns.tie(&written, &stretch, &mut one, &mut left).expect("no color decides");
                match found {
                    Ok(knots) => {
                        prop_assert_eq!(by_acts, Ok(knots.len().to_u64()));
                        prop_assert_eq!(Some(knots), replay.tied.as_deref());
                        prop_assert_eq!(one, other);
                    }
                    Err(()) => {
                        let is_wrong = matches!(by_acts, Err(Stuck::Wrong { .. }));
                        prop_assert!(is_wrong, "{by_acts:?}");
                    }
                }
            }
        }
    }
}
