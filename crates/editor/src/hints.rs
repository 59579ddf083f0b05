//! Short remarks within the text: how the strands hang after a step, what `over`, `until` and `to` came to.

use crate::Checked;
use crate::hang::{follow, short_list, thread_name};
use crate::moments::TiedMoment;
use crate::site::Site;
use crate::steps::{TiedStep, came_to, runs_of};
use knotwright_band::ThreadWalk;
use knotwright_checker::{Part, PartKind, Pattern};
use knotwright_color::Rgb;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Extent, Run, Take};
use knotwright_numbers::ToNumber;
use knotwright_render::assign_letters;
use smol_str::SmolStr;

/// A remark within the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hint {
    /// After which byte.
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

/// An order longer than this pushes the text aside, so its threads have letters for names, those of the chart; if even that
/// is longer, it is cut short. The tooltip has all of it.
const LONGEST: usize = 44;

/// The remarks within `span`, in order of place; at one place, first what the line says, then how the strands hang after it.
pub fn inlay_hints(checked: &Checked, span: Span, options: HintOptions) -> Vec<Hint> {
    let moments = checked.moments().within(span);
    let mut hints = Vec::new();
    if options.orders {
        orders(checked, moments, &mut hints);
    }
    if options.extents {
        moments.iter().for_each(|moment| extents(checked, moment, &mut hints));
    }
    hints.sort_by_key(|hint| (hint.offset, hint.kind == HintKind::Order));
    hints
}

fn orders(checked: &Checked, moments: &[TiedMoment], hints: &mut Vec<Hint>) {
    let Some(pattern) = checked.pattern() else { return };
    let letters: Vec<String> = letters_of(pattern).into_iter().map(String::from).collect();
    hints.extend(hanging(checked, pattern, moments).map(|(moment, threads)| {
        let names: Vec<&str> = threads.iter().map(|&thread| thread_name(pattern, thread)).collect();
        let letter = |&thread: &u16| letters.get(usize::from(thread)).map_or("?", String::as_str);
        let whole = crate::hang::list(&names);
        let label = if whole.chars().count() <= LONGEST {
            whole.clone()
        } else {
            short_list(&threads.iter().map(letter).collect::<Vec<_>>(), LONGEST)
        };
        let (offset, tooltip) = (moment.span.end, after_this(moment, &whole));
        Hint { offset, label: format!("→ {label}"), tooltip, kind: HintKind::Order }
    }));
}

/// By thread, the letter that stands for it where there is no room for its name.
fn letters_of(pattern: &Pattern) -> Vec<char> {
    assign_letters(pattern.threads.iter().map(|thread| thread.name.as_str()))
}

/// How the strands hang after each moment, by thread from the left. Goes once through each part, with the moments in the order in
/// which they are tied.
fn hanging<'m>(
    checked: &'m Checked,
    pattern: &'m Pattern,
    moments: &'m [TiedMoment],
) -> impl Iterator<Item = (&'m TiedMoment, Vec<u16>)> {
    pattern.parts().flat_map(move |(which, part)| {
        let mut own: Vec<&TiedMoment> = moments.iter().filter(|moment| moment.part == which).collect();
        own.sort_by_key(|moment| moment.step);
        let mut replay = Replay::new(checked, which, part);
        own.into_iter().filter_map(move |moment| {
            replay.to(part, part.steps.get(moment.step.to_usize())?.knots.end);
            let thread = |&strand: &u8| replay.threads.get(usize::from(strand)).copied().unwrap_or(u16::MAX);
            Some((moment, replay.order.iter().map(thread).collect()))
        })
    })
}

/// How the strands hang after a step, for a client that paints them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StrandOrder {
    /// Behind which byte.
    pub offset: u32,
    /// From the left.
    pub strands: Vec<PaintedStrand>,
    /// The strands in words, for whoever points at the hint.
    pub tooltip: String,
}

/// A strand as it is painted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PaintedStrand {
    /// Its thread.
    pub thread: SmolStr,
    /// The color of that.
    pub color: Rgb,
    /// The letter that stands for it; no other thread has the same, as long as there are any.
    pub letter: char,
}

/// The orders after the steps within `span`, in order of place.
pub fn strand_orders(checked: &Checked, span: Span) -> Vec<StrandOrder> {
    let Some(pattern) = checked.pattern() else { return Vec::new() };
    let letters = letters_of(pattern);
    let look = |&thread: &u16| {
        let (thread, &letter) =
            (pattern.threads.get(usize::from(thread))?, letters.get(usize::from(thread))?);
        Some(PaintedStrand { thread: thread.name.clone(), color: thread.color, letter })
    };
    let mut orders: Vec<StrandOrder> = hanging(checked, pattern, checked.moments().within(span))
        .map(|(moment, threads)| {
            let names: Vec<&str> = threads.iter().map(|&thread| thread_name(pattern, thread)).collect();
            let tooltip = after_this(moment, &crate::hang::list(&names));
            StrandOrder {
                offset: moment.span.end,
                strands: threads.iter().filter_map(look).collect(),
                tooltip,
            }
        })
        .collect();
    orders.sort_by_key(|order| order.offset);
    orders
}

/// A part tied again up to some knot.
struct Replay {
    /// By strand, its thread as the part begins, and now.
    begun: Vec<u16>,
    threads: Vec<u16>,
    order: Vec<u8>,
    knot: usize,
}

impl Replay {
    fn new(checked: &Checked, which: PartKind, part: &Part) -> Self {
        let order = (0..=u8::MAX).take(part.piece.strands()).collect();
        let begun = checked.threads(which);
        Self { threads: begun.clone(), begun, order, knot: 0 }
    }

    fn to(&mut self, part: &Part, knot: u32) {
        let knots = part.piece.knots().get(self.knot..knot.to_usize()).unwrap_or_default();
        knots.iter().for_each(|knot| follow(&mut self.order, knot));
        self.knot = self.knot.max(knot.to_usize());
        if part.piece.changes_threads() {
            let mut walk = ThreadWalk::new(&part.piece, &self.begun);
            walk.go_to(knot);
            self.threads = (0..=u8::MAX).take(self.begun.len()).map(|strand| walk.of(strand)).collect();
        }
    }
}

fn after_this(moment: &TiedMoment, whole: &str) -> String {
    let often =
        if moment.times > 1 { format!(", the first of {} times", moment.times) } else { String::new() };
    format!("After this the strands hang like this{often}: `{whole}`")
}

fn extents(checked: &Checked, moment: &TiedMoment, hints: &mut Vec<Hint>) {
    let site = Site::at(checked.source(), moment.span.start);
    let Some(take) = site.inner().and_then(|statement| statement.get::<Take>()) else { return };
    let runs = runs_of(take, moment.span.start);
    if !runs.iter().any(goes_far) {
        return;
    }
    let Some(tied) = TiedStep::of(checked, moment) else { return };
    hints.extend(came(&tied, take, moment));
}

fn came(tied: &TiedStep, take: &Take, moment: &TiedMoment) -> Vec<Hint> {
    let runs = runs_of(take, moment.span.start);
    let counts = came_to(tied, take, moment.span.start);
    let hint = |(run, count): (&Run, Option<usize>)| {
        let count = count.filter(|_| goes_far(run))?;
        let noun = crate::wording::count(count.to_u64(), "knot");
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
