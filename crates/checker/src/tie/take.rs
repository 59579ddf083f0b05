//! `take`: a strand in hand, its promise, its runs, and the strands that follow it by `then` or a series.

use super::act::Act;
use super::run::{Hand, kind_of};
use super::scope::Value;
use super::{Done, Halt, Tie, Wants, keeps};
use crate::{FactKind, Named, Step};
use knotwright_band::Kind;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Extent, Name, Run, Take};
use knotwright_numbers::ToNumber;

/// Runs that belong together, and the strand that ties them.
struct Phase<'a> {
    runs: &'a [Run],
    span: Span,
    /// Where the `take` began.
    start: usize,
    named: Named,
}

impl<'a> Tie<'a> {
    /// A `take` that begins where `span` does.
    pub(super) fn take(&mut self, take: &'a Take, span: Span) -> Done {
        if self.is_blind() {
            self.lose();
            return Ok(());
        }
        let done = self.taken(take, span);
        if !matches!(done, Err(Halt::Stop)) {
            self.study_taken(span.start);
        }
        done
    }

    fn taken(&mut self, take: &'a Take, span: Span) -> Done {
        let (start, named) = self.strand(&take.strand)?;
        if let Some(promise) = &take.promise {
            self.promise(promise, start);
        }
        if let Some(label) = &take.label {
            let strand = self.strands.order()[start];
            self.scope.give(&label.text, Value::Strand(strand), None);
            self.study_labeled(strand);
        }
        let end = take.runs.last().map_or(take.strand.span.end, |run| run.span.end);
        let first = Phase { runs: &take.runs, span: Span { start: span.start, end }, start, named };
        let mut kind = self.phase(&first, Kind::Forward)?;
        for then in &take.thens {
            let end = then.runs.last().map_or(then.word.end, |run| run.span.end);
            let span = Span { start: then.word.start, end };
            kind = self.phase(&Phase { runs: &then.runs, span, start, named: Named::Then }, kind)?;
        }
        Ok(())
    }

    /// The strand at `position` must be of this color.
    pub(super) fn promise(&mut self, promise: &Name, position: usize) {
        let promised = self.thread(promise);
        self.study_wants(position, Wants::Color(promised), Act::Promise(promised));
        if keeps(promised, self.thread_at(position)) || !self.is_to_be_said() {
            return;
        }
        let nearest = (self.frame.low..=self.frame.high)
            .filter(|&other| self.thread_at(other) == promised)
            .min_by_key(|&other| (other.abs_diff(position), self.frame.local(other)))
            .map(|other| other + 1);
        let found = self.sight(position);
        let promised = self.script.thread_name(promised);
        self.say(promise.span, FactKind::BrokenPromise { promised, found, nearest });
    }

    /// Ties the runs once, or once for each number of their series. The kind of the last run.
    fn phase(&mut self, phase: &Phase<'a>, before: Kind) -> Done<Kind> {
        let series = phase.runs.iter().find_map(|run| match &run.extent {
            Extent::Series(series) => Some((series, run.span)),
            _ => None,
        });
        let Some((series, span)) = series else { return self.step(phase, before, None, phase.named) };
        let mut kind = before;
        for (pass, value) in self.series(series, span)?.iter().enumerate() {
            self.spend()?;
            let named = if pass == 0 { phase.named } else { Named::Then };
            kind = self.step(phase, before, Some(value), named)?;
        }
        Ok(kind)
    }

    fn step(&mut self, phase: &Phase<'a>, before: Kind, series: Option<i64>, named: Named) -> Done<Kind> {
        self.begin(phase.span, phase.start, named);
        if named == Named::Then {
            self.study_act(Act::TakeNext);
        }
        self.held = self.strands.order().get(phase.start).copied();
        let mut hand = Hand { at: phase.start, kind: before };
        for run in phase.runs {
            if let Some((kind, span)) = run.kind {
                hand.kind = kind_of(self.kind_as_read(span, kind));
            }
            let before = self.strands.tied();
            hand.at = self.run(run, hand, series)?;
            // What ties nothing takes time as well.
            if self.strands.tied() == before {
                self.spend()?;
            }
        }
        Ok(hand.kind)
    }

    /// Writes down that a step begins.
    pub(super) fn begin(&mut self, span: Span, from: usize, named: Named) {
        if !self.keeps_steps() {
            return;
        }
        let (low, high) = (self.frame.low.to_u8(), self.frame.high.to_u8());
        let step = Step {
            place: self.place(span),
            knots: 0..0,
            within: (low, high),
            from: from.to_u8(),
            named,
            runs: 0..0,
        };
        self.log.begin(step, self.strands.knots().len());
    }

    /// `meet center`: counts as forward, in a mirror too.
    pub(super) fn meet(&mut self, span: Span) -> Done {
        if self.is_blind() {
            self.lose();
            return Ok(());
        }
        let gap = self.middle_gap(span)?;
        self.afford(1)?;
        self.begin(span, gap, Named::Meet);
        self.same_color(span, gap);
        self.meeting_knot(gap);
        Ok(())
    }

    /// The two strands at `gap` must be of one color.
    pub(super) fn same_color(&mut self, span: Span, gap: usize) {
        let other = self.strands.order()[gap + 1];
        self.study_wants(gap, Wants::AlikeTo(other), Act::WantsAlike(gap.to_u8()));
        if !keeps(self.thread_at(gap), self.thread_at(gap + 1)) && self.is_to_be_said() {
            let (left, right) = (self.sight(gap), self.sight(gap + 1));
            self.say(span, FactKind::TwoColors { left, right });
        }
    }

    /// What became of a statement: one that names nothing leaves its range unknown.
    pub(super) fn recover(&mut self, done: Done) -> Done {
        match done {
            Err(Halt::Lost) => {
                self.lose();
                Ok(())
            }
            done => done,
        }
    }
}
