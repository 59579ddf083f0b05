//! Every name in every body, whether or not it is ever tied: is there such a thing, and is it of the right sort?

use super::{MotifRef, Script, Slot, nearest::nearest_name};
use crate::facts::Facts;
use crate::name_stack::NameStack;
use crate::rephrase::number_said;
use crate::{FactKind, FileId, Place};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    Due, Expect, Extent, Gives, Motif, Name, NameVisitor, Node, Statement, StrandBy, Take, Thread, Work,
    visit_names,
};
use rustc_hash::FxHashSet as HashSet;
use smol_str::{SmolStr, format_smolstr};

/// Checks the names of the checked file, and of those motifs of other files that it works, directly or not.
/// Gives back the latter.
pub(super) fn check_names(script: &Script, facts: &mut Facts) -> Vec<MotifRef> {
    let mut names = Names::new(script, facts);
    for statement in &script.source().parsed.tree.statements {
        names.top(statement);
    }
    let (mut seen, mut order) = (HashSet::default(), Vec::new());
    while let Some(motif) = names.worked.pop() {
        if seen.insert(motif)
            && let Some(statement) = script.statement_at(motif)
        {
            order.push(motif);
            names.file = motif.file;
            names.top(statement);
        }
    }
    order
}

/// Checks the names of some statements of a part of the checked file, before which the part gives no name. How many they give
/// to those after them.
pub(crate) fn check_part(script: &Script, statements: &[Statement], facts: &mut Facts) -> usize {
    let mut names = Names::new(script, facts);
    for statement in statements {
        visit_names(statement, Span::default(), &mut names);
    }
    names.scope.len()
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

struct Names<'a> {
    script: &'a Script,
    file: FileId,
    facts: &'a mut Facts,
    /// Where each name in scope is given, and what it stands for.
    scope: NameStack<'a, (Span, Sort)>,
    in_motif: bool,
    /// Whether the next statement is at the top of a file.
    at_top: bool,
    /// Motifs of other files that are worked, to be looked through too.
    worked: Vec<MotifRef>,
}

impl<'a> NameVisitor<'a> for Names<'a> {
    fn calls(&mut self, due: Due, name: &'a Name) {
        match due {
            Due::Thread => self.thread(name),
            Due::Bead => self.bead(name),
            Due::Number => self.number(name),
            Due::Label => self.label(name),
            Due::Argument => self.argument(name),
            // With its arguments, when all of the statement was reported.
            Due::Motif => {}
        }
    }

    fn gives(&mut self, what: Gives, name: &'a Name, _: Span) {
        match what {
            Gives::Parameter => self.name(name, Sort::Parameter),
            Gives::Counter => self.name(name, Sort::Counter),
            Gives::Label => self.name(name, Sort::Label),
            Gives::Thread | Gives::Bead | Gives::Motif | Gives::Import => {}
        }
    }

    fn mark(&self) -> usize {
        self.scope.len()
    }

    fn forget(&mut self, mark: usize) {
        self.scope.truncate(mark);
    }

    fn said(&mut self, statement: &'a Statement) -> bool {
        let at_top = std::mem::take(&mut self.at_top);
        if let Some(take) = statement.get() {
            self.by_place(take);
        }
        if let Some(work) = statement.get() {
            self.work(work);
        }
        if self.in_motif && matches!(statement.get(), Some(Expect::Start { .. })) {
            self.say(statement.span, FactKind::ExpectStartInMotif);
        }
        // The grammar reports a statement of the head that is in a block.
        at_top || !matches!(statement.node, Node::Head(_))
    }
}

impl<'a> Names<'a> {
    fn new(script: &'a Script, facts: &'a mut Facts) -> Self {
        Self {
            script,
            file: FileId::CHECKED,
            facts,
            scope: NameStack::default(),
            in_motif: false,
            at_top: false,
            worked: Vec::new(),
        }
    }

    fn say(&mut self, span: Span, kind: FactKind) {
        self.facts.say(Place { file: self.file, span }, kind);
    }

    /// A statement at the top of a file.
    fn top(&mut self, statement: &'a Statement) {
        self.in_motif = statement.is::<Motif>();
        self.at_top = true;
        visit_names(statement, Span::default(), self);
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
                if motif.file != FileId::CHECKED {
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
            let nearest = nearest_name(&name.text, file.motifs.keys());
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
        self.scope.push(&name.text, (name.span, sort));
    }

    fn first_given(&self, name: &SmolStr) -> Option<Place> {
        if let Some(&(span, _)) = self.scope.first(name) {
            return Some(Place { file: self.file, span });
        }
        self.script.thread(self.file, name)?;
        let statements = &self.script.file(self.file)?.source.parsed.tree.statements;
        let mut threads = statements.iter().filter_map(|statement| statement.get::<Thread>());
        let span = threads.find(|thread| thread.name.text == *name)?.name.span;
        Some(Place { file: self.file, span })
    }

    fn sort(&self, name: &SmolStr) -> Option<Sort> {
        self.scope.last(name, 0).map(|&(_, sort)| sort)
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

    /// A name where a bead is due. Beads have a name space of their own.
    fn bead(&mut self, name: &Name) {
        let Some(file) = self.script.file(self.file) else { return };
        if file.beads.contains_key(&name.text) || file.loose.contains(&name.text) || self.facts.is_full() {
            return;
        }
        let nearest = nearest_name(&name.text, file.beads.keys());
        self.say(name.span, FactKind::UnknownBead { name: name.text.clone(), nearest });
    }

    /// A name where a thread or a number may stand.
    fn argument(&mut self, name: &Name) {
        if !matches!(self.sort(&name.text), Some(Sort::Parameter | Sort::Counter)) {
            self.thread(name);
        }
    }

    fn label(&mut self, name: &Name) {
        if self.sort(&name.text) != Some(Sort::Label) && !self.is_loose(&name.text) {
            let nearest = match self.is_thread(&name.text) {
                true => Some(format_smolstr!("{} 1 from left", name.text)),
                false => place_said(&name.text).or_else(|| self.nearest(&name.text, &[Sort::Label], false)),
            };
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
                let said = number_said(text).map(SmolStr::from);
                let nearest = said.or_else(|| self.nearest(text, &[Sort::Parameter, Sort::Counter], false));
                self.say(name.span, FactKind::UnknownNumber { name: text.clone(), nearest });
            }
        }
    }

    /// The name most like `written` among those in scope of these sorts, and the threads if wanted.
    fn nearest(&self, written: &SmolStr, sorts: &[Sort], threads: bool) -> Option<SmolStr> {
        if self.facts.is_full() {
            return None;
        }
        let given = self.scope.from(0).iter();
        let scope = given.filter(|(_, (_, sort))| sorts.contains(sort)).map(|(name, _)| *name);
        let threads = self.script.file(self.file).filter(|_| threads).map(|file| file.threads.keys());
        nearest_name(written, scope.chain(threads.into_iter().flatten()))
    }
}

/// The place that a name says: `left1`, `leftmost` and `first` are `left 1`.
fn place_said(name: &str) -> Option<SmolStr> {
    let end = [("first", "left 1"), ("last", "right 1")].into_iter().find(|(word, _)| *word == name);
    if let Some((_, place)) = end {
        return Some(SmolStr::new_static(place));
    }
    ["left", "right"].into_iter().find_map(|side| {
        let rest = name.strip_prefix(side)?.trim_start_matches('-');
        let number = if rest == "most" { "1" } else { rest };
        let is_number = !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit());
        is_number.then(|| format_smolstr!("{side} {number}"))
    })
}
