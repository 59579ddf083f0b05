//! `expect`: the strands hang like this here. After they were lost, it says where they are.

use super::act::Act;
use super::frame::Frame;
use super::{Done, Tie, Wants, keeps};
use crate::resolve::{Spread, ThreadId, UNKNOWN_THREAD, is_uneven, spread_list};
use crate::{Event, FactKind, Sighting, ThreadOrders};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Expect, Expr, List, ListItem};
use knotwright_numbers::ToNumber;

impl<'a> Tie<'a> {
    pub(super) fn expect(&mut self, expect: &'a Expect, span: Span) -> Done {
        // It looks at every strand, which takes as long as some statements.
        self.spent += self.frame.width().to_u64() / 4;
        match expect {
            Expect::List(list) => self.expect_list(list, span),
            Expect::Start { mirrored } => {
                self.expect_start(mirrored.is_some(), span);
                Ok(())
            }
            // It is about the whole part, and is looked at in the end.
            Expect::Face(_) => Ok(()),
        }
    }

    fn expect_list(&mut self, list: &'a List, span: Span) -> Done {
        let mut items = 0;
        let promised = spread_list(&list.shape, |item| {
            items += 1;
            self.item(item)
        });
        self.spent += items / 4;
        // An `expect` moves nothing: if it cannot be computed, the strands hang as before.
        let Ok(promised) = promised else { return Ok(()) };
        let blind = self.is_blind();
        if let (Some((left, right)), false) = (is_uneven(&promised), blind) {
            self.say(list.span, FactKind::UnequalHalves { left, right });
            return Ok(());
        }
        let (listed, width) = (promised.count(), self.frame.width());
        if listed != width.to_u64() {
            if !blind {
                let listed = usize::try_from(listed).unwrap_or(usize::MAX);
                self.say(list.span, FactKind::ExpectLength { listed, width });
            }
            return Ok(());
        }
        self.hang(&promised, blind, span);
        Ok(())
    }

    /// Compares, and hangs the strands as promised where that is known better than what was tied.
    fn hang(&mut self, promised: &Spread<ThreadId>, blind: bool, span: Span) {
        let promised = promised.strands();
        if blind {
            self.study_all();
            if self.unknown.is_some_and(|unknown| self.frame.covers(unknown)) && self.assign(&promised) {
                self.unknown = None;
            }
            return;
        }
        let wants = |frame: Frame, local: usize| Act::Wants {
            position: frame.position(local).to_u8(),
            thread: promised[local - 1],
        };
        if self.compare(&promised, span, wants) {
            self.kept();
        } else if self.limits.tests_promises {
            // The steps that follow were written for the order that is promised.
            self.assign(&promised);
        }
    }

    fn kept(&mut self) {
        if self.keeps_steps() && self.unknown.is_none() {
            self.log.event(Event::Order(self.strands.order().to_vec()));
        }
    }

    fn item(&mut self, item: &ListItem) -> Done<(u64, ThreadId)> {
        let thread = self.thread(&item.thread);
        let Some(count) = &item.count else { return Ok((1, thread)) };
        let value = self.number(count)?;
        match (u64::try_from(value), count) {
            (Ok(0), Expr::Number(_)) => self.lost(count.span(), FactKind::CountOfZero),
            (Ok(count), _) => Ok((count, thread)),
            (Err(_), _) => self.lost(count.span(), FactKind::NegativeCount { value }),
        }
    }

    /// Whether the strands of the range hang as promised, counted from its left; if not, that is reported.
    /// `act`: what is asked of the place of that number.
    fn compare(&mut self, promised: &[ThreadId], span: Span, act: impl Fn(Frame, usize) -> Act) -> bool {
        let differs = |tie: &Self, &(index, thread): &(usize, ThreadId)| {
            !keeps(thread, tie.thread_at(tie.frame.position(index + 1)))
        };
        let numbered = || promised.iter().copied().enumerate();
        if self.study.is_some() {
            numbered().for_each(|(index, thread)| {
                let position = self.frame.position(index + 1);
                self.study_wants(position, Wants::Color(thread), act(self.frame, index + 1));
            });
        }
        let Some((index, thread)) = numbered().find(|item| differs(self, item)) else { return true };
        if !self.is_to_be_said() {
            return false;
        }
        let places =
            numbered().filter(|item| differs(self, item)).map(|(index, _)| self.frame.position(index + 1));
        let places: Vec<usize> = places.collect();
        let astray: Vec<Sighting> = places.into_iter().map(|place| self.sight(place)).collect();
        let found = self.sight(self.frame.position(index + 1));
        let orders = self.orders(promised, astray);
        let promised = self.script.thread_name(thread);
        let position = index + 1;
        self.say(span, FactKind::ExpectFails { position, promised, found, orders });
        false
    }

    fn orders(&self, promised: &[ThreadId], astray: Vec<Sighting>) -> ThreadOrders {
        let name = |thread| self.script.thread_name(thread);
        let hung = (1..=promised.len()).map(|local| name(self.thread_at(self.frame.position(local))));
        let promised = promised.iter().map(|&thread| name(thread)).collect();
        ThreadOrders { promised, hung: hung.collect(), astray }
    }

    /// Hangs the strands of the range as promised: of each color, the first in the first place, and so on.
    /// Changes nothing and says no if the colors do not fit.
    fn assign(&mut self, promised: &[ThreadId]) -> bool {
        let frame = self.frame;
        let mut left: Vec<u8> =
            (1..=frame.width()).map(|local| self.strands.order()[frame.position(local)]).collect();
        let mut order = Vec::with_capacity(left.len());
        for &thread in promised {
            let found = left.iter().position(|&strand| self.threads[usize::from(strand)] == thread);
            match found {
                Some(at) if thread != UNKNOWN_THREAD => order.push(left.remove(at)),
                _ => return false,
            }
        }
        if frame.mirrored {
            order.reverse();
        }
        self.strands.rehang(frame.low, &order);
        true
    }

    /// As the part began, or as its mirror image.
    fn expect_start(&mut self, mirrored: bool, span: Span) {
        if self.is_blind() || !self.start_known || !self.motifs.is_empty() {
            return;
        }
        let width = self.frame.width();
        let start =
            |frame: Frame, local: usize| frame.position(if mirrored { width + 1 - local } else { local });
        // A strand is named by where it hung at the start.
        let promised = (1..=width).map(|local| self.threads_at_start()[start(self.frame, local)]);
        let promised: Vec<ThreadId> = promised.collect();
        let wants = |frame: Frame, local: usize| {
            let (position, start) = (frame.position(local).to_u8(), start(frame, local).to_u8());
            Act::WantsStart { position, start }
        };
        if self.compare(&promised, span, wants) {
            self.kept();
        } else if self.limits.tests_promises {
            self.assign(&promised);
        }
    }
}
