//! Statements of which one is edited as a whole.

use super::run::{CountedRun, Hand, kind_of};
use super::{Added, Change, Copied, CopiedBut, Done, Halt, Overlay, StatementEdit, Tie};
use crate::{FileId, Named, Place};
use knotwright_grammar::tree::{Block, Statement, Work};

impl<'a> Tie<'a> {
    /// Ties the statement of that number in a block, edited if the overlay says so.
    pub(super) fn statement_as_read(&mut self, block: &'a Block, index: usize) -> Done {
        if self.overlay.is_none() {
            return self.statement(&block.statements[index]);
        }
        if self.is_known(&block.statements[index]) {
            return Ok(());
        }
        // One that changes places with the next comes when that has come.
        let next = block.statements.get(index + 1).and_then(|next| self.edit_of(next.span));
        if next == Some(StatementEdit::Swapped) {
            return Ok(());
        }
        let statement = &block.statements[index];
        let edit = self.edit_of(statement.span);
        self.edited += u32::from(edit.is_some());
        match edit {
            None => self.statement(statement),
            Some(StatementEdit::LeftOut) => Ok(()),
            Some(StatementEdit::Doubled) => {
                self.statement(statement)?;
                self.statement(statement)
            }
            Some(StatementEdit::Swapped) => {
                self.statement(statement)?;
                index.checked_sub(1).map_or(Ok(()), |before| self.statement(&block.statements[before]))
            }
            Some(StatementEdit::Both) => {
                self.alone(statement, false)?;
                self.alone(statement, true)
            }
            Some(StatementEdit::Mirrored) => self.alone(statement, true),
            Some(StatementEdit::Plain) => match statement.node.block() {
                Some(inner) => self.block(inner),
                None => self.statement(statement),
            },
            Some(StatementEdit::CopyBefore(copied)) => {
                self.copied(copied)?;
                self.statement(statement)
            }
            Some(StatementEdit::CopyAfter(copied)) => {
                self.statement(statement)?;
                self.copied(copied)
            }
            Some(StatementEdit::Before(added)) => {
                self.added(statement, added)?;
                self.statement(statement)
            }
            Some(StatementEdit::After(added)) => {
                self.statement(statement)?;
                self.added(statement, added)
            }
        }
    }

    /// Whether what comes of a statement is known, as the tie begins behind it. What has no statements in it need not be tied
    /// then.
    fn is_known(&mut self, statement: &Statement) -> bool {
        let Some(from) = self.from else { return false };
        if self.file == FileId::CHECKED && statement.span.start == from.start {
            self.strands.rehang(0, from.order);
            self.from = None;
            return false;
        }
        statement.node.block().is_none() && !statement.is::<Work>()
    }

    /// A statement as if it stood in braces of its own, mirrored or not.
    fn alone(&mut self, statement: &'a Statement, mirrored: bool) -> Done {
        let (mark, frame) = (self.scope.mark(), self.frame);
        self.frame = if mirrored { frame.mirror() } else { frame };
        let done = self.statement(statement);
        self.frame = frame;
        self.scope.back(mark);
        done
    }

    /// A statement that stands elsewhere in the file.
    fn copied(&mut self, Copied { start, but }: Copied) -> Done {
        let Some(statement) = self.script.source().parsed.tree.statement_at(start) else { return Ok(()) };
        let read = match but {
            CopiedBut::Argument(span, thread) => {
                let place = Place { file: FileId::CHECKED, span };
                Some(Overlay { place, change: Change::Thread(thread) })
            }
            CopiedBut::Same | CopiedBut::Mirrored => None,
        };
        let overlay = std::mem::replace(&mut self.overlay, read);
        let done = match but {
            CopiedBut::Mirrored => self.alone(statement, true),
            CopiedBut::Same | CopiedBut::Argument(..) => self.statement(statement),
        };
        self.overlay = overlay;
        done
    }

    /// A step that is not there.
    fn added(&mut self, beside: &'a Statement, added: Added) -> Done {
        self.added_once(beside, added)?;
        if added.both {
            self.frame = self.frame.mirror();
            let done = self.added_once(beside, added);
            self.frame = self.frame.mirror();
            return done;
        }
        Ok(())
    }

    fn added_once(&mut self, beside: &'a Statement, added: Added) -> Done {
        self.spend()?;
        if self.is_blind() {
            self.lose();
            return Ok(());
        }
        let at = usize::from(added.at);
        let is_other = |width: u8| usize::from(width) != self.frame.width();
        if at < 1 || at > self.frame.width() || added.width.is_some_and(is_other) {
            return Err(Halt::Stop);
        }
        if added.meets {
            return self.meet(beside.span);
        }
        let mut from = self.frame.position(at);
        self.begin(beside.span, from, Named::FromLeft);
        for (kind, count) in added.runs.runs() {
            let hand = Hand { at: from, kind: kind_of(kind) };
            let run = CountedRun { span: beside.span, is_computed: false };
            from = self.counted_run(run, hand, i64::from(count), None)?;
        }
        Ok(())
    }
}
