//! Every single edit of a statement that was tied.

use super::copies::{Copies, is_in_motif, motifs};
use super::structure::{self, BlockKind};
use super::trial::lines_may_lose;
use crate::resolve::{Script, ThreadId};
use crate::tie::{Change, Echoes, Overlay, RowEdit, StatementEdit};
use crate::{Fact, FactKind, FileId, GivenUp, Place};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    Block, Body, Chart, Expr, Extent, Goal, GoalPlace, KnotKind, LeaderChart, Name, Node, Number, Range,
    RowsChart, Run, Series, Sign, Statement, StrandBy, StrandRef, Take,
};
use knotwright_numbers::ToNumber;

/// An edit that might be the one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Candidate {
    pub(crate) overlay: Overlay,
    /// What it is an edit of.
    pub(super) what: What,
    /// The byte where its statement starts, or its row in a chart.
    pub(super) statement: u32,
    /// Whether the statement above is edited too.
    pub(super) from_above: bool,
    /// How far, in statements, its own is from where the mistake shows.
    pub(super) age: u32,
    /// How great a change it is.
    pub(super) size: u8,
}

/// What is edited.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum What {
    Number {
        written: u32,
        read: u32,
    },
    Kind {
        written: KnotKind,
        read: KnotKind,
    },
    /// `left` or `right` in this span.
    Side(Span),
    /// `left` or `right` before this span.
    SideBefore(Span),
    Mark {
        written: Sign,
        read: Sign,
    },
    /// The name of a thread; that of a promise says nothing of what is tied.
    Thread(ThreadId),
    /// A row of a chart, or whether it is offset.
    Rows,
    /// The whole statement at this span, and the one above it.
    Statement {
        above: Option<Span>,
    },
}

/// After how many statements of a block it is asked whether somebody still waits.
const LOOK_UP_EVERY: usize = 64;

/// For how many edits room is made at once: few patterns have fewer.
const USUAL: usize = 1024;

/// Of a `take` with more runs, only the first ones are edited: after each edit all of them are tied again.
const MOST_RUNS: usize = 60;

fn runs(take: &Take) -> impl Iterator<Item = &Run> {
    take.runs.iter().chain(take.thens.iter().flat_map(|then| &then.runs))
}

/// Whether every run of the script's own file may be edited.
pub(super) fn are_all_edited(script: &Script) -> bool {
    let mut takes = script.source().parsed.tree.walk().filter_map(|statement| statement.get::<Take>());
    takes.all(|take| runs(take).nth(MOST_RUNS).is_none())
}

/// A row of a chart with a mark too many or too few, or with more.
#[derive(Debug, Clone, Copy)]
struct UnevenRow {
    span: Span,
    marks: usize,
    wanted: usize,
}

impl UnevenRow {
    fn of(fact: &Fact) -> Option<Self> {
        match fact.kind {
            FactKind::RowLength { marks, wanted, .. } if fact.place.file == FileId::CHECKED => {
                Some(Self { span: fact.place.span, marks, wanted })
            }
            _ => None,
        }
    }

    fn is_in(&self, statement: Span) -> bool {
        statement.start <= self.span.start && self.span.end <= statement.end
    }
}

/// All edits of statements that are in blocks of `script`'s own file, each with its age as `age` says it of a
/// statement; those without are left out. `facts`: what is wrong with the tie. Not all, if it was given up.
pub(super) fn list_candidates(
    script: &Script,
    facts: &[Fact],
    given_up: &GivenUp,
    age: impl Fn(u32) -> Option<u32>,
) -> Vec<Candidate> {
    list_around(script, &Around::of(script, facts).with_copies(script), given_up, age)
}

/// The same, of which only those are listed that are sought.
pub(super) fn list_around(
    script: &Script,
    around: &Around,
    given_up: &GivenUp,
    age: impl Fn(u32) -> Option<u32>,
) -> Vec<Candidate> {
    let mut found = Vec::with_capacity(USUAL);
    for holder in script.source().parsed.tree.walk() {
        let Some(block) = holder.node.block() else { continue };
        let kind = BlockKind::of(script.source(), holder, block);
        for index in 0..block.statements.len() {
            if index.is_multiple_of(LOOK_UP_EVERY) && given_up.is_so() {
                return found;
            }
            add_candidates(script, around, &EditedStatement { block, kind, index, age: &age }, &mut found);
        }
    }
    found
}

/// What of a file its edits depend on.
#[derive(Debug)]
pub(super) struct Around {
    /// Lines that may be put in, if those are sought.
    copies: Option<Copies>,
    /// Whether nothing else is.
    is_of_copies: bool,
    motifs: Vec<Span>,
    uneven: Vec<UnevenRow>,
    /// Where something is worked of another file in which something is wrong.
    worked: Vec<Span>,
}

impl Around {
    /// `facts`: what is wrong with the tie.
    pub(super) fn of(script: &Script, facts: &[Fact]) -> Self {
        let elsewhere = facts.iter().filter(|fact| fact.place.file != FileId::CHECKED);
        let through = elsewhere.flat_map(|fact| &fact.through);
        let worked = through.filter(|place| place.file == FileId::CHECKED).map(|place| place.span).collect();
        let uneven = facts.iter().filter_map(UnevenRow::of).collect();
        Self { copies: None, is_of_copies: false, motifs: motifs(script.source()), uneven, worked }
    }

    /// With the lines that may be put in.
    pub(super) fn with_copies(self, script: &Script) -> Self {
        Self { copies: Some(Copies::of(script)), ..self }
    }

    /// Only of the lines that may be put in.
    pub(super) fn of_copies(self, script: &Script) -> Self {
        Self { is_of_copies: true, ..self.with_copies(script) }
    }

    /// Whether only lines that may be put in are sought.
    pub(super) fn is_of_copies(&self) -> bool {
        self.is_of_copies
    }

    /// Whether a block stands in a motif.
    pub(super) fn is_in_motif(&self, block: &Block) -> bool {
        is_in_motif(&self.motifs, block)
    }

    /// Whether a chart has a row that is too long or too short.
    pub(super) fn is_uneven(&self) -> bool {
        !self.uneven.is_empty()
    }
}

/// A statement whose edits are listed.
pub(super) struct EditedStatement<'s, A> {
    pub(super) block: &'s Block,
    pub(super) kind: BlockKind,
    /// Its number in the block.
    pub(super) index: usize,
    /// The age of the one that starts at a byte.
    pub(super) age: A,
}

impl<A: Fn(u32) -> Option<u32>> EditedStatement<'_, A> {
    fn own(&self) -> &Statement {
        &self.block.statements[self.index]
    }

    fn above(&self) -> Option<&Statement> {
        Some(&self.block.statements[self.index.checked_sub(1)?])
    }
}

/// Adds the edits of a statement to those that were `found`.
pub(super) fn add_candidates(
    script: &Script,
    around: &Around,
    edited: &EditedStatement<impl Fn(u32) -> Option<u32>>,
    found: &mut Vec<Candidate>,
) {
    let statement = edited.own();
    let Some(age) = (edited.age)(statement.span.start) else {
        // It may have to come before the one in which something is wrong.
        found.extend(change_places(script, edited).filter(|_| !around.is_of_copies));
        return;
    };
    let mut gather = Gather { script, around, found, age, statement: statement.span.start };
    if around.is_of_copies {
        gather.structure(edited);
        return;
    }
    gather.statement(statement);
    gather.structure(edited);
    gather.marks(statement);
}

/// The edit with which a statement changes places with the one above it, if there is one.
pub(super) fn change_places(
    script: &Script,
    edited: &EditedStatement<impl Fn(u32) -> Option<u32>>,
) -> Option<Candidate> {
    let size = structure::swapped(script.source(), edited.block, edited.kind, edited.index)?;
    let (statement, above) = (edited.own().span, edited.above()?.span);
    let age = (edited.age)(statement.start).or_else(|| (edited.age)(above.start))?;
    Some(Candidate {
        overlay: Overlay {
            place: Place { file: FileId::CHECKED, span: statement },
            change: Change::Statement(StatementEdit::Swapped),
        },
        what: What::Statement { above: Some(above) },
        statement: statement.start,
        from_above: true,
        age,
        size,
    })
}

impl Candidate {
    /// Whether it edits its statement as another one does the same statement elsewhere. Of one that changes places with the one
    /// above it, that is not known.
    pub(super) fn is_as(&self, other: &Self, echoes: &Echoes) -> bool {
        let place = |candidate: &Self| {
            let span = candidate.overlay.place.span;
            (span.start - candidate.statement, span.end - span.start)
        };
        let is_change = match (self.overlay.change, other.overlay.change) {
            (Change::Statement(one), Change::Statement(other)) => match (one, other) {
                (StatementEdit::CopyBefore(one), StatementEdit::CopyBefore(other))
                | (StatementEdit::CopyAfter(one), StatementEdit::CopyAfter(other)) => {
                    one == other || (one.but == other.but && echoes.are_written_alike(one.start, other.start))
                }
                _ => one == other,
            },
            (one, other) => one == other,
        };
        !self.from_above && is_change && place(self) == place(other)
    }

    /// Whether it puts in a step.
    pub(super) fn is_added(&self) -> bool {
        matches!(
            self.overlay.change,
            Change::Statement(
                StatementEdit::CopyBefore(_)
                    | StatementEdit::CopyAfter(_)
                    | StatementEdit::Before(_)
                    | StatementEdit::After(_)
            )
        )
    }

    /// A step that is put in before a statement, after it instead.
    pub(super) fn after(mut self) -> Self {
        if let Change::Statement(StatementEdit::Before(added)) = self.overlay.change {
            self.overlay.change = Change::Statement(StatementEdit::After(added));
        }
        self
    }

    /// How many of a band's knots may be gone with it. A single word may make a great difference (`repeat 6` for `repeat 4`,
    /// `to center right` for `to center left`), and so may what was written twice.
    pub(super) fn may_lose(&self, knots: u64) -> u64 {
        let is_twin = self.is_left_out() && !self.leaves_out();
        let is_how_far =
            matches!(self.what, What::Number { .. } | What::Side(_) | What::SideBefore(_) | What::Thread(_));
        if is_how_far || is_twin { knots / 2 } else { lines_may_lose(knots) }
    }

    /// Whether all knots stay where they lie, and only their kinds change. Of a step a kind also says on which side it ties.
    pub(super) fn keeps_knots_in_place(&self) -> bool {
        let What::Mark { written, read } = self.what else { return false };
        let leads = written == Sign::Hash || read == Sign::Hash;
        leads || (written != Sign::Dot && read != Sign::Dot)
    }

    /// Whether it puts in a row of a chart.
    pub(super) fn adds_row(&self) -> bool {
        matches!(self.overlay.change, Change::Row(RowEdit::Before(_) | RowEdit::After(_)))
    }

    /// Whether it puts in a row of a chart, or leaves one out.
    pub(super) fn is_row(&self) -> bool {
        self.adds_row() || self.overlay.change == Change::Row(RowEdit::LeftOut)
    }

    /// Whether it moves a whole chart aside.
    pub(super) fn is_offset(&self) -> bool {
        self.overlay.change == Change::Offset
    }

    /// Whether it leaves out a step or row that is not the same as the one before.
    pub(super) fn leaves_out(&self) -> bool {
        self.is_left_out() && self.size > 2
    }

    fn is_left_out(&self) -> bool {
        matches!(
            self.overlay.change,
            Change::Statement(StatementEdit::LeftOut) | Change::Row(RowEdit::LeftOut)
        )
    }

    /// How great a change it is, among equals: the name of a thread is a slip more seldom than a number or a side.
    pub(super) fn effort(&self) -> u8 {
        self.size + u8::from(matches!(self.what, What::Thread(_)))
    }

    /// How far from the mistake, and how great a change.
    pub(super) fn near(&self) -> (u32, u8) {
        (self.age, self.effort())
    }

    /// Whether one word, number or mark is written otherwise.
    pub(super) fn is_word(&self) -> bool {
        let is_mark =
            matches!(self.overlay.change, Change::Row(RowEdit::MarkPutIn(..) | RowEdit::MarkLeftOut(_)));
        is_mark || !matches!(self.what, What::Rows | What::Statement { .. })
    }

    /// Whether it puts right a slip that people make: a number, a side, a direction, one step or row too many or too few.
    pub(super) fn is_usual(&self) -> bool {
        match self.what {
            What::Number { .. } | What::Side(_) | What::SideBefore(_) => true,
            What::Kind { written, read } => is_crossing(written) == is_crossing(read),
            What::Thread(_) => self.size == 1,
            What::Rows | What::Statement { .. } => self.size <= 2,
            What::Mark { .. } => false,
        }
    }
}

/// How a piece is read instead, what it is, and how great a change that is.
struct ReadAs(Change, What, u8);

struct Gather<'s> {
    script: &'s Script,
    around: &'s Around,
    found: &'s mut Vec<Candidate>,
    age: u32,
    statement: u32,
}

const KINDS: [KnotKind; 4] =
    [KnotKind::Forward, KnotKind::Backward, KnotKind::ForwardBackward, KnotKind::BackwardForward];

/// Where two of one color meet `x` is the better word; so it is tried first.
const ROW_SIGNS: [Sign; 6] =
    [Sign::Same, Sign::Forward, Sign::Backward, Sign::ForwardBackward, Sign::BackwardForward, Sign::Dot];

const LEADER_SIGNS: [Sign; 2] = [Sign::Dot, Sign::Hash];

pub(super) fn is_crossing(kind: KnotKind) -> bool {
    matches!(kind, KnotKind::Forward | KnotKind::Backward)
}

impl Gather<'_> {
    fn add(&mut self, span: Span, ReadAs(change, what, size): ReadAs) {
        let overlay = Overlay { place: Place { file: FileId::CHECKED, span }, change };
        let (statement, age) = (self.statement, self.age);
        self.found.push(Candidate { overlay, what, statement, from_above: false, age, size });
    }

    fn structure(&mut self, edited: &EditedStatement<impl Fn(u32) -> Option<u32>>) {
        let EditedStatement { block, kind, index, .. } = *edited;
        let span = edited.own().span;
        let edits =
            structure::list_edits(self.script.source(), block, kind, index, self.around.copies.as_ref());
        // Without a chart of which a row cannot be tied, or a motif that is wrong in its own file, nothing shows what is wrong:
        // that is no mend.
        let is_in = |worked: &Span| span.start <= worked.start && worked.end <= span.end;
        let hides = |edit: StatementEdit| {
            edit == StatementEdit::LeftOut
                && (self.around.uneven.iter().any(|row| row.is_in(span))
                    || self.around.worked.iter().any(is_in))
        };
        let is_copy = |edit| matches!(edit, StatementEdit::CopyBefore(_) | StatementEdit::CopyAfter(_));
        for (edit, size) in edits {
            match edit {
                _ if self.around.is_of_copies && !is_copy(edit) => {}
                StatementEdit::Swapped => self.found.extend(change_places(self.script, edited)),
                _ if size > 2 && hides(edit) => {}
                _ => self.add(span, ReadAs(Change::Statement(edit), What::Statement { above: None }, size)),
            }
        }
    }

    fn statement(&mut self, statement: &Statement) {
        let Node::Body(body) = &statement.node else { return };
        match body {
            Body::Take(take) => self.take(take),
            Body::On(on) => self.range(&on.range),
            Body::Work(work) => work.args.iter().for_each(|argument| self.argument(argument)),
            Body::Repeat(repeat) => self.expr(&repeat.times),
            Body::For(count) => self.series(&count.series),
            Body::Rows(rows) => {
                self.add(rows.chart.open, ReadAs(Change::Offset, What::Rows, 2));
                self.rows(&rows.chart, &ROW_SIGNS);
            }
            Body::Join(join) => {
                self.strand(&join.strand);
                join.thread.iter().for_each(|thread| self.thread(thread, 3));
            }
            Body::Leader(leader) => {
                self.strand(&leader.strand);
                leader.promise.iter().for_each(|promise| self.thread(promise, 3));
                self.rows(&leader.chart, &LEADER_SIGNS);
            }
            // In them only the whole statement can be edited: there is no number and no mark.
            Body::Meet(_)
            | Body::Both(_)
            | Body::Mirrored(_)
            | Body::Section(_)
            | Body::Note(_)
            | Body::Face(_)
            | Body::Bead(_)
            | Body::Expect(_) => {}
        }
    }

    fn take(&mut self, take: &Take) {
        self.strand(&take.strand);
        take.promise.iter().for_each(|promise| self.thread(promise, 3));
        runs(take).take(MOST_RUNS).for_each(|run| self.run(run));
    }

    fn run(&mut self, run: &Run) {
        if let Some((written, span)) = run.kind {
            // A turning knot stays on one neighbor: there is nothing that it could tie over.
            let any = matches!(run.extent, Extent::Count { over: None, .. } | Extent::Series(_));
            for read in KINDS.into_iter().filter(|&kind| kind != written && (any || is_crossing(kind))) {
                let size = if is_crossing(read) == is_crossing(written) { 1 } else { 2 };
                self.add(span, ReadAs(Change::Kind(read), What::Kind { written, read }, size));
            }
        }
        match &run.extent {
            Extent::Count { count, over } => {
                self.expr(count);
                over.iter().for_each(|over| self.thread(over, 3));
            }
            Extent::To(goal) => self.goal(goal),
            Extent::Series(series) => self.series(series),
            Extent::Over(name) | Extent::Until(name) => self.thread(name, 1),
        }
    }

    fn strand(&mut self, strand: &StrandRef) {
        match &strand.by {
            StrandBy::Left(number) | StrandBy::Right(number) => self.expr(number),
            StrandBy::Color { color, number, .. } => {
                self.expr(number);
                self.thread(color, 1);
            }
            StrandBy::Center | StrandBy::Label(_) => return,
            StrandBy::CenterLeft | StrandBy::CenterRight => {}
        }
        self.side(strand.span);
    }

    fn goal(&mut self, goal: &Goal) {
        match &goal.place {
            GoalPlace::Left(number) | GoalPlace::Right(number) => self.expr(number),
            GoalPlace::Center | GoalPlace::Edge => return,
            GoalPlace::CenterLeft | GoalPlace::CenterRight => {}
        }
        self.side(goal.span);
    }

    fn side(&mut self, span: Span) {
        self.add(span, ReadAs(Change::Side, What::Side(span), 1));
    }

    fn range(&mut self, range: &Range) {
        match range {
            Range::Left(number) | Range::Right(number) => {
                self.expr(number);
                self.add(number.span(), ReadAs(Change::Side, What::SideBefore(number.span()), 1));
            }
            Range::Center(number) | Range::Inside(number) => self.expr(number),
            Range::Between(first, last) => {
                self.expr(first);
                self.expr(last);
            }
        }
    }

    fn series(&mut self, series: &Series) {
        self.expr(&series.first);
        self.expr(&series.last);
        series.by.iter().for_each(|by| self.expr(by));
    }

    fn argument(&mut self, argument: &Expr) {
        match argument {
            Expr::Name(name) => self.thread(name, 1),
            argument => self.expr(argument),
        }
    }

    fn expr(&mut self, expr: &Expr) {
        match expr {
            Expr::Number(number) => self.number(*number),
            Expr::Name(_) => {}
            Expr::Operation(operation) => {
                self.expr(&operation.left);
                self.expr(&operation.right);
            }
            Expr::Group(group) => self.expr(&group.inner),
        }
    }

    /// By 1 or 2; nobody writes 0.
    fn number(&mut self, number: Number) {
        let written = number.value;
        for by in [1_u8, 2] {
            let less = written.checked_sub(u32::from(by)).filter(|&less| less > 0);
            let more = written.checked_add(u32::from(by));
            for read in [less, more].into_iter().flatten() {
                self.add(
                    number.span,
                    ReadAs(Change::Number(i64::from(read)), What::Number { written, read }, by),
                );
            }
        }
    }

    /// Another thread of the head, where one is named.
    fn thread(&mut self, name: &Name, size: u8) {
        let Some(written) = self.script.thread(FileId::CHECKED, &name.text) else { return };
        for read in (0..self.script.head.threads.len().to_u16()).filter(|&read| read != written) {
            self.add(name.span, ReadAs(Change::Thread(read), What::Thread(read), size));
        }
    }

    /// Each row is tied again by itself with its marks, as if it were a statement.
    fn marks(&mut self, statement: &Statement) {
        let rows = statement.get::<RowsChart>().map(|rows| (&rows.chart, &ROW_SIGNS[..]));
        let leader = || statement.get::<LeaderChart>().map(|leader| (&leader.chart, &LEADER_SIGNS[..]));
        let Some((chart, signs)) = rows.or_else(leader) else { return };
        for row in &chart.rows {
            self.statement = row.span.start;
            for mark in &row.marks {
                for &read in signs.iter().filter(|&&sign| sign != mark.sign) {
                    let what = What::Mark { written: mark.sign, read };
                    self.add(mark.span(), ReadAs(Change::Mark(read), what, 1));
                }
            }
        }
    }

    fn rows(&mut self, chart: &Chart, signs: &[Sign]) {
        let is_uneven =
            self.around.uneven.iter().any(|uneven| chart.rows.iter().any(|row| row.span == uneven.span));
        for (row, edit, size) in structure::list_row_edits(self.script.source(), chart, is_uneven) {
            self.add(chart.rows[row].span, ReadAs(Change::Row(edit), What::Rows, size));
        }
        for row in &chart.rows {
            let uneven = self.around.uneven.iter().find(|uneven| uneven.span == row.span);
            let Some(&UnevenRow { marks, wanted, .. }) =
                uneven.filter(|row| row.marks.abs_diff(row.wanted) == 1)
            else {
                continue;
            };
            for edit in structure::list_mark_edits(row, marks < wanted, signs) {
                self.add(row.span, ReadAs(Change::Row(edit), What::Rows, 1));
            }
        }
    }
}
