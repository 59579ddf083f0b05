//! What of a band is drawn: sets that are tied alike, in the same colors, are drawn once.

use knotwright_numbers::ToNumber;
use std::collections::HashMap;

use super::dyed::DyedParts;
use super::numbered::write_ranges;
use crate::joined::joins_in;
use crate::{Passage, TyingScript};
use knotwright_band::Join;

/// A part that is drawn, for all that are tied just like it.
pub(super) struct DrawnPart<'a> {
    pub(super) passage: &'a Passage,
    /// The first such part.
    pub(super) part: usize,
    /// By position as it begins, which strand of the band.
    pub(super) order: Vec<u8>,
    /// By position as it begins, the thread that hangs there.
    pub(super) threads: Vec<u16>,
    /// Which set it is, from 0; 0 of what is no set.
    pub(super) set: u64,
    pub(super) what: PartRole,
    /// How often it is tied.
    pub(super) times: u64,
    /// Of sets, which: from 1.
    numbers: Vec<u64>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum PartRole {
    Opening,
    Set,
    Closing,
}

pub(super) struct Blocks<'a> {
    pub(super) list: Vec<DrawnPart<'a>>,
    /// By part, the block that shows it; none if it is not drawn.
    pub(super) of: Vec<Option<u32>>,
    /// The sets that are not drawn, from 1.
    pub(super) left_out: Vec<u64>,
    /// By position, which strand hangs there after the last part.
    pub(super) end: Vec<u8>,
    /// By position, the thread that hangs there then.
    pub(super) threads: Vec<u16>,
}

impl DrawnPart<'_> {
    /// Which sets these are, of several kinds of sets; nothing if there is one kind.
    pub(super) fn numbers(&self, kinds: usize) -> String {
        if kinds < 2 { String::new() } else { write_ranges(&self.numbers) }
    }
}

/// The parts of a band, with `most_sets` different sets at most.
pub(super) fn divide_blocks<'a>(
    script: &'a TyingScript,
    dyed: &'a DyedParts,
    most_sets: usize,
) -> Blocks<'a> {
    let (end, threads) = (script.start_order(), script.strands.clone());
    let blocks = Blocks { list: Vec::new(), of: Vec::new(), left_out: Vec::new(), end, threads };
    let mut folding = Folding { script, blocks, seen: HashMap::new(), dyed, most_sets };
    if let Some(opening) = &script.opening {
        folding.once(opening, PartRole::Opening);
    }
    let kinds = kinds(script);
    for number in 0..script.times {
        folding.set(number, &kinds);
    }
    if let Some(closing) = &script.closing {
        folding.once(closing, PartRole::Closing);
    }
    folding.blocks
}

/// By passage of the run-in and the period, the first that is just like it.
fn kinds(script: &TyingScript) -> Vec<usize> {
    let all: Vec<&Passage> = script.run_in.iter().chain(&script.period).collect();
    let first_like = |at: usize| (0..at).find(|before| all[*before] == all[at]).unwrap_or(at);
    (0..all.len()).map(first_like).collect()
}

/// Which kind of set, the threads as they hang, joins of that set alone, and the colors of its knots where threads change
/// color.
type SetLook<'a> = (usize, Vec<u16>, Vec<Join>, &'a [[u16; 2]]);

struct Folding<'a> {
    script: &'a TyingScript,
    blocks: Blocks<'a>,
    /// By what tells sets apart, the block.
    seen: HashMap<SetLook<'a>, Option<u32>>,
    dyed: &'a DyedParts,
    most_sets: usize,
}

impl<'a> Folding<'a> {
    fn once(&mut self, passage: &'a Passage, what: PartRole) {
        let block = self.begin(passage, what, 0);
        self.end(passage, Some(block));
    }

    fn set(&mut self, number: u64, kinds: &[usize]) {
        let Some(passage) = self.script.set(number) else { return };
        let before = self.script.run_in.len().to_u64();
        let after = number.saturating_sub(before) % self.script.period.len().to_u64().max(1);
        let at = if number < before { number } else { before + after };
        let kind = kinds.get(at.to_usize()).copied().unwrap_or_default();
        let own = joins_in(&passage.piece, number).filter(|join| join.set.is_some()).copied().collect();
        let key = (kind, self.blocks.threads.clone(), own, self.dyed.knots(self.blocks.of.len()));
        let block = match self.seen.get(&key) {
            Some(block) => *block,
            None => {
                let block =
                    (self.seen.len() < self.most_sets).then(|| self.begin(passage, PartRole::Set, number));
                self.seen.insert(key, block);
                block
            }
        };
        if let Some(block) = block.and_then(|block| self.blocks.list.get_mut(block.to_usize())) {
            block.times += 1;
            block.numbers.push(number + 1);
        } else {
            self.blocks.left_out.push(number + 1);
        }
        self.end(passage, block);
    }

    fn begin(&mut self, passage: &'a Passage, what: PartRole, set: u64) -> u32 {
        let (part, order, threads) =
            (self.blocks.of.len(), self.blocks.end.clone(), self.blocks.threads.clone());
        let (times, numbers) = (0, Vec::new());
        self.blocks.list.push(DrawnPart { passage, part, order, threads, set, what, times, numbers });
        self.blocks.list.len().to_u32() - 1
    }

    fn end(&mut self, passage: &Passage, block: Option<u32>) {
        self.blocks.of.push(block);
        self.blocks.end = passage.order_after(&self.blocks.end);
        self.blocks.threads = passage.threads_after(&self.blocks.threads);
    }
}
