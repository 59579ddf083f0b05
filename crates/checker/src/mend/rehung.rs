//! Other strands than are hung up. What comes of as many of them, in other colors, is known without tying the text again; of
//! more or fewer, one list is tied, and the others are known from it.

use super::again::MOST_LOOKS;
use super::follower::{FollowedEdit, Follower};
use super::renaming::Outlook;
use super::search::{Goal, study_hung};
use super::strands::{StrandsEdit, list_fitting};
use super::trial::{Choice, SiftedChoice};
use crate::facts::Facts;
use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use crate::tie::{Limits, Moment, PartStudy, Passing, Replay, Stuck, Studied, tie_hung};
use knotwright_grammar::tree::Expect;

/// Tries other strands.
pub(super) struct Rehung<'s> {
    goal: &'s Goal<'s>,
    studied: &'s Studied,
    /// The first part, and who follows what is edited through it.
    first: Option<(&'s PartStudy, Follower<'s>)>,
    /// By when something is promised that rests on who hangs there at the start, if anything is.
    started: u32,
    /// Whether an `expect` lists all strands: more of them or fewer never fit.
    is_counted: bool,
    /// What is known of more strands, or fewer.
    others: Vec<OtherWidth>,
    /// How many acts may be looked at yet.
    left: u64,
}

/// Of a pattern that costs more to tie it is not asked at first whether as many strands may fit at all.
const MOST_COST_OF_A_LOOK: u64 = 2_000;

/// Lists with another number of strands. Most are wrong soon, and are tied until that takes as long as to study one of them.
struct OtherWidth {
    width: usize,
    may_fit: bool,
    /// What it cost to tie them.
    spent: u64,
    studied: Option<Studied>,
}

impl OtherWidth {
    /// One of them, tied. How many knots there are, and whether the set closes.
    fn tie(&mut self, goal: &Goal, threads: Vec<ThreadId>) -> Result<(u64, bool), Stuck> {
        let limits = Limits { tells: false, ..Limits::trial(goal.cost, goal.given_up) };
        let tied = tie_hung(goal.script, threads, limits, &mut Facts::default());
        self.spent += tied.as_ref().map_or(goal.cost, |tied| tied.cost);
        let tied = tied.filter(|tied| tied.whole).ok_or(Stuck::Wrong { time: None })?;
        Ok((tied.knots, tied.closes != Some(false)))
    }
}

impl<'s> Rehung<'s> {
    pub(super) fn of(goal: &'s Goal, studied: &'s Studied) -> Self {
        let part = studied.parts.iter().find(|part| !part.threads.is_empty());
        let expects = || {
            let all = goal.script.source().parsed.tree.walk();
            all.filter_map(|statement| {
                Some((statement.get::<Expect>()?, part?.begun.get(&statement.span.start)?))
            })
        };
        let starts = expects().filter(|(expect, _)| matches!(expect, Expect::Start { .. }));
        let started = starts.filter_map(|(_, passes)| passes.first()).map(|pass| pass.time).min();
        let counts_all = |pass: &Passing| {
            part.is_some_and(|part| {
                let wall = part.walls.first().copied().unwrap_or(u32::MAX);
                usize::from(pass.width()) == part.width && pass.until < u32::MAX && pass.until <= wall
            })
        };
        let mut lists = expects().filter(|(expect, _)| matches!(expect, Expect::List(_)));
        let is_counted = lists.any(|(_, passes)| passes.iter().any(counts_all));
        Self {
            goal,
            studied,
            first: part.map(|part| (part, Follower::new(part))),
            started: started.unwrap_or(u32::MAX),
            is_counted,
            others: Vec::new(),
            left: MOST_LOOKS,
        }
    }

    /// All lists of strands of which it is not known that something is wrong with them.
    pub(super) fn all(mut self) -> Vec<SiftedChoice> {
        let hung = list_fitting(self.goal.script, &mut |width| self.may_fit(width));
        hung.into_iter().filter_map(|hung| self.sift(hung)).collect()
    }

    fn is_as_wide(&self, width: usize) -> bool {
        self.first.as_ref().is_some_and(|first| first.0.width == width)
    }

    /// Whether nothing is known to be wrong with as many strands, whatever their colors.
    fn may_fit(&mut self, width: usize) -> bool {
        if self.is_as_wide(width) || self.is_counted {
            return !self.is_counted || self.is_as_wide(width);
        }
        let known = self.others.iter().find(|other| other.width == width).map(|other| other.may_fit);
        known.unwrap_or_else(|| {
            let is_long = self.goal.cost > MOST_COST_OF_A_LOOK;
            let may_fit = is_long || self.studied.reads_strands() || self.fits_unknown(width);
            self.others.push(OtherWidth { width, may_fit, spent: 0, studied: None });
            may_fit
        })
    }

    /// Whether nothing is wrong among strands of unknown colors, which keep every promise.
    fn fits_unknown(&self, width: usize) -> bool {
        let limits = Limits { tells: false, ..Limits::trial(self.goal.cost, self.goal.given_up) };
        let unknown = vec![UNKNOWN_THREAD; width];
        let tied = tie_hung(self.goal.script, unknown, limits, &mut Facts::default());
        tied.is_some_and(|tied| tied.whole)
    }

    /// `None` if something is wrong with these strands.
    fn sift(&mut self, hung: StrandsEdit) -> Option<SiftedChoice> {
        let (goal, left) = (self.goal, self.left);
        let replayed = if self.is_as_wide(hung.threads.len()) {
            if self.is_soon_wrong(&hung.threads) {
                return None;
            }
            replay(self.studied, &hung.threads, left)
        } else {
            let other = self.others.iter_mut().find(|other| other.width == hung.threads.len());
            other.map_or((Err(Stuck::Unknown), left), |other| {
                if other.spent < goal.cost || left == 0 {
                    return (other.tie(goal, hung.threads.clone()), left);
                }
                let studied = other.studied.get_or_insert_with(|| study_hung(goal, hung.threads.clone()));
                replay(studied, &hung.threads, left)
            })
        };
        self.left = replayed.1;
        let unsure = SiftedChoice::unsure(Choice::Strands(hung));
        match replayed.0 {
            Ok((knots, closes)) => Some(SiftedChoice { closes, knots: Some(knots), ..unsure }),
            Err(Stuck::Wrong { .. }) => None,
            Err(Stuck::Unknown) => Some(unsure),
        }
    }

    /// Whether something is wrong before anything rests on who hangs there at the start. That takes no time to know, and refuses
    /// most.
    fn is_soon_wrong(&mut self, threads: &[ThreadId]) -> bool {
        let Some((part, follower)) = &mut self.first else { return false };
        let mut edit = FollowedEdit::default();
        edit.renamed.hang(threads, &part.threads);
        let until = Moment { time: self.started.min(part.end), ..part.after_all(part.end) };
        follower.follow(&mut edit, 0, until) == Outlook::Fails
    }
}

/// Opening, set and closing with these strands: how many knots they have, and whether the set closes. And how many acts may be
/// looked at yet.
fn replay(studied: &Studied, hung: &[ThreadId], mut left: u64) -> (Result<(u64, bool), Stuck>, u64) {
    let (mut all, mut closes) = (0, true);
    let mut colors = hung.to_vec();
    for part in studied.parts.iter().filter(|part| !part.threads.is_empty()) {
        let start = colors.clone();
        let mut replay = Replay { start: &start, ..Replay::of(part, left) };
        let knots = replay.tie(&mut colors, 0..part.end);
        left = replay.left;
        match knots {
            Ok(knots) => all += knots,
            Err(stuck) => return (Err(stuck), left),
        }
        closes &= !part.is_set || colors == start;
    }
    (Ok((all, closes)), left)
}
