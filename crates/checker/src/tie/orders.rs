//! How the strands of a part hang whenever a statement is begun.

use super::{Moment, PartStudy, Passing, Study, Tie};
use crate::mend::KnownPass;
use knotwright_grammar::tree::{Expect, Meet, Statement, Take};
use knotwright_numbers::ToNumber;
use std::rc::Rc;

/// Orders are kept up to this many bytes; they are only needed to put steps in.
const MOST_ORDERS: usize = 32_000_000;

impl PartStudy {
    /// How the strands hung then; `None` if that was not kept.
    pub(crate) fn order(&self, begun: &Passing) -> Option<&[u8]> {
        let start = begun.order.to_usize();
        self.orders.get(start..start + self.width)
    }

    /// How it was as a statement was begun.
    pub(crate) fn moment(&self, begun: &Passing) -> Option<Moment<'_>> {
        Some(Moment { time: begun.time, order: self.order(begun)?, knots: begun.knots.into() })
    }

    /// How it was once a statement without a block of its own was tied: what comes next is the next statement, or the end of its
    /// block.
    fn moment_after(&self, begun: &Passing) -> Option<Moment<'_>> {
        let next = begun.order.to_usize() + self.width;
        let knots = *self.knots_before.get(next.checked_div(self.width)?)?;
        Some(Moment {
            time: begun.until,
            order: self.orders.get(next..next + self.width)?,
            knots: knots.into(),
        })
    }

    /// How it is at that time, which is the end or later.
    pub(crate) fn after_all(&self, time: u32) -> Moment<'_> {
        Moment { time, order: &self.order, knots: self.knots }
    }

    /// Where in the list the order is kept, if it still is.
    pub(super) fn keep_order(&mut self, order: &[u8], knots: u32) -> u32 {
        let start = self.orders.len().to_u32();
        if self.orders.len() < MOST_ORDERS {
            self.orders.extend_from_slice(order);
            self.knots_before.push(knots);
        }
        start
    }
}

impl Tie<'_> {
    /// In a search, hangs the strands as they hang once a step is tied, without tying it again. Whether that is known.
    pub(super) fn hang_as_studied(&mut self, statement: &Statement, known: Option<KnownPass>) -> bool {
        let is_step = statement.is::<Take>() || statement.is::<Meet>() || statement.is::<Expect>();
        let (Some(known), Some(Study::Search(search))) = (known.filter(|_| is_step), &mut self.study) else {
            return false;
        };
        let studied = Rc::clone(search.studied());
        let part = &studied.parts[search.part()];
        let Some(after) = part.moment_after(known.own()).filter(|_| part.rests_on_colors()) else {
            return false;
        };
        search.tied_before += after.knots - u64::from(known.own().knots);
        self.strands.rehang(0, after.order);
        self.clock = after.time;
        true
    }
}
