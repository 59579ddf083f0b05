//! Random sentences of a grammar.

use crate::grammar::{Grammar, Part};
use knotwright_numbers::ToNumber;
use std::collections::BTreeMap;

/// Numbers as if thrown, the same in every run (SplitMix64; Steele, Lea and Flood, 2014).
pub struct Dice(pub u64);

impl Dice {
    pub fn throw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub fn below(&mut self, sides: usize) -> usize {
        (self.throw() % sides.to_u64()).to_usize()
    }

    pub fn one_in(&mut self, sides: usize) -> bool {
        self.below(sides) == 0
    }

    pub fn pick<'t, T>(&mut self, from: &'t [T]) -> &'t T {
        &from[self.below(from.len())]
    }
}

/// Makes sentences.
pub struct Maker<'g> {
    grammar: &'g Grammar,
    /// How many rules deep the shortest sentence of each rule is.
    heights: BTreeMap<&'g str, usize>,
}

impl<'g> Maker<'g> {
    pub fn new(grammar: &'g Grammar) -> Self {
        let mut maker = Self { grammar, heights: BTreeMap::new() };
        for height in 1..grammar.rules.len() {
            for (name, part) in &grammar.rules {
                if maker.height(part) < height && !maker.heights.contains_key(name.as_str()) {
                    maker.heights.insert(name, height);
                }
            }
        }
        maker
    }

    fn height(&self, part: &Part) -> usize {
        match part {
            Part::Literal(_) | Part::Class(_) | Part::Optional(_) | Part::Many(_) => 0,
            Part::Rule(name) => self.heights.get(name.as_str()).copied().unwrap_or(usize::MAX - 1),
            Part::Sequence(parts) => parts.iter().map(|part| self.height(part)).max().unwrap_or(0),
            Part::Choice(parts) => parts.iter().map(|part| self.height(part)).min().unwrap_or(0),
            Part::Some(part) => self.height(part),
        }
    }

    /// A sentence of `part`, given bit by bit to `out`: literals, and the text of the rules in `whole` in one piece.
    /// Deeper than `depth` rules, the shortest way is taken.
    pub fn make(&self, part: &Part, depth: usize, whole: &[&str], dice: &mut Dice, out: &mut Vec<String>) {
        match part {
            Part::Literal(text) => out.push(text.clone()),
            Part::Class(class) => out.push(character(class, dice).to_string()),
            Part::Rule(name) if whole.contains(&name.as_str()) => {
                let mut bits = Vec::new();
                self.make(&self.grammar.rules[name], 3, &[], dice, &mut bits);
                out.push(bits.concat());
            }
            Part::Rule(name) => {
                self.make(&self.grammar.rules[name], depth.saturating_sub(1), whole, dice, out)
            }
            Part::Sequence(parts) => parts.iter().for_each(|part| self.make(part, depth, whole, dice, out)),
            Part::Choice(parts) => self.make(self.choose(parts, depth, dice), depth, whole, dice, out),
            Part::Optional(part) => self.repeat(part, depth, whole, dice, out, 0..2),
            Part::Many(part) => self.repeat(part, depth, whole, dice, out, 0..4),
            Part::Some(part) => self.repeat(part, depth, whole, dice, out, 1..5),
        }
    }

    fn choose<'p>(&self, parts: &'p [Part], depth: usize, dice: &mut Dice) -> &'p Part {
        if depth > 0 {
            return dice.pick(parts);
        }
        parts.iter().min_by_key(|part| self.height(part)).expect("a choice has parts")
    }

    fn repeat(
        &self,
        part: &Part,
        depth: usize,
        whole: &[&str],
        dice: &mut Dice,
        out: &mut Vec<String>,
        times: std::ops::Range<usize>,
    ) {
        let more = if depth == 0 { 0 } else { dice.below(times.len()) };
        for _ in 0..times.start + more {
            self.make(part, depth, whole, dice, out);
        }
    }
}

/// A character of a class. For a negated one, a few that are worth trying.
fn character(class: &crate::grammar::Class, dice: &mut Dice) -> char {
    if class.negated {
        let worth: Vec<char> = "az 09.,-+#'|<>/é海\u{301}\t".chars().filter(|c| class.holds(*c)).collect();
        return *dice.pick(&worth);
    }
    let (from, to) = *dice.pick(&class.ranges);
    let range: Vec<char> = (from..=to).collect();
    *dice.pick(&range)
}
