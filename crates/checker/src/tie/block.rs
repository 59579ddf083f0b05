//! Blocks and the statements in them.

use super::scope::Value;
use super::{Done, Tie};
use crate::{Event, FactKind, Phrase};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    Block, Body, ForBlock, Node, OnBlock, RepeatBlock, SectionBlock, Statement, Take,
};

impl<'a> Tie<'a> {
    /// Ties a block; the names given in it are forgotten after it.
    pub(super) fn block(&mut self, block: &'a Block) -> Done {
        self.block_from(block, 0)
    }

    /// The same from the statement of that number on.
    pub(super) fn block_from(&mut self, block: &'a Block, first: usize) -> Done {
        let mark = self.scope.mark();
        self.depth += 1;
        let (mut done, mut before, mut is_lost) = (Ok(()), None, false);
        for index in first..block.statements.len() {
            // Where a wrong word has lost the strands, thousands of steps may follow of which none is tied.
            let is_take = block.statements[index].is::<Take>();
            if is_lost && is_take {
                self.spent += 1;
                continue;
            }
            self.pass(block, index);
            done = self.looked(block, index).and_then(|()| self.studied(block, index, &mut before));
            if done.is_err() {
                break;
            }
            is_lost = is_take && self.is_blind() && !self.is_watched();
        }
        if done.is_ok() {
            self.study_begin(block, block.statements.len());
            done = self.looked(block, block.statements.len());
        }
        self.let_go(before);
        self.depth -= 1;
        self.scope.back(mark);
        done
    }

    /// Whether anybody wants to know of every statement, or one of them is edited.
    fn is_watched(&self) -> bool {
        self.watch.is_some() || self.study.is_some() || self.overlay.is_some()
    }

    /// Mostly nobody looks; that is to cost nothing.
    #[inline]
    fn looked(&mut self, block: &Block, index: usize) -> Done {
        if self.watch.is_some() { self.look(block, index) } else { Ok(()) }
    }

    pub(super) fn statement(&mut self, statement: &'a Statement) -> Done {
        self.here = statement.head;
        self.spend()?;
        let done = self.perform(statement);
        self.recover(done)
    }

    fn perform(&mut self, statement: &'a Statement) -> Done {
        match &statement.node {
            Node::Body(body) => self.body(body, statement.span),
            Node::Broken(broken) => {
                self.lose();
                // Its block may say again how the strands hang.
                broken.block.as_ref().map_or(Ok(()), |block| self.block(block))
            }
            // They are never in a block that is tied: the grammar reports them.
            Node::Head(_) | Node::EndPiece(_) | Node::Swatch(_) => Ok(()),
        }
    }

    fn body(&mut self, body: &'a Body, span: Span) -> Done {
        match body {
            Body::Take(take) => self.take(take, span),
            Body::Meet(_) => self.meet(span),
            Body::Join(join) => self.join(join, span),
            Body::On(on) => self.on(on),
            Body::Both(both) => {
                self.block(&both.block)?;
                self.mirrored(&both.block)
            }
            Body::Mirrored(mirrored) => self.mirrored(&mirrored.block),
            Body::Work(work) => self.work(work, span),
            Body::Repeat(repeat) => self.repeat(repeat),
            Body::For(count) => self.count(count),
            Body::Rows(rows) => self.rows(&rows.chart, rows.offset.is_some()),
            Body::Leader(leader) => self.leader(leader),
            Body::Section(section) => self.section(section),
            Body::Note(note) => {
                self.event(|| Event::Note(Box::new(Phrase::of(&note.text, &note.others))));
                Ok(())
            }
            Body::Bead(bead) => self.bead(bead, span),
            Body::Expect(expect) => self.expect(expect, span),
            // It is about the whole part, and is compared with what was tied in the end.
            Body::Face(_) => Ok(()),
        }
    }

    fn section(&mut self, section: &'a SectionBlock) -> Done {
        self.event(|| Event::Section(Box::new(Phrase::of(&section.title, &section.others))));
        let done = self.block(&section.block);
        self.event(|| Event::SectionEnd);
        done
    }

    pub(super) fn event(&mut self, event: impl FnOnce() -> Event) {
        if self.keeps_steps() {
            self.log.event(event());
        }
    }

    fn on(&mut self, on: &'a OnBlock) -> Done {
        let outer = self.frame;
        self.frame = self.range(&on.range)?;
        let done = self.block(&on.block);
        self.frame = outer;
        done
    }

    fn mirrored(&mut self, block: &'a Block) -> Done {
        self.frame = self.frame.mirror();
        let done = self.block(block);
        self.frame = self.frame.mirror();
        done
    }

    fn repeat(&mut self, RepeatBlock { times, block }: &'a RepeatBlock) -> Done {
        let value = self.number(times)?;
        let Ok(count) = u32::try_from(value) else {
            return self.lost(times.span(), FactKind::NegativeCount { value });
        };
        self.event(|| Event::Repeat(count));
        let begun = self.spent_so_far();
        for pass in 0..count {
            self.foresee(begun, u64::from(pass), u64::from(count))?;
            self.spend()?;
            self.event(|| Event::Pass);
            self.block(block)?;
        }
        self.event(|| Event::RepeatEnd);
        Ok(())
    }

    /// `for`: the block once for each number of a series.
    fn count(&mut self, ForBlock { variable, series, block }: &'a ForBlock) -> Done {
        let span = series.first.span().to(series.last.span());
        let values = self.series(series, span)?;
        let begun = self.spent_so_far();
        for (pass, value) in (0..).zip(values.iter()) {
            self.foresee(begun, pass, values.count())?;
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
