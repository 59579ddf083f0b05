//! Every name in every body, whether or not it is ever tied: is there such a thing, and is it of the right sort?

use super::unknown::{GivenName, NameCall, Unknowns};
use super::{MotifRef, Script, Slot};
use crate::facts::Facts;
use crate::name_stack::NameStack;
use crate::rephrase::number_said;
use crate::rules::unknown_name::spaced;
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
    names.unknown.tell(script, names.facts);
    order
}

/// Checks the names of some statements of a part of the checked file, before which the part gives no name. How many they give
/// to those after them.
pub(crate) fn check_part(script: &Script, statements: &[Statement], facts: &mut Facts) -> usize {
    let mut names = Names::new(script, facts);
    let holds = |part: &&Statement| {
        statements
            .first()
            .is_some_and(|first| part.span.start <= first.span.start && first.span.end <= part.span.end)
    };
    let part = script.source().parsed.tree.statements.iter().find(holds).map(|part| part.span);
    let part = part.unwrap_or_default();
    names.top = part.start;
    for statement in statements {
        visit_names(statement, part, &mut names);
    }
    let given = names.scope.len();
    names.unknown.tell(script, names.facts);
    given
}

/// A name in scope.
#[derive(Debug, Clone, Copy)]
struct ScopedName {
    sort: Sort,
    /// Where it is given.
    span: Span,
    /// Up to where it is known.
    end: u32,
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
    scope: NameStack<'a, ScopedName>,
    in_motif: bool,
    /// Where the statement at the top of the file begins.
    top: u32,
    /// Whether the next statement is at the top of a file.
    at_top: bool,
    /// Motifs of other files that are worked, to be looked through too.
    worked: Vec<MotifRef>,
    unknown: Unknowns<'a>,
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

    fn gives(&mut self, what: Gives, name: &'a Name, reach: Span) {
        let scoped = |sort| ScopedName { sort, span: name.span, end: reach.end };
        match what {
            Gives::Parameter => self.name(name, scoped(Sort::Parameter)),
            Gives::Counter => self.name(name, scoped(Sort::Counter)),
            Gives::Label => self.name(name, scoped(Sort::Label)),
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
            top: 0,
            at_top: false,
            worked: Vec::new(),
            unknown: Unknowns::default(),
        }
    }

    fn say(&mut self, span: Span, kind: FactKind) {
        self.facts.say(Place { file: self.file, span }, kind);
    }

    /// A statement at the top of a file.
    fn top(&mut self, statement: &'a Statement) {
        self.in_motif = statement.is::<Motif>();
        self.at_top = true;
        self.top = statement.span.start;
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
            None => self.missing(Due::Motif, &work.motif, None),
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

    /// Gives a name in scope; it may not be taken there, nor be the name of a thread.
    fn name(&mut self, name: &'a Name, scoped: ScopedName) {
        if !self.facts.is_full()
            && let Some(first) = self.first_given(&name.text)
        {
            self.say(name.span, FactKind::NameTaken { name: name.text.clone(), first });
        }
        self.scope.push(&name.text, scoped);
    }

    fn first_given(&self, name: &SmolStr) -> Option<Place> {
        if let Some(&ScopedName { span, .. }) = self.scope.first(name) {
            return Some(Place { file: self.file, span });
        }
        self.script.thread(self.file, name)?;
        let statements = &self.script.file(self.file)?.source.parsed.tree.statements;
        let mut threads = statements.iter().filter_map(|statement| statement.get::<Thread>());
        let span = threads.find(|thread| thread.name.text == *name)?.name.span;
        Some(Place { file: self.file, span })
    }

    fn sort(&self, name: &SmolStr) -> Option<Sort> {
        self.scope.last(name, 0).map(|scoped| scoped.sort)
    }

    /// Whether a statement that does not parse seems to give it.
    fn is_loose(&self, name: &SmolStr) -> bool {
        self.script.file(self.file).is_some_and(|file| file.loose.contains(name))
    }

    fn is_thread(&self, name: &SmolStr) -> bool {
        self.script.thread(self.file, name).is_some()
    }

    /// A name where a thread is due.
    fn thread(&mut self, name: &'a Name) {
        match self.sort(&name.text) {
            Some(Sort::Parameter) => {}
            Some(Sort::Counter) => {
                self.say(name.span, FactKind::NotAThread { name: name.text.clone(), given: None });
            }
            Some(Sort::Label) | None if self.is_thread(&name.text) => {}
            Some(Sort::Label) | None => self.missing(Due::Thread, name, None),
        }
    }

    /// A name where a bead is due. Beads have a name space of their own.
    fn bead(&mut self, name: &'a Name) {
        if self.script.bead(self.file, &name.text).is_none() {
            self.missing(Due::Bead, name, None);
        }
    }

    /// A name where a thread or a number may stand.
    fn argument(&mut self, name: &'a Name) {
        if !matches!(self.sort(&name.text), Some(Sort::Parameter | Sort::Counter)) {
            self.thread(name);
        }
    }

    fn label(&mut self, name: &'a Name) {
        if self.sort(&name.text) != Some(Sort::Label) {
            let said = match self.is_thread(&name.text) {
                true => Some(format_smolstr!("{} 1 from left", name.text)),
                false => place_said(&name.text),
            };
            self.missing(Due::Label, name, said);
        }
    }

    /// A name where a number is due.
    fn number(&mut self, name: &'a Name) {
        let text = &name.text;
        match self.sort(text) {
            Some(Sort::Parameter | Sort::Counter) => {}
            _ if self.is_thread(text) && !self.is_loose(text) => {
                self.say(name.span, FactKind::NotANumber { name: text.clone(), given: None });
            }
            _ => {
                let said = number_said(text).map(SmolStr::from).or_else(|| spaced(text).map(SmolStr::from));
                self.missing(Due::Number, name, said);
            }
        }
    }

    /// A name that is not there. `said`: what it surely says, if it is none.
    fn missing(&mut self, due: Due, name: &'a Name, said: Option<SmolStr>) {
        if self.is_loose(&name.text) {
            return;
        }
        let sorts: &[Sort] = match due {
            Due::Thread => &[Sort::Parameter],
            Due::Number => &[Sort::Parameter, Sort::Counter],
            Due::Label => &[Sort::Label],
            // Where a thread or a number may stand, a thread is missing.
            Due::Argument | Due::Bead | Due::Motif => &[],
        };
        let is_own = self.file == FileId::CHECKED;
        let given = |&(name, scoped): &(&'a SmolStr, ScopedName)| GivenName {
            name,
            span: is_own.then_some(scoped.span),
            end: Some(scoped.end),
        };
        let fit = self.scope.from(0).iter().filter(|(_, scoped)| sorts.contains(&scoped.sort)).map(given);
        let (file, top) = (self.file, self.top);
        self.unknown.add(NameCall { due, name, file, top, said }, fit);
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
