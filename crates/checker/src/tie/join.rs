//! `join`: a strand goes on with a new piece of thread.

use super::act::Act;
use super::scope::Value;
use super::study::Study;
use super::{Done, Halt, Tie, Wants};
use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use crate::{Event, FactKind, JoinSetTrouble, JoinedStrand};
use knotwright_grammar::Span;
use knotwright_grammar::tree::Join;
use knotwright_numbers::ToNumber;

impl<'a> Tie<'a> {
    /// A join moves nothing: if it cannot be computed, the strands hang as before.
    pub(super) fn join(&mut self, join: &'a Join, span: Span) -> Done {
        match self.joined(join, span) {
            Err(Halt::Lost) => Ok(()),
            done => done,
        }
    }

    fn joined(&mut self, join: &'a Join, span: Span) -> Done {
        let set = self.only_set(join)?;
        let mut thread = join.thread.as_ref().map(|name| self.thread(name));
        if self.is_blind() {
            return Ok(());
        }
        let (at, _) = self.strand(&join.strand)?;
        let before = self.thread_at(at);
        if let (Some(name), Some(_), true) = (&join.thread, set, thread != Some(before)) {
            self.say(name.span, FactKind::JoinSet(JoinSetTrouble::OtherThread));
            thread = None;
        }
        if self.study.is_some() {
            return self.study_join(at, thread, set.is_some());
        }
        let thread = thread.filter(|&thread| thread != before);
        self.goes_on_with(at, thread);
        if self.keeps_steps() {
            let strand = self.strands.order()[at];
            self.strands.join(strand, thread.filter(|&thread| thread != UNKNOWN_THREAD), set);
            self.log.joined(JoinedStrand { place: self.place(span), at: at.to_u8(), before });
            self.log.event(Event::Join((self.strands.joins().len() - 1).to_u32()));
        }
        Ok(())
    }

    /// Its number counts from 0.
    fn only_set(&mut self, join: &'a Join) -> Done<Option<u64>> {
        let Some(set) = &join.set else { return Ok(None) };
        let number = self.number(set)?;
        match u64::try_from(number).ok().and_then(|number| number.checked_sub(1)) {
            Some(set) => Ok(Some(set)),
            None => self.lost(set.span(), FactKind::JoinSet(JoinSetTrouble::NotASet { number })),
        }
    }

    fn goes_on_with(&mut self, at: usize, thread: Option<ThreadId>) {
        let Some(thread) = thread else { return };
        self.begun.get_or_insert_with(|| self.threads.clone());
        let strand = self.strands.order()[at];
        self.threads[usize::from(strand)] = thread;
    }

    /// By position, the threads as the part began.
    pub(super) fn threads_at_start(&self) -> &[ThreadId] {
        self.begun.as_ref().unwrap_or(&self.threads)
    }

    /// The strand at a position goes on with that thread, if with another one; only in one set, if so it says. For those who
    /// study it, it is another strand from there on: whoever hangs in its place after an edit goes on with the same thread.
    fn study_join(&mut self, at: usize, thread: Option<ThreadId>, is_once: bool) -> Done {
        let Some(thread) = thread else { return Ok(()) };
        if is_once {
            self.study_wants(at, Wants::Color(thread), Act::Promise(thread));
            return Ok(());
        }
        self.study_act(Act::Join(thread));
        // A label would stay with the strand that it was.
        let is_labeled = self.scope.names().any(|(_, value)| matches!(value, Value::Strand(_)));
        let strand = u8::try_from(self.threads.len()).ok().filter(|_| !is_labeled).ok_or(Halt::Stop)?;
        self.threads.push(thread);
        self.strands.rehang(at, &[strand]);
        if let Some(Study::Record(part)) = &mut self.study {
            part.threads.push(thread);
            part.wants.push(Vec::new());
            part.reads.push(Vec::new());
        }
        Ok(())
    }
}
