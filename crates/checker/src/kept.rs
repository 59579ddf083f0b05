//! What is kept of a check for the next one, after an edit.
//!
//! Names are looked up and knots tied anew each time: that is soon done. What takes time is to lay the band
//! row by row and to look it through. If an edit within an opening, a set, a closing or a motif leaves every knot as
//! it was, the band shows what it showed, and only the places have moved.

use crate::{FileId, Finding, Part, Pattern, Place, Source, Step};
use knotwright_grammar::tree::Node;
use knotwright_grammar::{Difference, Span};
use std::sync::Arc;

/// What a report remembers.
#[derive(Debug, Clone)]
pub(crate) enum Memory {
    /// What the band shows.
    Band(Vec<Finding>),
    /// There is an error now; what was kept when there was none.
    Before(Option<Box<Kept>>),
}

impl Memory {
    /// What the band of this report shows.
    pub(crate) fn said(&self) -> &[Finding] {
        match self {
            Self::Band(said) => said,
            Self::Before(_) => &[],
        }
    }
}

/// A pattern without an error as it was tied, and what its band shows. It holds no file.
#[derive(Debug, Clone)]
pub struct Kept {
    text: Arc<str>,
    bodies: Bodies,
    band: Band,
    said: Vec<Finding>,
}

/// So many statements at the top, and those that tie: by number, what stands between their braces.
#[derive(Debug, Clone, PartialEq)]
struct Bodies {
    statements: usize,
    between: Vec<(usize, Span)>,
}

/// All that the band rests on, but the head.
#[derive(Debug, Clone)]
struct Band {
    strands: Vec<u16>,
    picks_by_color: bool,
    parts: [Option<Part>; 3],
}

impl Kept {
    pub(crate) fn new(source: &Source, pattern: Pattern, said: Vec<Finding>) -> Option<Self> {
        let Pattern { strands, picks_by_color, opening, set, closing, .. } = pattern;
        let band = Band { strands, picks_by_color, parts: [opening, set, closing] };
        Some(Self { text: Arc::clone(&source.text), bodies: Bodies::of(source)?, band, said })
    }

    /// What the band of `pattern` shows, read from `source`, if it is the same band.
    pub(crate) fn said(self, pattern: &Pattern, source: &Source) -> Option<Vec<Finding>> {
        let Some(difference) = Difference::of(&self.text, &source.text) else {
            return self.band.is_that_of(pattern, Some).then_some(self.said);
        };
        if !self.bodies.hold(difference, &Bodies::of(source)?) {
            return None;
        }
        if !self.band.is_that_of(pattern, |place| moved(place, difference)) {
            return None;
        }
        self.said.into_iter().map(|finding| moved_finding(finding, difference)).collect()
    }
}

impl Bodies {
    /// `None` if a brace is missing.
    fn of(source: &Source) -> Option<Self> {
        let statements = &source.parsed.tree.statements;
        let mut between = Vec::new();
        for (at, statement) in statements.iter().enumerate() {
            let block = match &statement.node {
                Node::Opening(block) | Node::Set(block) | Node::Closing(block) => block,
                Node::Motif(motif) => &motif.block,
                _ => continue,
            };
            between.push((at, Span { start: block.open.end, end: block.close?.start }));
        }
        Some(Self { statements: statements.len(), between })
    }

    /// Whether the difference lies within one of the bodies, and all else at the top is as it was.
    fn hold(&self, difference: Difference, now: &Self) -> bool {
        let (start, end) = (difference.start as u32, difference.before as u32);
        let around = self.between.iter().find(|(_, body)| body.start <= start && end <= body.end);
        let Some((at, body)) = around else { return false };
        let is_around = (*at, Span { start: body.start, end: shifted(body.end, difference) });
        now.statements == self.statements && now.between.contains(&is_around)
    }
}

impl Band {
    /// Whether `pattern` has these knots, tied by the steps that stand where `moved` says. Where a step was that it
    /// cannot follow makes no difference.
    fn is_that_of(&self, pattern: &Pattern, moved: impl Fn(Place) -> Option<Place>) -> bool {
        let same_step = |(old, new): (&Step, &Step)| {
            old.knots == new.knots && moved(old.place).is_none_or(|place| place == new.place)
        };
        let same_part = |old: &Part, new: &Part| {
            old.knots == new.knots
                && old.order == new.order
                && old.straight == new.straight
                && old.steps.len() == new.steps.len()
                && old.steps.iter().zip(&new.steps).all(same_step)
        };
        let now = [&pattern.opening, &pattern.set, &pattern.closing];
        self.strands == pattern.strands
            && self.picks_by_color == pattern.picks_by_color
            && self.parts.iter().zip(now).all(|parts| match parts {
                (Some(old), Some(new)) => same_part(old, new),
                (old, new) => old.is_none() && new.is_none(),
            })
    }
}

fn shifted(offset: u32, difference: Difference) -> u32 {
    offset.wrapping_add_signed(difference.by())
}

/// Where a place is now; `None` if it touches what differs.
fn moved(place: Place, difference: Difference) -> Option<Place> {
    let Place { file, span } = place;
    if file != FileId(0) || (span.end as usize) < difference.start {
        return Some(place);
    }
    let behind = span.start as usize > difference.before;
    let shift = |offset| shifted(offset, difference);
    behind.then(|| Place { file, span: Span { start: shift(span.start), end: shift(span.end) } })
}

fn moved_finding(mut finding: Finding, difference: Difference) -> Option<Finding> {
    finding.place = moved(finding.place, difference)?;
    for note in &mut finding.notes {
        note.place = moved(note.place, difference)?;
    }
    Some(finding)
}
