//! Sections that can stay when knots are tied in another order.

use knotwright_checker::{Event, Part, Phrase};
use knotwright_numbers::ToNumber;
use std::ops::Range;

/// A section and the knots in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Heading {
    /// Its title.
    pub title: Phrase,
    /// Its knots, by number.
    pub knots: Range<u32>,
}

/// The outermost sections of a part whose knots come together in another order of tying, too: `order` lists the part's
/// knots by number. The knots of those given back are numbered by their place in `order`.
pub fn find_headings(part: &Part, order: &[u32]) -> Vec<Heading> {
    let stays = |heading: &Heading| {
        let range = heading.knots.start.to_usize()..heading.knots.end.to_usize();
        order.get(range).is_some_and(|there| there.iter().all(|knot| heading.knots.contains(knot)))
    };
    outermost(part).into_iter().map(|section| section.heading).filter(stays).collect()
}

/// An outermost section.
pub(crate) struct OuterSection {
    /// What is to be written of it.
    pub heading: Heading,
    /// Its events, from the one that opens it to the one that closes it.
    pub events: Range<usize>,
}

/// The outermost sections of a part, in order; one that ties nothing is none.
pub(crate) fn outermost(part: &Part) -> Vec<OuterSection> {
    let (mut depth, mut done) = (0_u32, 0);
    let mut open: Option<(Heading, usize)> = None;
    let mut all = Vec::new();
    for (number, event) in part.events.iter().enumerate() {
        match event {
            Event::Section(title) => {
                if depth == 0 {
                    open = Some((Heading { title: Phrase::clone(title), knots: done..done }, number));
                }
                depth += 1;
            }
            Event::SectionEnd => {
                depth = depth.saturating_sub(1);
                if depth == 0 {
                    all.extend(open.take().map(|(heading, first)| OuterSection {
                        heading: Heading { knots: heading.knots.start..done, ..heading },
                        events: first..number + 1,
                    }));
                }
            }
            Event::Step(step) => {
                done = part.steps.get(step.to_usize()).map_or(done, |step| done.max(step.knots.end));
            }
            Event::Note(_)
            | Event::Repeat(_)
            | Event::Pass
            | Event::RepeatEnd
            | Event::Join(_)
            | Event::Order(_) => {}
        }
    }
    // A section that is tied again and again (in a loop) is one heading each time; one without knots is none.
    all.retain(|section: &OuterSection| !section.heading.knots.is_empty());
    all
}
