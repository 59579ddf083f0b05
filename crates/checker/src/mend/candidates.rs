//! Every single edit of a step that was tied.

use crate::tie::{Change, Overlay};
use crate::{FileId, Place};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    Chart, Expr, Extent, Goal, GoalPlace, KnotKind, Node, Number, Range, Run, Series, Sign, Statement,
    StrandBy, StrandRef, Take, Tree,
};

/// An edit that might be the one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Candidate {
    pub(super) overlay: Overlay,
    /// What it is an edit of.
    pub(super) what: What,
    /// How far, in statements, its own is from where the mistake shows.
    pub(super) age: u64,
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
}

/// All edits of steps in `tree`, the nearest first: `age` tells how near the statement is that starts at a byte, if it
/// was tied at all.
pub(super) fn candidates(tree: &Tree, age: impl Fn(u32) -> Option<u64>) -> Vec<Candidate> {
    let mut gather = Gather { found: Vec::new(), age: 0 };
    for statement in tree.walk() {
        if let Some(age) = age(statement.span.start) {
            gather.age = age;
            gather.statement(statement);
        }
    }
    gather.found.sort_by_key(|candidate| (candidate.age, candidate.size, candidate.overlay.place));
    gather.found
}

struct Gather {
    found: Vec<Candidate>,
    age: u64,
}

const KINDS: [KnotKind; 4] =
    [KnotKind::Forward, KnotKind::Backward, KnotKind::ForwardBackward, KnotKind::BackwardForward];

/// Where two of one color meet `x` is the better word; so it is tried first.
const ROW_SIGNS: [Sign; 6] =
    [Sign::Same, Sign::Forward, Sign::Backward, Sign::ForwardBackward, Sign::BackwardForward, Sign::Dot];

fn swaps(kind: KnotKind) -> bool {
    matches!(kind, KnotKind::Forward | KnotKind::Backward)
}

impl Gather {
    fn add(&mut self, span: Span, (change, what, size): (Change, What, u8)) {
        let overlay = Overlay { place: Place { file: FileId(0), span }, change };
        self.found.push(Candidate { overlay, what, age: self.age, size });
    }

    fn statement(&mut self, statement: &Statement) {
        match &statement.node {
            Node::Take(take) => self.take(take),
            Node::On { range, .. } => self.range(range),
            Node::Work(work) => work.args.iter().for_each(|argument| self.expr(argument)),
            Node::Repeat { times, .. } => self.expr(times),
            Node::For { series, .. } => self.series(series),
            Node::Rows { chart, .. } => self.chart(chart, &ROW_SIGNS),
            Node::Leader { strand, chart, .. } => {
                self.strand(strand);
                self.chart(chart, &[Sign::Dot, Sign::Hash]);
            }
            _ => {}
        }
    }

    fn take(&mut self, take: &Take) {
        self.strand(&take.strand);
        for run in take.runs.iter().chain(take.thens.iter().flat_map(|then| &then.runs)) {
            self.run(run);
        }
    }

    fn run(&mut self, run: &Run) {
        if let Some((written, span)) = run.kind {
            let any = matches!(run.extent, Extent::Count { .. } | Extent::Series(_));
            for read in KINDS.into_iter().filter(|&kind| kind != written && (any || swaps(kind))) {
                let size = if swaps(read) == swaps(written) { 1 } else { 2 };
                self.add(span, (Change::Kind(read), What::Kind { written, read }, size));
            }
        }
        match &run.extent {
            Extent::Count { count, .. } => self.expr(count),
            Extent::To(goal) => self.goal(goal),
            Extent::Series(series) => self.series(series),
            Extent::Over(_) | Extent::Until(_) => {}
        }
    }

    fn strand(&mut self, strand: &StrandRef) {
        match &strand.by {
            StrandBy::Left(number) | StrandBy::Right(number) | StrandBy::Color { number, .. } => {
                self.expr(number)
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
        self.add(span, (Change::Side, What::Side(span), 1));
    }

    fn range(&mut self, range: &Range) {
        match range {
            Range::Left(number) | Range::Right(number) => {
                self.expr(number);
                self.add(number.span(), (Change::Side, What::SideBefore(number.span()), 1));
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

    fn number(&mut self, number: Number) {
        let written = number.value;
        for by in [1_u8, 2] {
            let less = written.checked_sub(u32::from(by));
            let more = written.checked_add(u32::from(by));
            for read in [less, more].into_iter().flatten() {
                self.add(number.span, (Change::Number(i64::from(read)), What::Number { written, read }, by));
            }
        }
    }

    fn chart(&mut self, chart: &Chart, signs: &[Sign]) {
        for mark in chart.rows.iter().flat_map(|row| &row.marks) {
            let span = Span { start: mark.offset, end: mark.offset + 1 };
            for &read in signs.iter().filter(|&&sign| sign != mark.sign) {
                let what = What::Mark { written: mark.sign, read };
                self.add(span, (Change::Mark(read), what, 1));
            }
        }
    }
}
