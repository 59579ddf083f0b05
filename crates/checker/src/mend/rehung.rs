//! Other strands than are hung up. What comes of as many of them, in other colors, is known without tying the text again; of
//! more or fewer, one list is tied, and the others are known from it. Most are refused at once, by what is asked of the strands
//! that hang at the start.

use super::again::MOST_LOOKS;
use super::asked::AskedAtStart;
use super::edits::KnownKnots;
use super::search::{Goal, study_hung};
use super::shape::Blemishes;
use super::strands::{ListSieve, StrandsEdit, list_fitting, spread_of};
use super::trial::{Choice, SiftedChoice};
use crate::PartKind;
use crate::facts::Facts;
use crate::resolve::{Script, ThreadId, UNKNOWN_THREAD};
use crate::tie::{Limits, PartStudy, Passing, Replay, Stuck, Studied, block_of, tie_hung};
use knotwright_band::Piece;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    Block, BothBlock, Expect, MirroredBlock, Motif, OnBlock, SectionBlock, Statement,
};
use knotwright_numbers::ToNumber;
use std::cell::OnceCell;
use std::rc::Rc;

/// Tries other strands.
pub(super) struct Rehung<'s> {
    goal: &'s Goal<'s>,
    /// What is known of as many strands as hang there, and of more of them, or fewer.
    widths: Vec<Width>,
    /// Whether an `expect` lists all strands: more of them or fewer never fit.
    is_counted: bool,
    /// How many acts may be looked at yet.
    left: u64,
}

/// Of a pattern that costs more to tie it is not asked at first whether any list of more strands or fewer may fit.
const MOST_COST_OF_A_LOOK: u64 = 2_000;

/// Lists of as many strands.
struct Width {
    width: usize,
    asked: AskedAtStart,
    /// A study with as many of them, from which all lists are known.
    studied: Option<Rc<Studied>>,
    /// How the knots of all of them lie, if no color decides that; once somebody has asked for it.
    lie: OnceCell<Option<Rc<Blemishes>>>,
    /// What it cost to tie lists: most are wrong soon, and are tied until that takes as long as to study one of them.
    spent: u64,
}

impl Width {
    fn new(width: usize) -> Self {
        Self { width, asked: AskedAtStart::default(), studied: None, lie: OnceCell::new(), spent: 0 }
    }

    /// From a study with as many strands.
    fn studied(studied: Rc<Studied>) -> Option<Self> {
        let part = first_part(&studied)?;
        let (width, asked) = (part.width, AskedAtStart::of(part));
        Some(Self { asked, studied: Some(studied), ..Self::new(width) })
    }

    /// Of more strands, or fewer. What comes before a color decides is known from strands of unknown colors, which keep every
    /// promise; if none decides, that is all.
    fn other(goal: &Goal, width: usize) -> Self {
        if goal.cost > MOST_COST_OF_A_LOOK {
            return Self::new(width);
        }
        let studied = Rc::new(study_hung(goal, vec![UNKNOWN_THREAD; width]));
        let is_all = !studied.reads_strands();
        let known = Self::studied(studied).unwrap_or_else(|| Self::new(width));
        Self { studied: known.studied.filter(|_| is_all), ..known }
    }

    /// One of them, tied. How many knots there are, and whether the set closes.
    fn tie(&mut self, goal: &Goal, threads: Vec<ThreadId>) -> Result<(u64, bool), Stuck> {
        let limits = Limits { tells: false, ..Limits::trial(goal.cost, goal.given_up) };
        let tied = tie_hung(goal.script, threads, limits, &mut Facts::default());
        self.spent += tied.as_ref().map_or(goal.cost, |tied| tied.cost);
        let tied = tied.filter(|tied| tied.whole).ok_or(Stuck::Wrong { time: None })?;
        Ok((tied.knots, tied.closes != Some(false)))
    }

    /// A study, once that takes no longer than to tie another one.
    fn study(&mut self, goal: &Goal, threads: &[ThreadId]) -> Option<Rc<Studied>> {
        if self.studied.is_none() && self.spent >= goal.cost {
            self.studied = Some(Rc::new(study_hung(goal, threads.to_vec())));
        }
        self.studied.clone()
    }

    /// What is known of the knots of each of them.
    fn knots(&self) -> KnownKnots {
        let lie = || {
            let studied =
                self.studied.as_ref().filter(|studied| studied.is_as_tied() && !studied.reads_strands())?;
            let parts = studied.parts.iter().filter(|part| !part.threads.is_empty());
            let pieces: Option<Vec<&Piece>> = parts.map(|part| part.piece.as_ref()).collect();
            Some(Rc::new(Blemishes::of_pieces(pieces?)))
        };
        self.lie.get_or_init(lie).clone().map_or(KnownKnots::None, KnownKnots::Lie)
    }
}

impl<'s> Rehung<'s> {
    pub(super) fn of(goal: &'s Goal, studied: &Rc<Studied>) -> Self {
        let is_counted = first_part(studied)
            .is_some_and(|part| always_lists_all(goal, part.width) || lists_all(goal, part));
        let own = Width::studied(Rc::clone(studied));
        Self { goal, widths: own.into_iter().collect(), is_counted, left: MOST_LOOKS }
    }

    /// All lists of strands of which it is not known that something is wrong with them.
    pub(super) fn all(mut self) -> Vec<SiftedChoice> {
        let hung = list_fitting(self.goal.script, &mut self);
        hung.into_iter().filter_map(|hung| self.sift(hung)).collect()
    }

    /// What is known of lists of as many strands; `None` if none of them fits.
    fn of_width(&mut self, width: usize) -> Option<&mut Width> {
        let known = self.widths.iter().position(|known| known.width == width);
        if known.is_none() && self.is_counted {
            return None;
        }
        let number = known.unwrap_or_else(|| {
            self.widths.push(Width::other(self.goal, width));
            self.widths.len() - 1
        });
        Some(&mut self.widths[number]).filter(|known| !known.asked.is_in_vain)
    }

    /// `None` if something is wrong with these strands.
    fn sift(&mut self, hung: StrandsEdit) -> Option<SiftedChoice> {
        let (goal, mut left) = (self.goal, self.left);
        let is_own = |width: usize| goal.script.head.strands.as_ref().is_some_and(|own| own.len() == width);
        let known = self.of_width(hung.threads.len())?;
        let came = match known.study(goal, &hung.threads) {
            Some(studied) if left > 0 || is_own(known.width) => replay(&studied, &hung.threads, &mut left),
            _ => known.tie(goal, hung.threads.clone()),
        };
        let known = known.knots();
        self.left = left;
        let unsure = SiftedChoice::unsure(Choice::Strands(hung));
        match came {
            Ok((knots, closes)) => Some(SiftedChoice { closes, knots: Some(knots), known, ..unsure }),
            Err(Stuck::Wrong { .. }) => None,
            Err(Stuck::Unknown) => Some(unsure),
        }
    }
}

impl ListSieve for Rehung<'_> {
    fn may_fit(&mut self, width: usize) -> bool {
        self.of_width(width).is_some()
    }

    fn may_hang(&mut self, threads: &[ThreadId]) -> bool {
        self.of_width(threads.len()).is_some_and(|known| known.asked.holds(threads))
    }
}

/// The part in which the strands are hung.
fn first_part(studied: &Studied) -> Option<&PartStudy> {
    studied.parts.iter().find(|part| !part.threads.is_empty())
}

/// Whether an `expect` lists that many strands, of all that hang there, and is asked whatever is tied before. If a word or a
/// name is wrong, that is not known.
fn always_lists_all(goal: &Goal, width: usize) -> bool {
    let mut blocks = PartKind::ALL.into_iter().filter_map(|kind| block_of(goal.script, kind));
    goal.is_clean() && blocks.any(|block| always_lists(goal.script, block, width))
}

/// The same of a block: the `expect` stands in no range, and in nothing that may be left out.
fn always_lists(script: &Script, block: &Block, width: usize) -> bool {
    block.statements.iter().any(|statement| {
        let is_always_tied =
            statement.is::<SectionBlock>() || statement.is::<BothBlock>() || statement.is::<MirroredBlock>();
        let inner = statement.node.block().filter(|_| is_always_tied);
        let listed = match statement.get() {
            Some(Expect::List(list)) => spread_of(script, list).map(|list| list.count()),
            _ => None,
        };
        listed == Some(width.to_u64()) || inner.is_some_and(|inner| always_lists(script, inner, width))
    })
}

/// Whether an `expect` lists as many strands as are hung up, among all of them however many they are.
fn lists_all(goal: &Goal, part: &PartStudy) -> bool {
    let all = || goal.script.source().parsed.tree.walk();
    let narrows = |statement: &&Statement| statement.is::<OnBlock>() || statement.is::<Motif>();
    let narrow: Vec<Span> = all().filter(narrows).map(|statement| statement.span).collect();
    let is_within =
        |span: &Span| narrow.iter().any(|outer| outer.start <= span.start && span.end <= outer.end);
    // Each strand that is compared with the list takes a moment.
    let lists_as_many = |pass: &Passing| {
        let width = usize::from(pass.width());
        width == part.width && pass.until < u32::MAX && (pass.until - pass.time).to_usize() >= width
    };
    all().filter(|statement| matches!(statement.get(), Some(Expect::List(_)))).any(|statement| {
        let passes = part.begun.get(&statement.span.start).filter(|_| !is_within(&statement.span));
        passes.is_some_and(|passes| passes.iter().any(lists_as_many))
    })
}

/// Opening, set and closing with these strands: how many knots they have, and whether the set closes. `left`: how many acts may
/// be looked at yet.
fn replay(studied: &Studied, hung: &[ThreadId], left: &mut u64) -> Result<(u64, bool), Stuck> {
    let (mut all, mut closes) = (0, true);
    let mut colors = hung.to_vec();
    for part in studied.parts.iter().filter(|part| !part.threads.is_empty()) {
        let start = colors.clone();
        let mut replay = Replay { start: &start, ..Replay::of(part, *left) };
        let knots = replay.tie(&mut colors, 0..part.end);
        *left = replay.left;
        all += knots?;
        closes &= !part.is_set || colors == start;
    }
    Ok((all, closes))
}
