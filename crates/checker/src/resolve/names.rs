//! Every name in every body, whether or not it is ever tied: is there such a thing, and is it of the right sort?

use super::{MotifRef, Script, Slot, nearest::nearest};
use crate::facts::Facts;
use crate::{FactKind, FileId, Place};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    Block, Due, Expect, Extent, Motif, Name, Node, Statement, StrandBy, Take, Work,
};
use rustc_hash::FxHashSet as HashSet;
use smol_str::SmolStr;

/// Checks the names of the checked file, and of those motifs of other files that it works, directly or not.
/// Gives back the latter.
pub(super) fn check(script: &Script, facts: &mut Facts) -> Vec<MotifRef> {
    let mut names =
        Names { script, file: FileId(0), facts, scope: Vec::new(), in_motif: false, worked: Vec::new() };
    for statement in &script.source().parsed.tree.statements {
        names.top(statement);
    }
    let (mut seen, mut order) = (HashSet::default(), Vec::new());
    while let Some(motif) = names.worked.pop() {
        if seen.insert(motif)
            && let Some(tree) = script.motif_at(motif)
        {
            order.push(motif);
            names.file = motif.file;
            names.motif(tree);
        }
    }
    order
}

/// Checks the names of some statements of a part of the checked file, before which the part gives no name.
pub(crate) fn check_part(script: &Script, statements: &[Statement], facts: &mut Facts) {
    let mut names =
        Names { script, file: FileId(0), facts, scope: Vec::new(), in_motif: false, worked: Vec::new() };
    for statement in statements {
        names.statement(statement);
    }
}

/// What a name in scope stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sort {
    /// A parameter: a number or a thread.
    Parameter,
    /// The counting name of a `for`.
    Counter,
    Label,
}

struct Entry<'a> {
    name: &'a SmolStr,
    span: Span,
    sort: Sort,
}

struct Names<'a> {
    script: &'a Script,
    file: FileId,
    facts: &'a mut Facts,
    scope: Vec<Entry<'a>>,
    in_motif: bool,
    /// Motifs of other files that are worked, to be looked through too.
    worked: Vec<MotifRef>,
}

impl<'a> Names<'a> {
    fn say(&mut self, span: Span, kind: FactKind) {
        self.facts.say(Place { file: self.file, span }, kind);
    }

    fn top(&mut self, statement: &'a Statement) {
        match &statement.node {
            Node::Motif(motif) => self.motif(motif),
            Node::Opening(block) | Node::Set(block) | Node::Closing(block) => self.block(block),
            Node::Broken { block: Some(block) } => self.block(block),
            Node::Strands(_) => self.calls(&statement.node),
            Node::Colorway { block, .. } => {
                for statement in &block.statements {
                    if let Node::Thread(thread) = &statement.node {
                        self.thread(&thread.name);
                    }
                }
            }
            _ => {}
        }
    }

    fn motif(&mut self, motif: &'a Motif) {
        self.in_motif = true;
        for param in &motif.params {
            self.name(param, Sort::Parameter);
        }
        self.block(&motif.block);
        self.scope.clear();
        self.in_motif = false;
    }

    fn block(&mut self, block: &'a Block) {
        let before = self.scope.len();
        for statement in &block.statements {
            self.statement(statement);
        }
        self.scope.truncate(before);
    }

    fn statement(&mut self, statement: &'a Statement) {
        self.calls(&statement.node);
        match &statement.node {
            Node::Take(take) => {
                self.by_place(take);
                take.label.iter().for_each(|label| self.name(label, Sort::Label));
            }
            Node::Work(work) => self.work(work),
            Node::For { variable, block, .. } => {
                let before = self.scope.len();
                self.name(variable, Sort::Counter);
                self.block(block);
                self.scope.truncate(before);
            }
            Node::Expect(Expect::Start { .. }) if self.in_motif => {
                self.say(statement.span, FactKind::ExpectStartInMotif);
            }
            // A statement of the head that stands in a block is told of by the grammar.
            Node::Colorway { .. }
            | Node::Gauge(_)
            | Node::Motif(_)
            | Node::Opening(_)
            | Node::Set(_)
            | Node::Closing(_) => {}
            node => node.block().into_iter().for_each(|block| self.block(block)),
        }
    }

    fn calls(&mut self, node: &'a Node) {
        node.calls(&mut |due, name| match due {
            Due::Thread => self.thread(name),
            Due::Number => self.number(name),
            Due::Label => self.label(name),
            Due::Argument => self.argument(name),
            Due::Motif => {}
        });
    }

    /// `then` and series go by place: there must be one.
    fn by_place(&mut self, take: &Take) {
        if !matches!(take.strand.by, StrandBy::Color { .. } | StrandBy::Label(_)) {
            return;
        }
        if let Some(then) = take.thens.first() {
            self.say(then.word, FactKind::NotByPlace { word: "then" });
        }
        let runs = take.runs.iter().chain(take.thens.iter().flat_map(|then| &then.runs));
        for run in runs {
            if matches!(run.extent, Extent::Series(_)) {
                self.say(run.span, FactKind::NotByPlace { word: "series" });
                return;
            }
        }
    }

    fn work(&mut self, work: &'a Work) {
        let slot = self.script.file(self.file).and_then(|file| file.motifs.get(&work.motif.text));
        match slot {
            Some(Slot::Known(motif)) => {
                if motif.file != FileId(0) {
                    self.worked.push(*motif);
                }
                self.arity(work, *motif);
            }
            Some(Slot::Unknown) => {}
            None => self.unknown_motif(&work.motif),
        }
    }

    fn arity(&mut self, work: &Work, motif: MotifRef) {
        let Some(tree) = self.script.motif_at(motif) else { return };
        let (wanted, given) = (tree.params.len(), work.args.len());
        if wanted != given {
            let defined = Place { file: motif.file, span: tree.name.span };
            let motif = work.motif.text.clone();
            self.say(work.motif.span, FactKind::ArgumentCount { motif, wanted, given, defined });
        }
    }

    fn unknown_motif(&mut self, name: &Name) {
        let Some(file) = self.script.file(self.file) else { return };
        if !file.loose.contains(&name.text) && !self.facts.is_full() {
            let nearest = nearest(&name.text, file.motifs.keys());
            self.say(name.span, FactKind::UnknownMotif { name: name.text.clone(), nearest });
        }
    }

    /// Gives a name in scope; it may not be taken there, nor be the name of a thread.
    fn name(&mut self, name: &'a Name, sort: Sort) {
        if !self.facts.is_full()
            && let Some(first) = self.first_given(&name.text)
        {
            self.say(name.span, FactKind::NameTaken { name: name.text.clone(), first });
        }
        self.scope.push(Entry { name: &name.text, span: name.span, sort });
    }

    fn first_given(&self, name: &SmolStr) -> Option<Place> {
        if let Some(entry) = self.scope.iter().find(|entry| entry.name == name) {
            return Some(Place { file: self.file, span: entry.span });
        }
        self.script.thread(self.file, name)?;
        let statements = &self.script.file(self.file)?.source.parsed.tree.statements;
        let span = statements.iter().find_map(|statement| match &statement.node {
            Node::Thread(thread) if thread.name.text == *name => Some(thread.name.span),
            _ => None,
        })?;
        Some(Place { file: self.file, span })
    }

    fn sort(&self, name: &SmolStr) -> Option<Sort> {
        self.scope.iter().rev().find(|entry| entry.name == name).map(|entry| entry.sort)
    }

    fn is_loose(&self, name: &SmolStr) -> bool {
        self.script.file(self.file).is_some_and(|file| file.loose.contains(name))
    }

    fn is_thread(&self, name: &SmolStr) -> bool {
        self.script.thread(self.file, name).is_some()
    }

    /// A name where a thread is due.
    fn thread(&mut self, name: &Name) {
        match self.sort(&name.text) {
            Some(Sort::Parameter) => {}
            Some(Sort::Counter) => {
                self.say(name.span, FactKind::NotAThread { name: name.text.clone(), given: None });
            }
            Some(Sort::Label) | None if self.is_thread(&name.text) || self.is_loose(&name.text) => {}
            Some(Sort::Label) | None => {
                let nearest = self.nearest(&name.text, &[Sort::Parameter], true);
                self.say(name.span, FactKind::UnknownThread { name: name.text.clone(), nearest });
            }
        }
    }

    /// A name where a thread or a number may stand.
    fn argument(&mut self, name: &Name) {
        if !matches!(self.sort(&name.text), Some(Sort::Parameter | Sort::Counter)) {
            self.thread(name);
        }
    }

    fn label(&mut self, name: &Name) {
        if self.sort(&name.text) != Some(Sort::Label) && !self.is_loose(&name.text) {
            let nearest = self.nearest(&name.text, &[Sort::Label], false);
            self.say(name.span, FactKind::UnknownLabel { name: name.text.clone(), nearest });
        }
    }

    /// A name where a number is due.
    fn number(&mut self, name: &Name) {
        let text = &name.text;
        match self.sort(text) {
            Some(Sort::Parameter | Sort::Counter) => {}
            _ if self.is_loose(text) => {}
            _ if self.is_thread(text) => {
                self.say(name.span, FactKind::NotANumber { name: text.clone(), given: None });
            }
            _ => {
                let nearest = self.nearest(text, &[Sort::Parameter, Sort::Counter], false);
                self.say(name.span, FactKind::UnknownNumber { name: text.clone(), nearest });
            }
        }
    }

    /// The name most like `written` among those in scope of these sorts, and the threads if wanted.
    fn nearest(&self, written: &SmolStr, sorts: &[Sort], threads: bool) -> Option<SmolStr> {
        if self.facts.is_full() {
            return None;
        }
        let scope = self.scope.iter().filter(|entry| sorts.contains(&entry.sort)).map(|entry| entry.name);
        let threads = self.script.file(self.file).filter(|_| threads).map(|file| file.threads.keys());
        nearest(written, scope.chain(threads.into_iter().flatten()))
    }
}
