//! What comes of a stretch in which no color decides, whoever hangs where: which strand hangs in whose place after it, and what is
//! asked of which. A statement is tied once more with each of its copies, and by many of them: so that is found out once.

use super::act::{Act, CountedKnots};
use super::replay::{Hands, Stop};
use super::{KnownStretch, PartStudy, keeps};
use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use knotwright_band::Kind;
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;

/// Of fewer acts it takes less to do them.
const FEWEST_ACTS: usize = 8;

/// The most stretches that are kept. Those that are asked for next are near each other, mostly.
const MOST_TURNS: usize = 512;

/// Stretches of one part, as far as they were asked for.
#[derive(Debug, Default)]
pub(crate) struct Turns {
    /// `None` of those in which a color decides.
    known: HashMap<KnownStretch, Option<Turn>>,
    /// Room for colors.
    before: Vec<ThreadId>,
}

/// What comes of one.
#[derive(Debug)]
struct Turn {
    /// By position, where the strand hung before that hangs there then.
    from: Vec<u8>,
    /// What is asked of strands, by where they hung before.
    asked: Vec<Asked>,
    /// Whether something is wrong whoever hangs where.
    is_wrong: bool,
    knots: Vec<(u8, Kind)>,
}

#[derive(Debug, Clone, Copy)]
enum Asked {
    Color(u16, ThreadId),
    Alike(u16, u16),
}

impl Turns {
    /// Another part begins.
    pub(crate) fn begin(&mut self) {
        self.known.clear();
    }

    /// Ties a stretch among strands of these colors: its knots, or an error if something is wrong. `None` if a color decides in
    /// it, or it is short.
    pub(super) fn tie(
        &mut self,
        part: &PartStudy,
        stretch: &KnownStretch,
        colors: &mut [ThreadId],
    ) -> Option<Result<&[(u8, Kind)], ()>> {
        if stretch.time.len() < FEWEST_ACTS {
            return None;
        }
        if self.known.len() >= MOST_TURNS {
            self.known.clear();
        }
        if !self.known.contains_key(stretch) {
            self.known.insert(stretch.clone(), Turn::of(part, stretch));
        }
        let turn = self.known.get(stretch)?.as_ref()?;
        let thread = |label: u16| colors[usize::from(label)];
        let holds = |&asked: &Asked| match asked {
            Asked::Color(one, wanted) => keeps(wanted, thread(one)),
            Asked::Alike(one, other) => keeps(thread(one), thread(other)),
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
                Act::Promise(thread) => asked.push(Asked::Color(hands.in_hand(), thread)),
                Act::Wants { position, thread } => asked.push(Asked::Color(hands.thread(position), thread)),
                Act::WantsAlike(gap) => asked.push(Asked::Alike(hands.thread(gap), hands.thread(gap + 1))),
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
