//! Goes through the tree with the names in scope.

use super::{Names, Sort, Symbol, broken};
use knotwright_checker::Source;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, Due, Motif, Name, Node, Statement, Take};
use smol_str::SmolStr;
use std::collections::HashMap;

/// The names of a file, not yet in order.
pub(super) fn walk(source: &Source) -> Names {
    let whole = Span::new(0, source.text.len());
    let mut walk = Walk {
        source,
        whole,
        names: Names::default(),
        scope: Vec::new(),
        threads: HashMap::new(),
        motifs: HashMap::new(),
        unknown: HashMap::new(),
    };
    walk.top_names();
    for statement in &source.parsed.tree.statements {
        walk.statement(statement, whole);
    }
    walk.names
}

pub(super) struct Walk<'t> {
    pub(super) source: &'t Source,
    whole: Span,
    pub(super) names: Names,
    /// Symbols in scope, the innermost last.
    scope: Vec<usize>,
    threads: HashMap<SmolStr, usize>,
    motifs: HashMap<SmolStr, usize>,
    /// Names that nothing gives, one symbol each.
    unknown: HashMap<(Sort, SmolStr), usize>,
}

impl<'t> Walk<'t> {
    /// Threads and motifs may be named before the line that gives them.
    fn top_names(&mut self) {
        let mut uses = 0;
        for statement in &self.source.parsed.tree.statements {
            match &statement.node {
                Node::Thread(thread) => self.give_top(&thread.name, Sort::Thread, None),
                Node::Motif(motif) => self.give_top(&motif.name, Sort::Motif, None),
                Node::Use { names, .. } => {
                    names.iter().for_each(|name| self.give_top(name, Sort::Motif, Some(uses)));
                    uses += 1;
                }
                _ => {}
            }
        }
    }

    fn give_top(&mut self, name: &Name, sort: Sort, from: Option<usize>) {
        let table = if sort == Sort::Thread { &self.threads } else { &self.motifs };
        if let Some(&taken) = table.get(&name.text) {
            self.names.mention(name.span, taken, false);
            return;
        }
        let symbol =
            Symbol { name: name.text.clone(), sort, given: Some(name.span), reach: self.whole, from };
        let number = self.names.add(symbol);
        self.names.mention(name.span, number, true);
        let table = if sort == Sort::Thread { &mut self.threads } else { &mut self.motifs };
        table.insert(name.text.clone(), number);
    }

    fn give(&mut self, name: &Name, sort: Sort, reach: Span) {
        let symbol = Symbol { name: name.text.clone(), sort, given: Some(name.span), reach, from: None };
        let number = self.names.add(symbol);
        self.names.mention(name.span, number, true);
        self.scope.push(number);
    }

    fn statement(&mut self, statement: &'t Statement, within: Span) {
        statement.node.calls(&mut |due, name| self.call(due, name));
        match &statement.node {
            Node::Motif(motif) => self.motif(motif, statement.span),
            Node::Colorway { block, .. } => self.colorway(block),
            Node::Take(Take { label: Some(label), .. }) => {
                let reach = Span { start: statement.span.start, end: within.end };
                self.give(label, Sort::Label, reach);
            }
            Node::For { variable, block, .. } => {
                let before = self.scope.len();
                self.give(variable, Sort::Counter, statement.span);
                self.block(block, statement.span);
                self.scope.truncate(before);
            }
            Node::Broken { block } => {
                broken::words(self, statement);
                block.iter().for_each(|block| self.block(block, statement.span));
            }
            node => node.block().into_iter().for_each(|block| self.block(block, statement.span)),
        }
    }

    /// A block of a statement that covers `within`.
    fn block(&mut self, block: &'t Block, within: Span) {
        let before = self.scope.len();
        for statement in &block.statements {
            self.statement(statement, within);
        }
        self.scope.truncate(before);
    }

    fn motif(&mut self, motif: &'t Motif, span: Span) {
        let before = self.scope.len();
        motif.params.iter().for_each(|param| self.give(param, Sort::Parameter, span));
        self.block(&motif.block, span);
        self.scope.truncate(before);
    }

    fn colorway(&mut self, block: &'t Block) {
        for statement in &block.statements {
            match &statement.node {
                Node::Thread(thread) => self.call(Due::Thread, &thread.name),
                Node::Broken { .. } => broken::words(self, statement),
                _ => {}
            }
        }
    }

    fn call(&mut self, due: Due, name: &Name) {
        const GIVEN: &[Sort] = &[Sort::Parameter, Sort::Counter];
        match due {
            Due::Thread | Due::Argument => self.find(name, GIVEN, Sort::Thread),
            Due::Number => self.find(name, GIVEN, Sort::Counter),
            Due::Label => self.find(name, &[Sort::Label], Sort::Label),
            Due::Motif => {
                let known = self.motifs.get(&name.text).copied();
                let symbol = known.unwrap_or_else(|| self.unknown(name, Sort::Motif));
                self.names.mention(name.span, symbol, false);
            }
        }
    }

    /// A name that means the innermost of `sorts` in scope, else a thread, else nothing: then it was meant as
    /// an `otherwise`.
    fn find(&mut self, name: &Name, sorts: &[Sort], otherwise: Sort) {
        let here = self.in_scope(&name.text, sorts).or_else(|| self.threads.get(&name.text).copied());
        let symbol = here.unwrap_or_else(|| self.unknown(name, otherwise));
        self.names.mention(name.span, symbol, false);
    }

    fn in_scope(&self, name: &str, sorts: &[Sort]) -> Option<usize> {
        let fits = |&&number: &&usize| {
            let symbol = &self.names.symbols[number];
            symbol.name == name && sorts.contains(&symbol.sort)
        };
        self.scope.iter().rev().find(fits).copied()
    }

    /// A name in a statement that does not parse: whatever it may mean.
    pub(super) fn guess(&mut self, name: &Name) {
        let all = [Sort::Parameter, Sort::Counter, Sort::Label];
        let here = self.in_scope(&name.text, &all);
        let found = here.or_else(|| self.threads.get(&name.text).copied());
        if let Some(symbol) = found.or_else(|| self.motifs.get(&name.text).copied()) {
            self.names.mention(name.span, symbol, false);
        }
    }

    fn unknown(&mut self, name: &Name, sort: Sort) -> usize {
        let key = (sort, name.text.clone());
        if let Some(&known) = self.unknown.get(&key) {
            return known;
        }
        let symbol = Symbol { name: name.text.clone(), sort, given: None, reach: self.whole, from: None };
        let number = self.names.add(symbol);
        self.unknown.insert(key, number);
        number
    }
}
