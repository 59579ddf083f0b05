//! Goes through the tree with the names in scope.

use super::{Names, Sort, Symbol, broken};
use knotwright_checker::Source;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    Block, Expect, Expr, Extent, GoalPlace, List, ListItem, ListShape, Motif, Name, Node, Range, Run, Series,
    Statement, StrandBy, Strands, Take, Work,
};
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
        match &statement.node {
            Node::Motif(motif) => self.motif(motif, statement.span),
            Node::Strands(Strands::Across(list)) | Node::Expect(Expect::List(list)) => self.list(list),
            Node::Strands(Strands::FromEdges { left, right }) => self.items(left.iter().chain(right)),
            Node::Colorway { block, .. } => self.colorway(block),
            Node::Take(take) => self.take(take, statement.span, within),
            Node::On { range, block } => {
                self.range(range);
                self.block(block, statement.span);
            }
            Node::Work(work) => self.work(work),
            Node::Repeat { times, block } => {
                self.number(times);
                self.block(block, statement.span);
            }
            Node::For { variable, series, block } => {
                self.series(series);
                let before = self.scope.len();
                self.give(variable, Sort::Counter, statement.span);
                self.block(block, statement.span);
                self.scope.truncate(before);
            }
            Node::Leader { strand, promise, .. } => {
                self.strand(&strand.by);
                promise.iter().for_each(|promise| self.thread(promise));
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
                Node::Thread(thread) => self.thread(&thread.name),
                Node::Broken { .. } => broken::words(self, statement),
                _ => {}
            }
        }
    }

    fn take(&mut self, take: &'t Take, span: Span, within: Span) {
        self.strand(&take.strand.by);
        take.promise.iter().for_each(|promise| self.thread(promise));
        self.runs(&take.runs);
        take.thens.iter().for_each(|then| self.runs(&then.runs));
        if let Some(label) = &take.label {
            let reach = Span { start: span.start, end: within.end };
            self.give(label, Sort::Label, reach);
        }
    }

    fn strand(&mut self, by: &'t StrandBy) {
        match by {
            StrandBy::Left(number) | StrandBy::Right(number) => self.number(number),
            StrandBy::Color { color, number, .. } => {
                self.thread(color);
                self.number(number);
            }
            StrandBy::Label(label) => self.find(label, &[Sort::Label], Sort::Label),
            StrandBy::CenterLeft | StrandBy::CenterRight | StrandBy::Center => {}
        }
    }

    fn runs(&mut self, runs: &'t [Run]) {
        for run in runs {
            match &run.extent {
                Extent::Count { count, over } => {
                    self.number(count);
                    over.iter().for_each(|over| self.thread(over));
                }
                Extent::Over(thread) | Extent::Until(thread) => self.thread(thread),
                Extent::To(goal) => match &goal.place {
                    GoalPlace::Left(number) | GoalPlace::Right(number) => self.number(number),
                    GoalPlace::CenterLeft | GoalPlace::CenterRight | GoalPlace::Center | GoalPlace::Edge => {}
                },
                Extent::Series(series) => self.series(series),
            }
        }
    }

    fn range(&mut self, range: &'t Range) {
        match range {
            Range::Left(number) | Range::Right(number) | Range::Center(number) | Range::Inside(number) => {
                self.number(number);
            }
            Range::Between(first, last) => {
                self.number(first);
                self.number(last);
            }
        }
    }

    fn series(&mut self, series: &'t Series) {
        self.number(&series.first);
        self.number(&series.last);
        series.by.iter().for_each(|by| self.number(by));
    }

    fn list(&mut self, list: &'t List) {
        match &list.shape {
            ListShape::Plain(all) | ListShape::Mirror(all) => self.items(all.iter()),
            ListShape::Halves(left, right) => self.items(left.iter().chain(right)),
            ListShape::MirrorAround(half, middle) => self.items(half.iter().chain(std::iter::once(middle))),
        }
    }

    fn items(&mut self, items: impl Iterator<Item = &'t ListItem>) {
        for item in items {
            item.count.iter().for_each(|count| self.number(count));
            self.thread(&item.thread);
        }
    }

    fn work(&mut self, work: &'t Work) {
        let symbol = match self.motifs.get(&work.motif.text) {
            Some(&known) => known,
            None => self.unknown(&work.motif, Sort::Motif),
        };
        self.names.mention(work.motif.span, symbol, false);
        for argument in &work.args {
            match argument {
                Expr::Name(name) => self.find(name, &[Sort::Parameter, Sort::Counter], Sort::Thread),
                expr => self.number(expr),
            }
        }
    }

    fn number(&mut self, expr: &'t Expr) {
        match expr {
            Expr::Number(_) => {}
            Expr::Name(name) => self.find(name, &[Sort::Parameter, Sort::Counter], Sort::Counter),
            Expr::Operation(operation) => {
                self.number(&operation.left);
                self.number(&operation.right);
            }
            Expr::Group { inner, .. } => self.number(inner),
        }
    }

    fn thread(&mut self, name: &Name) {
        self.find(name, &[Sort::Parameter, Sort::Counter], Sort::Thread);
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
