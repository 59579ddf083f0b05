//! Blocks and the statements in them.

use super::scope::Value;
use super::{Done, Tie};
use crate::{Event, FactKind, FileId};
use knotwright_grammar::tree::{Block, Expr, Name, Node, Range, Series, Statement};

impl<'a> Tie<'a> {
    /// Ties a block; the names given in it are forgotten after it.
    pub(super) fn block(&mut self, block: &'a Block) -> Done {
        let mark = self.scope.mark();
        self.depth += 1;
        let mut done = Ok(());
        for (index, statement) in block.statements.iter().enumerate() {
            self.pass(block, index);
            done = self.looked(block, index).and_then(|()| self.statement(statement));
            if done.is_err() {
                break;
            }
        }
        if done.is_ok() {
            done = self.looked(block, block.statements.len());
        }
        self.depth -= 1;
        self.scope.back(mark);
        done
    }

    /// Mostly nobody looks; that is to cost nothing.
    #[inline]
    fn looked(&mut self, block: &Block, index: usize) -> Done {
        if self.watch.is_some() { self.look(block, index) } else { Ok(()) }
    }

    pub(super) fn statement(&mut self, statement: &'a Statement) -> Done {
        self.here = statement.head;
        self.spend()?;
        if let (Some(trace), FileId(0)) = (&mut self.trace, self.file) {
            trace.note(statement.span.start);
        }
        let done = self.perform(statement);
        self.recover(done)
    }

    fn perform(&mut self, statement: &'a Statement) -> Done {
        let span = statement.span;
        match &statement.node {
            Node::Take(take) => self.take(take, span),
            Node::Meet => self.meet(span),
            Node::On { range, block } => self.on(range, block),
            Node::Both(block) => {
                self.block(block)?;
                self.mirrored(block)
            }
            Node::Mirrored(block) => self.mirrored(block),
            Node::Work(work) => self.work(work, span),
            Node::Repeat { times, block } => self.repeat(times, block),
            Node::For { variable, series, block } => self.count(variable, series, block),
            Node::Rows { offset, chart } => self.rows(chart, offset.is_some()),
            Node::Leader { strand, promise, chart } => self.leader(strand, promise.as_ref(), chart),
            Node::Section { title, block } => {
                self.event(|| Event::Section(title.value.clone()));
                let done = self.block(block);
                self.event(|| Event::SectionEnd);
                done
            }
            Node::Note(text) => {
                self.event(|| Event::Note(text.value.clone()));
                Ok(())
            }
            Node::Expect(expect) => self.expect(expect, span),
            Node::Broken { block } => {
                self.lose();
                // Its block may tell the strands again.
                block.as_ref().map_or(Ok(()), |block| self.block(block))
            }
            // Head statements do not stand in a block; the grammar tells.
            _ => Ok(()),
        }
    }

    fn event(&mut self, event: impl FnOnce() -> Event) {
        if self.limits.keep {
            self.log.event(event());
        }
    }

    fn on(&mut self, range: &Range, block: &'a Block) -> Done {
        let outer = self.frame;
        self.frame = self.range(range)?;
        let done = self.block(block);
        self.frame = outer;
        done
    }

    fn mirrored(&mut self, block: &'a Block) -> Done {
        self.frame = self.frame.mirror();
        let done = self.block(block);
        self.frame = self.frame.mirror();
        done
    }

    fn repeat(&mut self, times: &Expr, block: &'a Block) -> Done {
        let value = self.number(times)?;
        let Ok(count) = u32::try_from(value) else {
            return self.lost(times.span(), FactKind::NegativeCount { value });
        };
        self.event(|| Event::Repeat(count));
        for _ in 0..count {
            self.spend()?;
            self.event(|| Event::Pass);
            self.block(block)?;
        }
        self.event(|| Event::RepeatEnd);
        Ok(())
    }

    /// `for`: the block once for each number of a series.
    fn count(&mut self, variable: &'a Name, series: &'a Series, block: &'a Block) -> Done {
        let span = series.first.span().to(series.last.span());
        for value in self.series(series, span)?.iter() {
            self.spend()?;
            let mark = self.scope.mark();
            self.scope.give(&variable.text, Value::Number(value), None);
            let done = self.block(block);
            self.scope.back(mark);
            done?;
        }
        Ok(())
    }
}
