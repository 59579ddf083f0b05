//! Short remarks within the text: how the strands hang after a step, what `over`, `until` and `to` came to.

use crate::Checked;
use crate::hang::{follow, short_list, thread_name};
use crate::moments::{Moment, parts};
use crate::site::Site;
use crate::steps::{Tied, came_to, runs_of};
use knotwright_checker::{Part, Which};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Extent, Node, Run, Take};

/// A remark within the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hint {
    /// Behind which byte.
    pub offset: u32,
    /// The remark.
    pub label: String,
    /// More about it.
    pub tooltip: String,
    /// Which sort of remark.
    pub kind: HintKind,
}

/// The sorts of remarks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HintKind {
    /// How the strands hang after a step.
    Order,
    /// How many knots `over`, `until` or `to` came to.
    Extent,
}

/// Which remarks are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HintOptions {
    /// How the strands hang after each step.
    pub orders: bool,
    /// How many knots `over`, `until` and `to` came to.
    pub extents: bool,
}

impl Default for HintOptions {
    fn default() -> Self {
        Self { orders: true, extents: true }
    }
}

/// An order longer than so many letters is cut short; the tooltip has all of it.
const LONGEST: usize = 44;

/// The remarks within `span`, in order of place.
pub fn hints(checked: &Checked, span: Span, options: HintOptions) -> Vec<Hint> {
    let moments = checked.moments().within(span);
    let mut hints = Vec::new();
    if options.orders {
        orders(checked, moments, &mut hints);
    }
    if options.extents {
        moments.iter().for_each(|moment| extents(checked, moment, &mut hints));
    }
    hints.sort_by_key(|hint| hint.offset);
    hints
}

/// Goes once through each part, with the moments in the order in which they are tied.
fn orders(checked: &Checked, moments: &[Moment], hints: &mut Vec<Hint>) {
    let Some(pattern) = checked.pattern() else { return };
    for (which, part) in parts(pattern) {
        let mut own: Vec<&Moment> = moments.iter().filter(|moment| moment.part == which).collect();
        own.sort_by_key(|moment| moment.step);
        let mut replay = Replay::new(checked, which, part);
        for moment in own {
            let Some(step) = part.steps.get(moment.step as usize) else { continue };
            replay.to(part, step.knots.end);
            let names: Vec<&str> = replay
                .order
                .iter()
                .map(|&strand| replay.threads.get(usize::from(strand)).copied())
                .map(|thread| thread_name(pattern, thread.unwrap_or(u16::MAX)))
                .collect();
            hints.push(order(moment, &names));
        }
    }
}

/// A part tied again up to some knot.
struct Replay {
    threads: Vec<u16>,
    order: Vec<u8>,
    knot: usize,
}

impl Replay {
    fn new(checked: &Checked, which: Which, part: &Part) -> Self {
        let order = (0..part.order.len() as u8).collect();
        Self { threads: checked.threads(which), order, knot: 0 }
    }

    fn to(&mut self, part: &Part, knot: u32) {
        let knots = part.knots.get(self.knot..knot as usize).unwrap_or_default();
        knots.iter().for_each(|knot| follow(&mut self.order, knot));
        self.knot = self.knot.max(knot as usize);
    }
}

fn order(moment: &Moment, names: &[&str]) -> Hint {
    let whole = crate::hang::list(names);
    let often =
        if moment.times > 1 { format!(", the first of {} times", moment.times) } else { String::new() };
    Hint {
        offset: moment.span.end,
        label: format!("→ {}", short_list(names, LONGEST)),
        tooltip: format!("After this the strands hang like this{often}: `{whole}`"),
        kind: HintKind::Order,
    }
}

fn extents(checked: &Checked, moment: &Moment, hints: &mut Vec<Hint>) {
    let site = Site::at(checked.source(), moment.span.start);
    let Some(Node::Take(take)) = site.inner().map(|statement| &statement.node) else { return };
    let runs = runs_of(take, moment.span.start);
    if !runs.iter().any(goes_far) {
        return;
    }
    let Some(tied) = Tied::of(checked, moment) else { return };
    hints.extend(came(&tied, take, moment));
}

fn came(tied: &Tied, take: &Take, moment: &Moment) -> Vec<Hint> {
    let runs = runs_of(take, moment.span.start);
    let counts = came_to(tied, take, moment.span.start);
    let hint = |(run, count): (&Run, Option<usize>)| {
        let count = count.filter(|_| goes_far(run))?;
        let noun = crate::wording::count(count as u64, "knot");
        Some(Hint {
            offset: run.span.end,
            label: format!("= {count}"),
            tooltip: format!("{noun} here"),
            kind: HintKind::Extent,
        })
    };
    runs.iter().zip(counts).filter_map(hint).collect()
}

/// Whether the run does not say how many knots it is.
fn goes_far(run: &Run) -> bool {
    matches!(run.extent, Extent::Over(_) | Extent::Until(_) | Extent::To(_))
}
