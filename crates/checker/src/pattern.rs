//! A pattern after it was tied: all that the other rooms want to know about it, without its text.

use crate::resolve::Script;
use crate::tie::{Spot, Tied, View, Which, look, tie_one};
use crate::{Place, Source};
use knotwright_band::{Kind, Knot};
use knotwright_color::Rgb;
use knotwright_grammar::tree::Statement;
use smol_str::SmolStr;
use std::ops::Range;
use std::sync::Arc;

/// A pattern with its head looked up and its opening, set and closing tied once.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    /// The title.
    pub title: String,
    /// Its paragraphs.
    pub about: Vec<String>,
    /// Who made it.
    pub authors: Vec<String>,
    /// Under which license.
    pub license: Option<String>,
    /// The threads, in the order they stand.
    pub threads: Vec<PatternThread>,
    /// The same pattern in other colors.
    pub colorways: Vec<Colorway>,
    /// By starting position, which of the threads hangs there; `u16::MAX` where the name is unknown.
    pub strands: Vec<u16>,
    /// The author's swatch, lengths in millimeters.
    pub gauge: Gauge,
    /// How much is tied.
    pub extent: Extent,
    /// Left free at each end, in millimeters.
    pub ends: Option<f64>,
    /// How the strands hang.
    pub start: StartForm,
    /// Tied once, at the start.
    pub opening: Option<Part>,
    /// Tied over and over.
    pub set: Option<Part>,
    /// Tied once, at the end; tied here as after one set.
    pub closing: Option<Part>,
    /// Whether some step of the set picks strands by color: then the next set may take other places than the first.
    pub picks_by_color: bool,
    /// What it was tied from, to tie it again.
    script: Arc<Script>,
}

impl Pattern {
    /// The pattern that was tied from `script`; `None` if it does not say who hangs where.
    pub(crate) fn new(script: Arc<Script>, tied: Tied) -> Option<Self> {
        let head = script.head.clone();
        Some(Self {
            title: head.title,
            about: head.about,
            authors: head.authors,
            license: head.license,
            threads: head.threads,
            colorways: head.colorways,
            strands: head.strands?,
            gauge: head.gauge,
            extent: head.extent,
            ends: head.ends,
            start: head.start,
            opening: tied.opening,
            set: tied.set,
            closing: tied.closing,
            picks_by_color: tied.picks_by_color,
            script,
        })
    }

    /// The set, tied with the strands in another order: by position, which of the pattern's strands hangs there.
    /// The strands of the part are named by their position as it begins. Promises are not tested.
    ///
    /// `None` if there is no set, or `order` does not name each strand once.
    pub fn set_from(&self, order: &[u8]) -> Option<Part> {
        tie_one(&self.script, Which::Set, self.threads_of(order)?)
    }

    /// The closing, as [`set_from`](Self::set_from).
    pub fn closing_from(&self, order: &[u8]) -> Option<Part> {
        tie_one(&self.script, Which::Closing, self.threads_of(order)?)
    }

    /// The sources it was tied from, the checked file first.
    pub fn sources(&self) -> impl Iterator<Item = &Arc<Source>> {
        self.script.sources()
    }

    /// The strands at a spot, the first time the tie comes there; `more` is tied there before the look.
    /// `None` if it never comes there. Takes time in proportion to the knots before.
    pub fn look(&self, spot: Spot, more: &[Statement]) -> Option<View> {
        look(&self.script, spot, more)
    }

    /// What was looked up: motifs by name.
    pub fn script(&self) -> &Script {
        &self.script
    }

    fn threads_of(&self, order: &[u8]) -> Option<Vec<u16>> {
        let mut seen = vec![false; self.strands.len()];
        for &strand in order {
            let seen = seen.get_mut(usize::from(strand)).filter(|seen| !**seen)?;
            *seen = true;
        }
        (order.len() == self.strands.len())
            .then(|| order.iter().map(|&strand| self.strands[usize::from(strand)]).collect())
    }
}

/// A thread and its color.
#[derive(Debug, Clone, PartialEq)]
pub struct PatternThread {
    /// Its name.
    pub name: SmolStr,
    /// Its color.
    pub color: Rgb,
    /// What people call it.
    pub label: Option<String>,
}

/// The colors of all threads, in one colorway.
#[derive(Debug, Clone, PartialEq)]
pub struct Colorway {
    /// Its name.
    pub name: String,
    /// By thread: its color and label there.
    pub threads: Vec<PatternThread>,
}

/// What a swatch says. Lengths in millimeters.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Gauge {
    /// Of the thread.
    pub thickness: Option<f64>,
    /// So many knots use so much of the working strand.
    pub knots_use: Option<(u32, f64)>,
    /// So many brick rows measure so much.
    pub rows_measure: Option<(u32, f64)>,
}

/// How much is tied.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Extent {
    /// Not said.
    #[default]
    Open,
    /// The knotted part, in millimeters.
    Length(f64),
    /// So many sets.
    Sets(u32),
}

/// How the strands hang at the start.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum StartForm {
    /// Each by itself.
    #[default]
    Loose,
    /// Folded in the middle; pairs of starting positions that are one thread.
    Folded(Vec<(u8, u8)>),
    /// Folded over a loop of so many millimeters.
    Loop(f64, Vec<(u8, u8)>),
}

/// An opening, a set or a closing, tied once.
///
/// Where a pattern has errors the strands may have been hung anew by an `expect`; `order` then is not where the
/// knots alone would have brought them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Part {
    /// Its knots in the order of the script. Strands are named by their position as this part began.
    pub knots: Vec<Knot>,
    /// By position, which strand hangs there afterwards.
    pub order: Vec<u8>,
    /// The steps, in order; their knots are consecutive.
    pub steps: Vec<Step>,
    /// Ranges of knots that lie in one straight row: the rows of a leader.
    pub straight: Vec<Range<u32>>,
    /// The runs of all steps, one after another.
    pub runs: Vec<(Kind, u32)>,
    /// Steps, headings and remarks in the order they are read; none after the first 500,000.
    pub events: Vec<Event>,
}

/// One strand taken in hand and what it tied; or one `meet`, or one row of a chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Where it is written: the `take` up to its runs' end, the `then`, the `meet`, the chart's row.
    pub place: Place,
    /// Its knots.
    pub knots: Range<u32>,
    /// The positions that exist for it, both included, from 0.
    pub within: (u8, u8),
    /// Where the strand hung when it was taken; for a chart's row, the range's first position.
    pub from: u8,
    /// How the strand was named.
    pub named: Named,
    /// What was tied, run by run, as it came out (mirrored already, if it stands in a mirror): a range of
    /// [`Part::runs`].
    pub runs: Range<u32>,
}

impl Part {
    /// The knots of one of its steps.
    pub fn knots_of(&self, step: &Step) -> &[Knot] {
        self.knots.get(step.knots.start as usize..step.knots.end as usize).unwrap_or_default()
    }

    /// The runs of one of its steps.
    pub fn runs_of(&self, step: &Step) -> &[(Kind, u32)] {
        self.runs.get(step.runs.start as usize..step.runs.end as usize).unwrap_or_default()
    }
}

/// How the strand of a step was named.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Named {
    /// By its place from the left.
    FromLeft,
    /// By its place from the right.
    FromRight,
    /// As the middle one or one of the middle two.
    Center,
    /// By color.
    Color,
    /// By label.
    Label,
    /// By `then` or a series: whichever hangs there now.
    Then,
    /// `meet center`.
    Meet,
    /// A row of a chart.
    Row,
    /// A row of a leader.
    Leader,
}

/// What is read aloud, in order.
#[derive(Debug, Clone, PartialEq)]
pub enum Event {
    /// A heading; closed by [`Event::SectionEnd`].
    Section(String),
    /// The end of a section.
    SectionEnd,
    /// A remark.
    Note(String),
    /// The step of that index.
    Step(u32),
    /// A `repeat` of so many passes begins; closed by [`Event::RepeatEnd`].
    Repeat(u32),
    /// A pass of the repeat begins.
    Pass,
    /// The end of a repeat.
    RepeatEnd,
    /// A promise of the order was kept (by position, the strand there).
    Order(Vec<u8>),
}
