//! Goes through the tree with the names in scope.

use super::{NameIndex, NameSort, NamedSymbol, broken};
use knotwright_checker::Source;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    Broken, Child, Due, Gives, Import, Name, NameVisitor, Statement, visit_names,
};
use smol_str::SmolStr;
use std::collections::HashMap;

/// The names of a file that are mentioned in statements that touch `wanted`, not yet in order.
pub(super) fn walk(source: &Source, wanted: Span) -> NameIndex {
    let whole = Span::new(0, source.text.len());
    let mut walk = Walk {
        source,
        whole,
        wanted,
        names: NameIndex::default(),
        scope: Vec::new(),
        threads: HashMap::new(),
        beads: HashMap::new(),
        motifs: HashMap::new(),
        unknown: HashMap::new(),
    };
    walk.top_names();
    for statement in &source.parsed.tree.statements {
        visit_names(statement, whole, &mut walk);
    }
    walk.names
}

pub(super) struct Walk<'t> {
    pub(super) source: &'t Source,
    whole: Span,
    wanted: Span,
    pub(super) names: NameIndex,
    /// Symbols in scope, the innermost last.
    scope: Vec<usize>,
    threads: HashMap<SmolStr, usize>,
    beads: HashMap<SmolStr, usize>,
    motifs: HashMap<SmolStr, usize>,
    /// NameIndex that nothing gives, one symbol each.
    unknown: HashMap<(NameSort, SmolStr), usize>,
}

impl<'t> Walk<'t> {
    /// Threads, beads and motifs may be named before the line that gives them.
    fn top_names(&mut self) {
        let mut uses = 0;
        for statement in &self.source.parsed.tree.statements {
            statement.node.children(&mut |child| match child {
                Child::Gives(Gives::Thread, name) => self.give_top(name, NameSort::Thread, None),
                Child::Gives(Gives::Bead, name) => self.give_top(name, NameSort::Bead, None),
                Child::Gives(Gives::Motif, name) => self.give_top(name, NameSort::Motif, None),
                Child::Gives(Gives::Import, name) => self.give_top(name, NameSort::Motif, Some(uses)),
                _ => {}
            });
            uses += usize::from(statement.is::<Import>());
        }
    }

    fn give_top(&mut self, name: &Name, sort: NameSort, from: Option<usize>) {
        if let Some(&taken) = self.table(sort).get(&name.text) {
            self.names.mention(name.span, taken, false);
            return;
        }
        let symbol =
            NamedSymbol { name: name.text.clone(), sort, given: Some(name.span), reach: self.whole, from };
        let number = self.names.add(symbol);
        self.names.mention(name.span, number, true);
        self.table(sort).insert(name.text.clone(), number);
    }

    /// By name, what is given at the top of the file: threads, beads and motifs have a name space each.
    fn table(&mut self, sort: NameSort) -> &mut HashMap<SmolStr, usize> {
        match sort {
            NameSort::Bead => &mut self.beads,
            NameSort::Motif => &mut self.motifs,
            NameSort::Thread | NameSort::Parameter | NameSort::Counter | NameSort::Label => &mut self.threads,
        }
    }

    fn give(&mut self, name: &Name, sort: NameSort, reach: Span) {
        let symbol = NamedSymbol { name: name.text.clone(), sort, given: Some(name.span), reach, from: None };
        let number = self.names.add(symbol);
        self.names.mention(name.span, number, true);
        self.scope.push(number);
    }

    /// A name that means the innermost of `sorts` in scope, else a thread, else nothing: then it was meant as
    /// an `otherwise`.
    fn find(&mut self, name: &Name, sorts: &[NameSort], otherwise: NameSort) {
        let here = self.in_scope(&name.text, sorts).or_else(|| self.threads.get(&name.text).copied());
        let symbol = here.unwrap_or_else(|| self.unknown(name, otherwise));
        self.names.mention(name.span, symbol, false);
    }

    /// A name that only the top of the file can give.
    fn at_top(&mut self, name: &Name, sort: NameSort) {
        let known = self.table(sort).get(&name.text).copied();
        let symbol = known.unwrap_or_else(|| self.unknown(name, sort));
        self.names.mention(name.span, symbol, false);
    }

    fn in_scope(&self, name: &str, sorts: &[NameSort]) -> Option<usize> {
        let fits = |&&number: &&usize| {
            let symbol = &self.names.symbols[number];
            symbol.name == name && sorts.contains(&symbol.sort)
        };
        self.scope.iter().rev().find(fits).copied()
    }

    /// A name in a statement that does not parse: whatever it may mean.
    pub(super) fn guess(&mut self, name: &Name) {
        let all = [NameSort::Parameter, NameSort::Counter, NameSort::Label];
        let here = self.in_scope(&name.text, &all);
        let found = here.or_else(|| self.threads.get(&name.text).copied());
        let found = found.or_else(|| self.beads.get(&name.text).copied());
        if let Some(symbol) = found.or_else(|| self.motifs.get(&name.text).copied()) {
            self.names.mention(name.span, symbol, false);
        }
    }

    fn unknown(&mut self, name: &Name, sort: NameSort) -> usize {
        let key = (sort, name.text.clone());
        if let Some(&known) = self.unknown.get(&key) {
            return known;
        }
        let symbol =
            NamedSymbol { name: name.text.clone(), sort, given: None, reach: self.whole, from: None };
        let number = self.names.add(symbol);
        self.unknown.insert(key, number);
        number
    }
}

impl<'t> NameVisitor<'t> for Walk<'t> {
    fn calls(&mut self, due: Due, name: &'t Name) {
        if !self.wanted.meets(name.span) {
            return;
        }
        const GIVEN: &[NameSort] = &[NameSort::Parameter, NameSort::Counter];
        match due {
            Due::Thread | Due::Argument => self.find(name, GIVEN, NameSort::Thread),
            Due::Number => self.find(name, GIVEN, NameSort::Counter),
            Due::Label => self.find(name, &[NameSort::Label], NameSort::Label),
            Due::Bead => self.at_top(name, NameSort::Bead),
            Due::Motif => self.at_top(name, NameSort::Motif),
        }
    }

    fn gives(&mut self, what: Gives, name: &'t Name, reach: Span) {
        let sort = match what {
            Gives::Parameter => NameSort::Parameter,
            Gives::Counter => NameSort::Counter,
            Gives::Label => NameSort::Label,
            // They were gathered before.
            Gives::Thread | Gives::Bead | Gives::Motif | Gives::Import => return,
        };
        self.give(name, sort, reach);
    }

    fn mark(&self) -> usize {
        self.scope.len()
    }

    fn forget(&mut self, mark: usize) {
        self.scope.truncate(mark);
    }

    fn said(&mut self, statement: &'t Statement) -> bool {
        let is_wanted = self.wanted.meets(statement.span);
        if is_wanted && statement.is::<Broken>() {
            broken::words(self, statement);
        }
        is_wanted
    }
}
