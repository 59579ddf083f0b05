//! `expect`: the strands hang like this here. It also tells them again after they were lost.

use super::{Done, Tie, keeps};
use crate::resolve::{Spread, ThreadId, UNKNOWN_THREAD, is_uneven, spread};
use crate::{Event, FactKind};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Expect, Expr, List, ListItem};

impl<'a> Tie<'a> {
    pub(super) fn expect(&mut self, expect: &'a Expect, span: Span) -> Done {
        // It looks at every strand, which takes as long as some statements.
        self.spent += self.frame.width() as u64 / 4;
        match expect {
            Expect::List(list) => self.expect_list(list, span),
            Expect::Start { mirrored } => {
                self.expect_start(mirrored.is_some(), span);
                Ok(())
            }
        }
    }

    fn expect_list(&mut self, list: &'a List, span: Span) -> Done {
        // An `expect` moves nothing: if it cannot be reckoned, the strands hang as before.
        let Ok(promised) = spread(&list.shape, |item| self.item(item)) else { return Ok(()) };
        let blind = self.is_blind();
        if let (Some((left, right)), false) = (is_uneven(&promised), blind) {
            self.say(list.span, FactKind::UnequalHalves { left, right });
            return Ok(());
        }
        let (listed, width) = (promised.count(), self.frame.width());
        if listed != width as u64 {
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
            if self.unknown.is_some_and(|unknown| self.frame.covers(unknown)) && self.assign(&promised) {
                self.unknown = None;
            }
            return;
        }
        if self.compare(&promised, span) {
            self.kept();
        } else {
            // The steps that follow were written for the order that is promised.
            self.assign(&promised);
        }
    }

    fn kept(&mut self) {
        if self.limits.keep && self.unknown.is_none() {
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

    /// Whether the strands of the range hang as promised, counted from its left; if not, that is told.
    fn compare(&mut self, promised: &[ThreadId], span: Span) -> bool {
        let differs = |tie: &Self, &(index, thread): &(usize, ThreadId)| {
            !keeps(thread, tie.thread_at(tie.frame.position(index + 1)))
        };
        let numbered = || promised.iter().copied().enumerate();
        let differing = numbered().filter(|item| differs(self, item)).count();
        let Some((index, thread)) = numbered().find(|item| differs(self, item)) else { return true };
        let found = self.sight(self.frame.position(index + 1));
        let promised = self.script.thread_name(thread);
        let position = index + 1;
        self.say(span, FactKind::ExpectFails { position, promised, found, differing });
        false
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
        self.strands.rearrange(frame.low, &order);
        true
    }

    /// As the part began, or as its mirror image.
    fn expect_start(&mut self, mirrored: bool, span: Span) {
        if self.is_blind() || !self.start_known || !self.motifs.is_empty() {
            return;
        }
        let width = self.frame.width();
        let promised: Vec<ThreadId> = (1..=width)
            .map(|local| if mirrored { width + 1 - local } else { local })
            // A strand is named by where it hung at the start.
            .map(|local| self.threads[self.frame.position(local)])
            .collect();
        if self.compare(&promised, span) {
            self.kept();
        } else {
            self.assign(&promised);
        }
    }
}
