//! Whether a grammar accepts a row of symbols: Earley's recognizer (J. Earley, An efficient context-free parsing
//! algorithm, 1970), with the remedy for empty rules of Aycock and Horspool (2002). It knows nothing of our parser.

use crate::grammar::{Grammar, Part};
use std::collections::{BTreeMap, HashSet};

/// What a terminal of the grammar is compared with.
pub trait Symbol {
    /// Whether the terminal `part` (a literal, a class, or a rule that is taken whole) stands for this symbol.
    fn fits(&self, part: &Part) -> bool;
}

#[derive(Debug, Clone)]
enum Piece {
    Terminal(Part),
    Rule(usize),
}

/// A grammar in plain rules: repetitions and groups have become rules of their own.
pub struct Recognizer {
    /// By rule, its ways.
    rules: Vec<Vec<Vec<Piece>>>,
    empty: Vec<bool>,
    names: BTreeMap<String, usize>,
}

/// A way that is partly gone: rule, way, how far, and where it began.
type Item = (usize, usize, usize, usize);

impl Recognizer {
    /// `whole` are the rules that one symbol stands for.
    pub fn new(grammar: &Grammar, whole: &[&str]) -> Self {
        let mut this = Self { rules: Vec::new(), empty: Vec::new(), names: BTreeMap::new() };
        for name in &grammar.order {
            let index = this.rule();
            this.names.insert(name.clone(), index);
        }
        for (name, part) in &grammar.rules {
            let ways = this.ways(part, whole);
            this.rules[this.names[name]] = ways;
        }
        this.find_empty();
        this
    }

    fn rule(&mut self) -> usize {
        self.rules.push(Vec::new());
        self.rules.len() - 1
    }

    fn ways(&mut self, part: &Part, whole: &[&str]) -> Vec<Vec<Piece>> {
        match part {
            Part::Choice(parts) => parts.iter().flat_map(|part| self.ways(part, whole)).collect(),
            Part::Sequence(parts) => vec![parts.iter().map(|part| self.piece(part, whole)).collect()],
            Part::Optional(inner) => {
                let mut ways = self.ways(inner, whole);
                ways.push(Vec::new());
                ways
            }
            single => vec![vec![self.piece(single, whole)]],
        }
    }

    fn piece(&mut self, part: &Part, whole: &[&str]) -> Piece {
        match part {
            Part::Literal(_) | Part::Class(_) => Piece::Terminal(part.clone()),
            Part::Rule(name) if whole.contains(&name.as_str()) => Piece::Terminal(part.clone()),
            Part::Rule(name) => Piece::Rule(self.names[name]),
            Part::Many(inner) => self.repetition(inner, whole, false),
            Part::Some(inner) => self.repetition(inner, whole, true),
            group => {
                let index = self.rule();
                let ways = self.ways(group, whole);
                self.rules[index] = ways;
                Piece::Rule(index)
            }
        }
    }

    fn repetition(&mut self, inner: &Part, whole: &[&str], at_least_one: bool) -> Piece {
        let index = self.rule();
        let piece = self.piece(inner, whole);
        let first = if at_least_one { vec![piece.clone()] } else { Vec::new() };
        self.rules[index] = vec![first, vec![Piece::Rule(index), piece]];
        Piece::Rule(index)
    }

    fn find_empty(&mut self) {
        self.empty = vec![false; self.rules.len()];
        loop {
            let can_be_empty = |piece: &Piece| matches!(piece, Piece::Rule(rule) if self.empty[*rule]);
            let found = (0..self.rules.len()).find(|rule| {
                !self.empty[*rule] && self.rules[*rule].iter().any(|way| way.iter().all(can_be_empty))
            });
            match found {
                Some(rule) => self.empty[rule] = true,
                None => return,
            }
        }
    }

    /// Whether the rule `start` accepts these symbols, all of them.
    pub fn accepts<S: Symbol>(&self, start: &str, symbols: &[S]) -> bool {
        let start = self.names[start];
        let mut sets: Vec<Vec<Item>> = vec![Vec::new(); symbols.len() + 1];
        let mut known: Vec<HashSet<Item>> = vec![HashSet::new(); symbols.len() + 1];
        for way in 0..self.rules[start].len() {
            add(&mut sets, &mut known, 0, (start, way, 0, 0));
        }
        for at in 0..=symbols.len() {
            let mut next = 0;
            while next < sets[at].len() {
                let item = sets[at][next];
                self.step(item, at, symbols, &mut sets, &mut known);
                next += 1;
            }
        }
        let done = |item: &Item| item.0 == start && item.3 == 0 && item.2 == self.rules[item.0][item.1].len();
        sets[symbols.len()].iter().any(done)
    }

    fn step<S: Symbol>(
        &self,
        (rule, way, dot, origin): Item,
        at: usize,
        symbols: &[S],
        sets: &mut [Vec<Item>],
        known: &mut [HashSet<Item>],
    ) {
        match self.rules[rule][way].get(dot) {
            Some(Piece::Terminal(part)) => {
                if symbols.get(at).is_some_and(|symbol| symbol.fits(part)) {
                    add(sets, known, at + 1, (rule, way, dot + 1, origin));
                }
            }
            Some(Piece::Rule(inner)) => {
                for way in 0..self.rules[*inner].len() {
                    add(sets, known, at, (*inner, way, 0, at));
                }
                if self.empty[*inner] {
                    add(sets, known, at, (rule, way, dot + 1, origin));
                }
            }
            None => {
                let waiting = |item: &&Item| matches!(self.rules[item.0][item.1].get(item.2), Some(Piece::Rule(inner)) if *inner == rule);
                let moved: Vec<Item> = sets[origin].iter().filter(waiting).copied().collect();
                for (rule, way, dot, origin) in moved {
                    add(sets, known, at, (rule, way, dot + 1, origin));
                }
            }
        }
    }
}

fn add(sets: &mut [Vec<Item>], known: &mut [HashSet<Item>], at: usize, item: Item) {
    if known[at].insert(item) {
        sets[at].push(item);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    impl Symbol for char {
        fn fits(&self, part: &Part) -> bool {
            match part {
                Part::Literal(text) => text.chars().eq([*self]),
                Part::Class(class) => class.holds(*self),
                _ => false,
            }
        }
    }

    #[test]
    fn sums_are_told_from_what_is_none() {
        let grammar = Grammar::read("Sum ::= Term ( '+' Term )*  Term ::= [0-9]+ | '(' Sum? ')'");
        let recognizer = Recognizer::new(&grammar, &[]);
        for (text, expected) in
            [("1+2", true), ("(12+(3))+4", true), ("()", true), ("", false), ("1+", false), ("(1", false)]
        {
            let symbols: Vec<char> = text.chars().collect();
            assert_eq!(recognizer.accepts("Sum", &symbols), expected, "{text}");
        }
    }
}
