//! Two colors: a table of all orders of strands.
//!
//! With two colors, an order of strands is a word of bits. Knot by knot, the table holds for each word the cost of the best
//! way to come there. A knot between two of one color changes nothing, and is given up if the other color is wanted; one
//! between two colors shows either, and turns if they do not cross.
//!
//! A band that closes must come back to the word it began with, which would be a table for each first word. So first words
//! are told apart by the color at the first place, then at the second, and so on: if a table for all words that begin and
//! end so costs as much as an answer, none of them needs a table of its own (branch and bound, best bound first).

use crate::design::{DesignEnd, DesignStart, DesignTask, DesignWatch, Designed, look_at_answer};
use knotwright_numbers::ToNumber;
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// The most work that a table may be: knots times words. A bit of each is kept.
const MOST_WORK: u64 = 1 << 29;

/// The most work where there may be many tables: the band closes, and its start is not given.
const MOST_WORK_OF_MANY: u64 = 1 << 25;

/// No way leads here. Added to all that a way may cost, it is still a `u32`.
const NO_WAY: u32 = u32::MAX / 2;

/// A task in two colors.
pub(crate) struct TwoColors<'a> {
    task: &'a DesignTask,
    colors: [u16; 2],
    /// What a knot costs that is given up: more than all turning knots together.
    given_up: u32,
    /// Places whose color at the start is not given, as masks: the places of a mask begin alike.
    free: Vec<usize>,
    /// All first words.
    root: WordClass,
}

/// Words that are alike in some places.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct WordClass {
    /// The places.
    fixed: usize,
    /// What stands there.
    word: usize,
    /// How many masks of free places are among them.
    depth: usize,
}

impl<'a> TwoColors<'a> {
    /// The task, if it has two colors (or one) and the table is small.
    pub(crate) fn of(task: &'a DesignTask, colors: &[u16]) -> Option<Self> {
        let colors = match *colors {
            [one] => [one, one.wrapping_add(1)],
            [one, other] => [one, other],
            _ => return None,
        };
        let (strands, knots) = (task.face.strands(), task.face.knots().len());
        let is_given = matches!(task.start, DesignStart::Given(_));
        let most = if task.closes && !is_given { MOST_WORK_OF_MANY } else { MOST_WORK };
        let words = 1_u64.checked_shl(u32::from(strands))?;
        words.checked_mul(knots.to_u64()).filter(|work| *work <= most)?;
        let bit = |place: u8| 1_usize << place;
        let free = match &task.start {
            DesignStart::Free => (0..strands).map(bit).collect(),
            DesignStart::Even => {
                (0..strands.div_ceil(2)).map(|place| bit(place) | bit(strands - 1 - place)).collect()
            }
            DesignStart::Given(_) => Vec::new(),
        };
        let root = match &task.start {
            DesignStart::Given(given) => {
                let is_second = |color: &u16| usize::from(*color == colors[1]);
                let word = given.iter().enumerate().map(|(place, color)| is_second(color) << place).sum();
                WordClass { fixed: words.to_usize() - 1, word, depth: 0 }
            }
            DesignStart::Free | DesignStart::Even => WordClass { fixed: 0, word: 0, depth: 0 },
        };
        Some(Self { task, colors, given_up: knots.to_u32() + 1, free, root })
    }

    /// The best answer, proved unless it was stopped.
    pub(crate) fn least(&self, watch: &mut DesignWatch<'_>) -> DesignEnd {
        let (best, is_proved) = match self.task.closes && !self.free.is_empty() {
            true => self.best_of_classes(watch),
            false => {
                let way = self.way(self.root, watch.stop);
                way.iter().for_each(|way| (watch.better)(way));
                (way, true)
            }
        };
        let Some(best) = best else { return DesignEnd::Stopped };
        let is_tied = best.given_up.is_empty();
        let best = Designed { is_fewest_given_up: is_tied || is_proved, is_least: is_proved, ..best };
        match (is_tied, is_proved) {
            (true, _) => DesignEnd::Tied(best),
            (false, true) => DesignEnd::Cannot(Some(best)),
            (false, false) => DesignEnd::Stopped,
        }
    }

    /// The best answer that closes, and whether it is proved: none of the classes left has a better bound.
    fn best_of_classes(&self, watch: &mut DesignWatch<'_>) -> (Option<Designed>, bool) {
        let Some((mut least, way)) = self.dive(watch) else { return (None, false) };
        let mut best = Some(way);
        let mut open = BinaryHeap::from([Reverse((0, Reverse(0), self.root))]);
        while let Some(Reverse((bound, _, class))) = open.pop() {
            if bound >= least {
                break;
            }
            if class.depth == self.free.len() {
                let Some(way) = self.way(class, watch.stop) else { return (best, false) };
                (watch.better)(&way);
                (best, least) = (Some(way), bound);
                continue;
            }
            for child in self.split(class) {
                let Some(bound) = self.bound(child, watch.stop) else { return (best, false) };
                if bound < least {
                    open.push(Reverse((bound, Reverse(child.depth), child)));
                }
            }
        }
        (best, true)
    }

    /// An answer that is soon there: always on in the class with the better bound. `None` if stopped.
    fn dive(&self, watch: &mut DesignWatch<'_>) -> Option<(u32, Designed)> {
        let (mut class, mut least) = (self.root, 0);
        while class.depth < self.free.len() {
            let [one, other] = self.split(class);
            let (of_one, of_other) = (self.bound(one, watch.stop)?, self.bound(other, watch.stop)?);
            (class, least) = if of_one <= of_other { (one, of_one) } else { (other, of_other) };
        }
        let way = self.way(class, watch.stop)?;
        (watch.better)(&way);
        Some((least, way))
    }

    /// A class as two: by the color of the next places that are free.
    fn split(&self, class: WordClass) -> [WordClass; 2] {
        let mask = self.free.get(class.depth).copied().unwrap_or(0);
        let child = |bits: usize| WordClass {
            fixed: class.fixed | mask,
            word: class.word | bits,
            depth: class.depth + 1,
        };
        [child(0), child(mask)]
    }

    fn has(&self, class: WordClass, word: usize) -> bool {
        word & class.fixed == class.word
            && self.free.iter().all(|mask| word & mask == 0 || word & mask == *mask)
    }

    /// What it costs at least to begin with a word of a class and to end with one of them. `None` if stopped.
    fn bound(&self, class: WordClass, stop: &dyn Fn() -> bool) -> Option<u32> {
        let mut costs = self.begin(class);
        for knot in self.task.face.knots() {
            self.tie(usize::from(knot.gap), self.wanted(knot.color), &mut costs);
        }
        let ends = costs.iter().enumerate().filter(|(word, _)| self.has(class, *word));
        let least = ends.map(|(_, cost)| *cost).min().unwrap_or(NO_WAY);
        (!stop()).then_some(least)
    }

    /// The best way from a word of a class, to one of them if it closes. `None` if stopped.
    fn way(&self, class: WordClass, stop: &dyn Fn() -> bool) -> Option<Designed> {
        let mut costs = self.begin(class);
        let mut stays = Vec::with_capacity(self.task.face.knots().len());
        for knot in self.task.face.knots() {
            if stop() {
                return None;
            }
            stays.push(find_stays(usize::from(knot.gap), &costs));
            self.tie(usize::from(knot.gap), self.wanted(knot.color), &mut costs);
        }
        let is_end = |word: &usize| !self.task.closes || self.has(class, *word);
        let mut word = (0..costs.len()).filter(is_end).min_by_key(|word| costs[*word])?;
        let mut chosen = vec![false; stays.len()];
        for ((knot, stays), chosen) in self.task.face.knots().iter().zip(&stays).zip(&mut chosen).rev() {
            *chosen = stays[word / BITS] >> (word % BITS) & 1 == 1;
            let both = 3 << knot.gap;
            let are_alike = word & both == 0 || word & both == both;
            if !are_alike && !*chosen {
                word ^= both;
            }
        }
        let color = |place: u8| self.colors[word >> place & 1];
        Some(look_at_answer(self.task, (0..self.task.face.strands()).map(color).collect(), &chosen))
    }

    /// By word, what it costs to begin with it.
    fn begin(&self, class: WordClass) -> Vec<u32> {
        let cost = |word| if self.has(class, word) { 0 } else { NO_WAY };
        (0..1_usize << self.task.face.strands()).map(cost).collect()
    }

    /// Which of the two colors is wanted.
    fn wanted(&self, color: Option<u16>) -> Option<bool> {
        color.map(|color| color == self.colors[1])
    }

    /// By word, what it costs to come there with one knot more.
    fn tie(&self, gap: usize, wanted: Option<bool>, costs: &mut [u32]) {
        let low = 1 << gap;
        let cost_if = |is_other: bool| if is_other { self.given_up } else { 0 };
        let (of_first, of_second) = (cost_if(wanted == Some(true)), cost_if(wanted == Some(false)));
        for four in costs.chunks_exact_mut(4 * low) {
            let (below, above) = four.split_at_mut(2 * low);
            let (first, left) = below.split_at_mut(low);
            let (right, second) = above.split_at_mut(low);
            first.iter_mut().for_each(|cost| *cost += of_first);
            second.iter_mut().for_each(|cost| *cost += of_second);
            for (left, right) in left.iter_mut().zip(right) {
                (*left, *right) = ((*left + 1).min(*right), (*right + 1).min(*left));
            }
        }
    }
}

const BITS: usize = 64;

/// By word, as bits, whether the best way to it through a knot in this gap is that the strands stay.
fn find_stays(gap: usize, costs: &[u32]) -> Vec<u64> {
    let both = 3_usize << gap;
    let mut stays = vec![0; costs.len().div_ceil(BITS)];
    for (word, cost) in costs.iter().enumerate() {
        let is_better = word & both != 0 && word & both != both && cost + 1 < costs[word ^ both];
        stays[word / BITS] |= u64::from(is_better) << (word % BITS);
    }
    stays
}
