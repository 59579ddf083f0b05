//! Which strand, which place, which range.

use super::act::Act;
use super::frame::Frame;
use super::scope::Value;
use super::study::Sought;
use super::{Done, Halt, Tie};
use crate::resolve::ThreadId;
use crate::{FactKind, Named, Side};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Counting, Expr, Goal, GoalPlace, Name, Range, StrandBy, StrandRef};
use knotwright_numbers::ToNumber;

/// Where a run is to end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Target {
    /// At this place of the range, counted from 1 from its left.
    Local(usize),
    /// Wherever the range ends.
    Edge,
}

impl Side {
    fn turned(self, turn: bool) -> Self {
        match (self, turn) {
            (Self::Left, false) | (Self::Right, true) => Self::Left,
            (Self::Right, false) | (Self::Left, true) => Self::Right,
        }
    }
}

impl<'a> Tie<'a> {
    /// What is wrong with a place. Who only studies what comes of edits goes on with the first one: with the edit that is
    /// sought, the place is there.
    fn no_place(&mut self, span: Span, kind: FactKind) -> Done<usize> {
        if self.study.is_none() {
            return self.lost(span, kind);
        }
        self.say(span, kind);
        self.study_feigned();
        Ok(1)
    }

    /// The band's position of the strand that is named, and how it was named.
    pub(super) fn strand(&mut self, strand: &'a StrandRef) -> Done<(usize, Named)> {
        let turn = self.is_turned(strand.span);
        let (local, named) = match &strand.by {
            StrandBy::Left(number) => self.by_side(number, Side::Left.turned(turn))?,
            StrandBy::Right(number) => self.by_side(number, Side::Right.turned(turn))?,
            StrandBy::CenterLeft => (self.middle(Side::Left.turned(turn), strand.span)?, Named::Center),
            StrandBy::CenterRight => (self.middle(Side::Right.turned(turn), strand.span)?, Named::Center),
            StrandBy::Center => (self.middle_one(strand.span)?, Named::Center),
            StrandBy::Color { color, number, from } => {
                let thread = self.deciding_thread(color)?;
                (self.of_color(thread, number, turned(*from, turn))?, Named::Color)
            }
            StrandBy::Label(label) => return Ok((self.labeled(label)?, Named::Label)),
        };
        let position = self.frame.position(local);
        if named != Named::Color {
            self.study_act(Act::Take(position.to_u8()));
        }
        Ok((position, self.as_seen(named)))
    }

    /// In a mirror, left is right.
    fn as_seen(&self, named: Named) -> Named {
        match named {
            Named::FromLeft if self.frame.mirrored => Named::FromRight,
            Named::FromRight if self.frame.mirrored => Named::FromLeft,
            named => named,
        }
    }

    fn by_side(&mut self, number: &Expr, side: Side) -> Done<(usize, Named)> {
        let named = if side == Side::Left { Named::FromLeft } else { Named::FromRight };
        Ok((self.counted(number, side)?, named))
    }

    /// `left N` or `right N`, counted from the left of the range.
    fn counted(&mut self, expr: &Expr, side: Side) -> Done<usize> {
        let number = self.number(expr)?;
        let width = self.frame.width();
        if number < 1 || number > width.to_i64() {
            return self.no_place(expr.span(), FactKind::PlaceNotThere { number, side, width });
        }
        Ok(if side == Side::Left { number.to_usize() } else { width + 1 - number.to_usize() })
    }

    /// One of the middle two.
    fn middle(&mut self, side: Side, span: Span) -> Done<usize> {
        let width = self.frame.width();
        if width % 2 == 1 {
            return self.no_place(span, FactKind::NoMiddleTwo { width });
        }
        Ok(if side == Side::Left { width / 2 } else { width / 2 + 1 })
    }

    fn middle_one(&mut self, span: Span) -> Done<usize> {
        let width = self.frame.width();
        if width.is_multiple_of(2) {
            return self.no_place(span, FactKind::NoMiddleOne { width });
        }
        Ok(width / 2 + 1)
    }

    fn of_color(&mut self, thread: ThreadId, expr: &Expr, from: Counting) -> Done<usize> {
        let number = self.number(expr)?;
        let width = self.frame.width();
        // Of an odd range the middle strand is on neither side of the center.
        let (first, last) = match from {
            Counting::FromLeft | Counting::FromRight => (1, width),
            Counting::LeftOfCenter => (1, width / 2),
            Counting::RightOfCenter => (width - width / 2 + 1, width),
        };
        let is_own = |&local: &usize| self.thread_at(self.frame.position(local)) == thread;
        let wanted = usize::try_from(number).ok().and_then(|number| number.checked_sub(1));
        let found = wanted.and_then(|index| match from {
            Counting::FromRight | Counting::LeftOfCenter => (first..=last).rev().filter(is_own).nth(index),
            Counting::FromLeft | Counting::RightOfCenter => (first..=last).filter(is_own).nth(index),
        });
        self.study_search(Sought { thread, number, first, last, from }, found);
        match found {
            Some(local) => Ok(local),
            None => {
                let is_own = |&local: &usize| self.thread_at(self.frame.position(local)) == thread;
                let there = (first..=last).filter(is_own).count();
                let thread = self.script.thread_name(thread);
                self.no_place(expr.span(), FactKind::ColorNotThere { thread, number, there })
            }
        }
    }

    fn labeled(&mut self, label: &Name) -> Done<usize> {
        let Some((Value::Strand(strand), _)) = self.scope.find(&label.text) else { return Err(Halt::Lost) };
        let position = self.strands.order().iter().position(|&other| other == strand).unwrap_or_default();
        self.study_label(strand);
        if !self.frame.has(position) {
            let sighting = self.sight(position);
            let label_name = label.text.clone();
            return self.lost(label.span, FactKind::LabelOutside { label: label_name, sighting });
        }
        Ok(position)
    }

    pub(super) fn target(&mut self, goal: &Goal) -> Done<Target> {
        let turn = self.is_turned(goal.span);
        Ok(Target::Local(match &goal.place {
            GoalPlace::Left(number) => self.counted(number, Side::Left.turned(turn))?,
            GoalPlace::Right(number) => self.counted(number, Side::Right.turned(turn))?,
            GoalPlace::CenterLeft => self.middle(Side::Left.turned(turn), goal.span)?,
            GoalPlace::CenterRight => self.middle(Side::Right.turned(turn), goal.span)?,
            GoalPlace::Center => self.middle_one(goal.span)?,
            GoalPlace::Edge => return Ok(Target::Edge),
        }))
    }

    /// The gap between the middle two, as a position of the band.
    pub(super) fn middle_gap(&mut self, span: Span) -> Done<usize> {
        let left = self.middle(Side::Left, span)?;
        Ok(self.frame.position(left).min(self.frame.position(left + 1)))
    }

    pub(super) fn range(&mut self, range: &Range) -> Done<Frame> {
        let width = self.frame.width().to_i64();
        let (first, last, span) = match range {
            Range::Left(expr) | Range::Right(expr) => {
                let (number, span) = (self.number(expr)?, expr.span());
                let left = matches!(range, Range::Left(_)) != self.is_turned(span);
                if left { (1, number, span) } else { (width + 1 - number, width, span) }
            }
            Range::Center(expr) => {
                let number = self.number(expr)?;
                self.centered(number, expr.span())?
            }
            Range::Inside(expr) => {
                let number = self.number(expr)?;
                (1 + number, width - number, expr.span())
            }
            Range::Between(first, last) => {
                (self.number(first)?, self.number(last)?, first.span().to(last.span()))
            }
        };
        self.within(range, first, last, span)
    }

    fn centered(&mut self, number: i64, span: Span) -> Done<(i64, i64, Span)> {
        let width = self.frame.width();
        if number >= 2 && number <= width.to_i64() && (width.to_i64() - number) % 2 != 0 {
            return self.lost(span, FactKind::RangeOffCenter { strands: number.to_usize(), width });
        }
        let rest = width.to_i64() - number;
        Ok((rest.div_euclid(2) + 1, rest.div_euclid(2) + number, span))
    }

    fn within(&mut self, range: &Range, first: i64, last: i64, span: Span) -> Done<Frame> {
        let width = self.frame.width();
        let backward = matches!(range, Range::Between(..)) && first > last;
        if backward || first < 1 || last > width.to_i64() {
            let wanted = words(range, first, last, width.to_i64());
            return self.lost(span, FactKind::RangeNotThere { wanted, width });
        }
        if last - first < 1 {
            return self.lost(span, FactKind::RangeTooNarrow { strands: last - first + 1 });
        }
        Ok(self.frame.inner(first.to_usize(), last.to_usize()))
    }
}

/// A range as a person would write it, its numbers computed.
fn words(range: &Range, first: i64, last: i64, width: i64) -> String {
    match range {
        Range::Left(_) | Range::Right(_) if first == 1 && last != width => format!("left {last}"),
        Range::Left(_) | Range::Right(_) => format!("right {}", last - first + 1),
        Range::Center(_) => format!("center {}", last - first + 1),
        Range::Inside(_) => format!("inside {}", first - 1),
        Range::Between(..) => format!("{first} to {last}"),
    }
}

fn turned(from: Counting, turn: bool) -> Counting {
    match (from, turn) {
        (from, false) => from,
        (Counting::FromLeft, true) => Counting::FromRight,
        (Counting::FromRight, true) => Counting::FromLeft,
        (Counting::LeftOfCenter, true) => Counting::RightOfCenter,
        (Counting::RightOfCenter, true) => Counting::LeftOfCenter,
    }
}
