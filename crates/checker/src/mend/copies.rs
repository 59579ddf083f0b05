//! Lines that may have been forgotten and stand elsewhere in the file: those not far away in the same block; and a motif or
//! a block in one line from anywhere, a motif also in a mirror, and with another of the threads that it is worked with.

use super::structure::{gives_label, is_line};
use crate::FileId;
use crate::Source;
use crate::resolve::{Script, ThreadId};
use crate::tie::{Copied, CopiedBut};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Block, Expr, ForBlock, Motif, Statement, Take, Work};
use knotwright_numbers::ToNumber;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};
use std::cell::OnceCell;
use std::sync::Arc;

/// Statements of one block farther apart than this are no copies of one another.
pub(super) const FAR: usize = 12;

/// The most lines that are tried at every place.
const MOST_LINES: usize = 16;

/// What may be copied.
#[derive(Debug)]
pub(super) struct Copies {
    source: Arc<Source>,
    /// Those that may stand anywhere but in a motif, and their texts.
    anywhere: Vec<(Copied, String)>,
    motifs: Vec<Span>,
}

impl Copies {
    pub(super) fn of(script: &Script) -> Self {
        let source = script.source();
        let mut found =
            Finder { script, local: OnceCell::new(), seen: HashSet::default(), found: Vec::new() };
        let blocks = || source.parsed.tree.walk().filter_map(|holder| holder.node.block());
        let steps =
            || blocks().flat_map(|block| &block.statements).filter(|step| found.may_stand_anywhere(step));
        let steps: Vec<&Statement> = steps().collect();
        let threads = found.threads_of(&steps);
        let mut texts = HashSet::default();
        let is_new = |step: &&Statement| texts.insert(step.span.of(&source.text));
        let steps: Vec<&Statement> = steps.into_iter().filter(is_new).collect();
        steps.iter().for_each(|step| found.add(step, CopiedBut::Same));
        let works = steps.iter().filter(|step| step.is::<Work>());
        works.for_each(|work| found.add(work, CopiedBut::Mirrored));
        found.with_other_threads(&steps, &threads);
        Self { source: Arc::clone(source), anywhere: found.found, motifs: motifs(source) }
    }

    /// What might have been forgotten before the statement of that number in a block.
    pub(super) fn before<'c>(
        &'c self,
        block: &'c Block,
        index: usize,
    ) -> impl Iterator<Item = Copied> + use<'c> {
        let text = |at: usize| block.statements[at].span.of(&self.source.text);
        let beside = index.checked_sub(1).map(text).into_iter().chain([text(index)]);
        self.unlike(block, index, beside)
    }

    /// The same, of the end of a block.
    pub(super) fn after<'c>(
        &'c self,
        block: &'c Block,
        index: usize,
    ) -> impl Iterator<Item = Copied> + use<'c> {
        let last = block.statements[index].span.of(&self.source.text);
        self.unlike(block, index, [last])
    }

    /// What does not say the same as one `beside` it.
    fn unlike<'c>(
        &'c self,
        block: &'c Block,
        index: usize,
        beside: impl IntoIterator<Item = &'c str>,
    ) -> impl Iterator<Item = Copied> {
        // A few dozen at most, and mostly the same: a list is sooner searched than a set is made.
        let mut seen: Vec<&str> = beside.into_iter().collect();
        let near = index.saturating_sub(FAR)..(index + FAR).min(block.statements.len());
        let near = block.statements[near].iter().filter(|step| step.is_step() && !gives_label(step));
        let near = near.map(|step| (copy_of(step), step.span.of(&self.source.text)));
        // There it might work itself.
        let is_in_motif = is_in_motif(&self.motifs, block);
        let anywhere = self.anywhere.iter().filter(move |_| !is_in_motif);
        let anywhere = anywhere.map(|(copied, text)| (*copied, text.as_str()));
        let mut is_new = move |text: &'c str| {
            let is_new = !seen.contains(&text);
            seen.extend(is_new.then_some(text));
            is_new
        };
        near.chain(anywhere).filter(move |(_, text)| is_new(text)).map(|(copied, _)| copied)
    }
}

/// The motifs of a file.
pub(super) fn motifs(source: &Source) -> Vec<Span> {
    let is_motif = |statement: &&Statement| statement.is::<Motif>();
    source.parsed.tree.statements.iter().filter(is_motif).map(|motif| motif.span).collect()
}

/// Whether a block stands in one of these motifs.
pub(super) fn is_in_motif(motifs: &[Span], block: &Block) -> bool {
    motifs.iter().any(|motif| motif.start < block.open.start && block.open.end <= motif.end)
}

fn copy_of(step: &Statement) -> Copied {
    Copied { start: step.span.start, but: CopiedBut::Same }
}

/// Names that are known only in a block or a motif.
fn local_names(source: &Source) -> HashSet<&str> {
    let mut names = HashSet::default();
    for statement in source.parsed.tree.walk() {
        let motif = statement.get::<Motif>().into_iter().flat_map(|motif| &motif.params);
        let count = statement.get::<ForBlock>().map(|count| &count.variable);
        let label = statement.get::<Take>().and_then(|take| take.label.as_deref());
        names.extend(motif.chain(count).chain(label).map(|name| name.text.as_str()));
    }
    names
}

/// By motif and number of the argument: how often it is worked, and with which threads, or something else.
type WorkedWith<'s> = HashMap<(&'s str, usize), (usize, HashSet<Option<ThreadId>>)>;

struct Finder<'s> {
    script: &'s Script,
    /// Names that are known only in a block or a motif, once somebody has asked for them.
    local: OnceCell<HashSet<&'s str>>,
    seen: HashSet<String>,
    found: Vec<(Copied, String)>,
}

impl<'s> Finder<'s> {
    /// A motif or a block, in one line, that needs no name which is known only there.
    fn may_stand_anywhere(&self, step: &Statement) -> bool {
        let source = self.script.source();
        let is_whole = || step.is::<Work>() || step.node.block().is_some();
        let is_short = || is_line(step.span.of(&source.text));
        let has_local_name = || {
            let tokens = &source.parsed.tokens;
            let first = tokens.partition_point(|token| token.span.start < step.span.start);
            let mut own = tokens[first..].iter().take_while(|token| token.span.end <= step.span.end);
            let local = self.local.get_or_init(|| local_names(source));
            own.any(|token| local.contains(token.span.of(&source.text)))
        };
        step.is_step() && is_whole() && is_short() && !has_local_name()
    }

    fn add(&mut self, step: &Statement, but: CopiedBut) {
        if self.found.len() == MOST_LINES {
            return;
        }
        let text = copied_text(self.script, step, but);
        if self.seen.insert(text.clone()) {
            self.found.push((Copied { start: step.span.start, but }, text));
        }
    }

    /// What every motif is worked with, however often.
    fn threads_of(&self, steps: &[&'s Statement]) -> WorkedWith<'s> {
        let mut all = WorkedWith::default();
        for work in steps.iter().filter_map(|step| step.get::<Work>()) {
            for (at, argument) in work.args.iter().enumerate() {
                let (times, threads) = all.entry((work.motif.text.as_str(), at)).or_default();
                *times += 1;
                threads.insert(self.thread(argument));
            }
        }
        all
    }

    /// A motif that is worked with several threads in turn may be worked with each of the others, too.
    fn with_other_threads(&mut self, steps: &[&'s Statement], worked: &WorkedWith<'s>) {
        let threads = 0..self.script.head.threads.len().to_u16();
        for (step, work) in steps.iter().filter_map(|step| Some((*step, step.get::<Work>()?))) {
            for (at, argument) in work.args.iter().enumerate() {
                let Some(thread) = self.thread(argument) else { continue };
                let (times, with) = &worked[&(work.motif.text.as_str(), at)];
                if *times > 1 && with.len() == 1 {
                    continue;
                }
                for other in threads.clone().filter(|&other| other != thread) {
                    self.add(step, CopiedBut::Argument(argument.span(), other));
                }
            }
        }
    }

    /// The thread that an argument names.
    fn thread(&self, argument: &Expr) -> Option<ThreadId> {
        let Expr::Name(name) = argument else { return None };
        self.script.thread(FileId::CHECKED, &name.text)
    }
}

/// What is written for a copy of `step`.
pub(super) fn copied_text(script: &Script, step: &Statement, but: CopiedBut) -> String {
    let text = &script.source().text;
    let between = |start: u32, end: u32| &text[start.to_usize()..end.to_usize()];
    let Span { start, end } = step.span;
    match (but, step.get::<Work>().and_then(|work| work.mirrored)) {
        (CopiedBut::Same, _) => between(start, end).to_owned(),
        (CopiedBut::Mirrored, Some(word)) => between(start, word.start).trim_end().to_owned(),
        (CopiedBut::Mirrored, None) => format!("{} mirrored", between(start, end)),
        (CopiedBut::Argument(span, thread), _) => {
            let thread = script.thread_name(thread);
            format!("{}{thread}{}", between(start, span.start), between(span.end, end))
        }
    }
}
