//! Numbers and threads as the names in scope have them.

use super::scope::Value;
use super::{Done, Halt, Tie};
use crate::resolve::{ThreadId, UNKNOWN_THREAD};
use crate::{FactKind, FileId};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Direction, Expr, Name, Operator, Series};

/// No number of a pattern comes near it.
const LARGEST: i64 = 1_000_000_000;

/// The numbers of a series.
#[derive(Debug, Clone, Copy)]
pub(super) struct Values {
    first: i64,
    last: i64,
    /// Below 0 if it counts down.
    step: i64,
}

impl Values {
    pub(super) fn iter(self) -> impl Iterator<Item = i64> {
        let last = (self.last - self.first) / self.step;
        (0..=last).map(move |pass| self.first + pass * self.step)
    }

    /// How many they are.
    pub(super) fn count(self) -> u64 {
        u64::try_from((self.last - self.first) / self.step + 1).unwrap_or(0)
    }
}

impl<'a> Tie<'a> {
    pub(super) fn number(&mut self, expr: &Expr) -> Done<i64> {
        let value = match expr {
            Expr::Number(number) => self.number_as_read(number.span, number.value),
            Expr::Name(name) => self.named_number(name)?,
            Expr::Group(group) => self.number(&group.inner)?,
            Expr::Operation(operation) => {
                self.spend()?;
                let (left, right) = (self.number(&operation.left)?, self.number(&operation.right)?);
                match operation.operator {
                    Operator::Plus => left + right,
                    Operator::Minus => left - right,
                    Operator::Times => left * right,
                }
            }
        };
        // Both hands were at most this large, so nothing above could overflow.
        if value.abs() > LARGEST { self.lost(expr.span(), FactKind::NumberTooLarge) } else { Ok(value) }
    }

    fn named_number(&mut self, name: &Name) -> Done<i64> {
        match self.scope.find(&name.text) {
            Some((Value::Number(value), _)) => Ok(value),
            Some((Value::Thread(_), given)) => {
                self.lost(name.span, FactKind::NotANumber { name: name.text.clone(), given })
            }
            _ => Err(Halt::Lost),
        }
    }

    /// The thread a name stands for; an unknown one keeps and breaks no promise.
    pub(super) fn thread(&mut self, name: &Name) -> ThreadId {
        if let Some(thread) = self.thread_as_read(name.span) {
            return thread;
        }
        match self.scope.find(&name.text) {
            Some((Value::Thread(thread), _)) => thread,
            Some((Value::Number(_), given @ Some(_))) => {
                self.say(name.span, FactKind::NotAThread { name: name.text.clone(), given });
                UNKNOWN_THREAD
            }
            Some((Value::Number(_) | Value::Nothing, _)) => UNKNOWN_THREAD,
            Some((Value::Strand(_), _)) | None => self.thread_of_file(name),
        }
    }

    fn thread_of_file(&mut self, name: &Name) -> ThreadId {
        let Some(thread) = self.script.thread(self.file, &name.text) else { return UNKNOWN_THREAD };
        if self.file == FileId::CHECKED {
            return thread;
        }
        let motif = self.motifs.last().and_then(|&motif| self.script.motif_at(motif));
        let motif = motif.map(|motif| motif.name.text.clone()).unwrap_or_default();
        self.say(name.span, FactKind::ThreadOfOtherFile { name: name.text.clone(), motif });
        UNKNOWN_THREAD
    }

    /// A thread that must be known: it decides which strand, or how far.
    pub(super) fn deciding_thread(&mut self, name: &Name) -> Done<ThreadId> {
        let thread = self.thread(name);
        self.picks_by_color = true;
        if thread == UNKNOWN_THREAD { Err(Halt::Lost) } else { Ok(thread) }
    }

    pub(super) fn series(&mut self, series: &Series, span: Span) -> Done<Values> {
        let (first, last) = (self.number(&series.first)?, self.number(&series.last)?);
        let by = match &series.by {
            Some(expr) => {
                let value = self.number(expr)?;
                if value < 1 {
                    return self.lost(expr.span(), FactKind::StepNotPositive { value });
                }
                value
            }
            None => 1,
        };
        let down = series.direction == Direction::Down;
        if (down && first < last) || (!down && first > last) {
            return self.lost(span, FactKind::SeriesAway { first, last, down });
        }
        Ok(Values { first, last, step: if down { -by } else { by } })
    }

    /// What an argument stands for.
    pub(super) fn argument(&mut self, expr: &'a Expr) -> Done<Value> {
        match expr {
            Expr::Name(name) if self.thread_as_read(name.span).is_some() => {
                Ok(Value::Thread(self.thread(name)))
            }
            Expr::Name(name) => match self.scope.find(&name.text) {
                Some((value @ (Value::Number(_) | Value::Thread(_)), _)) => Ok(value),
                Some((Value::Nothing, _)) => Ok(Value::Nothing),
                _ => Ok(match self.thread(name) {
                    UNKNOWN_THREAD => Value::Nothing,
                    thread => Value::Thread(thread),
                }),
            },
            expr => self.number(expr).map(Value::Number),
        }
    }
}
