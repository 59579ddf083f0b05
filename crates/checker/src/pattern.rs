//! A pattern after it was tied: all that the other rooms want to know about it, without its text.

use crate::faces::{comes_again, face_in, is_wish};
use crate::resolve::Script;
use crate::tie::{Spot, Tied, View, look_at, tie_one};
use crate::{Part, PartKind, Phrase, Place, Source, Translations};
use knotwright_band::ends::BandEnds;
use knotwright_band::thread::Gauge;
use knotwright_color::Rgb;
use knotwright_designer::WishedFace;
use knotwright_grammar::tree::Statement;
use smol_str::SmolStr;
use std::mem::swap;
use std::sync::Arc;

/// A pattern with its head looked up and its opening, set and closing tied once.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    /// The title.
    pub title: Phrase,
    /// Its paragraphs.
    pub about: Vec<Phrase>,
    /// Who made it.
    pub authors: Vec<String>,
    /// Under which license.
    pub license: Option<String>,
    /// The threads, in the order they stand.
    pub threads: Vec<PatternThread>,
    /// The beads, in the order they stand.
    pub beads: Vec<PatternBead>,
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
    /// What is made of the strands at both ends.
    pub made: BandEnds,
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
            beads: head.beads,
            colorways: head.colorways,
            strands: head.strands?,
            gauge: head.gauge,
            extent: head.extent,
            ends: head.ends,
            start: head.start,
            made: head.made,
            opening: tied.opening,
            set: tied.set,
            closing: tied.closing,
            picks_by_color: tied.picks_by_color,
            script,
        })
    }

    /// Takes its parts as they were tied from its script otherwise, until the two are exchanged again. Its head is not copied for
    /// it.
    pub(crate) fn exchange(&mut self, tied: &mut Tied) {
        swap(&mut self.opening, &mut tied.opening);
        swap(&mut self.set, &mut tied.set);
        swap(&mut self.closing, &mut tied.closing);
        swap(&mut self.picks_by_color, &mut tied.picks_by_color);
    }

    /// One of its parts, if there is one.
    pub fn part(&self, kind: PartKind) -> Option<&Part> {
        match kind {
            PartKind::Opening => self.opening.as_ref(),
            PartKind::Set => self.set.as_ref(),
            PartKind::Closing => self.closing.as_ref(),
        }
    }

    /// Its parts in the order in which they are tied.
    pub fn parts(&self) -> impl Iterator<Item = (PartKind, &Part)> {
        PartKind::ALL.into_iter().filter_map(|kind| Some((kind, self.part(kind)?)))
    }

    /// Whether every part was tied from its first knot to its last, without strands hung otherwise in between: so it is
    /// if there is no error.
    pub fn is_whole(&self) -> bool {
        self.parts().all(|(_, part)| !part.piece.is_rehung())
    }

    /// By position, the thread that hangs there as a part begins; the closing as after one set.
    pub fn threads_before(&self, kind: PartKind) -> Vec<u16> {
        threads_after(self.strands.clone(), self.parts().take_while(|(before, _)| *before < kind))
    }

    /// The set, tied when these threads hang there, by position. The strands of the part are named by their position as
    /// it begins. Promises are not tested.
    ///
    /// `None` if there is no set, if there are not as many threads as strands, or if the set cannot be tied to its end.
    pub fn set_from(&self, threads: &[u16]) -> Option<Part> {
        tie_one(&self.script, PartKind::Set, self.hung(threads)?)
    }

    /// The closing, as [`set_from`](Self::set_from).
    pub fn closing_from(&self, threads: &[u16]) -> Option<Part> {
        tie_one(&self.script, PartKind::Closing, self.hung(threads)?)
    }

    /// The sources it was tied from, the checked file first.
    pub fn sources(&self) -> impl Iterator<Item = &Arc<Source>> {
        self.script.sources()
    }

    /// The strands at a spot, the first time the tie comes there; `more` is tied there before the look.
    /// `None` if it never comes there. Takes time in proportion to the knots before.
    pub fn look(&self, spot: Spot, more: &[Statement]) -> Option<View> {
        look_at(&self.script, spot, more)
    }

    /// What a part says is to be seen; colors are threads of the pattern.
    pub fn face(&self, kind: PartKind) -> Option<WishedFace> {
        Some(face_in(&self.script, kind)?.face)
    }

    /// By knot of the face of a part, where its mark stands.
    pub fn face_marks(&self, kind: PartKind) -> Vec<Place> {
        face_in(&self.script, kind).map(|read| read.marks).unwrap_or_default()
    }

    /// Whether a part says that its strands hang at its end as at its start.
    pub fn comes_again(&self, kind: PartKind) -> bool {
        comes_again(&self.script, kind)
    }

    /// The face of a part that nothing ties yet.
    pub fn wish(&self, kind: PartKind) -> Option<WishedFace> {
        self.is_wish(kind).then(|| self.face(kind)).flatten()
    }

    /// The first part that has a face and nothing that ties it yet.
    pub fn wished_part(&self) -> Option<PartKind> {
        PartKind::ALL.into_iter().find(|kind| self.is_wish(*kind))
    }

    /// Whether a part has a face and nothing that ties it yet.
    pub fn is_wish(&self, kind: PartKind) -> bool {
        is_wish(&self.script, kind)
    }

    /// What was looked up: motifs by name.
    pub fn script(&self) -> &Script {
        &self.script
    }

    fn hung(&self, threads: &[u16]) -> Option<Vec<u16>> {
        (threads.len() == self.strands.len()).then(|| threads.to_vec())
    }
}

/// By position, the thread that hangs there after some parts that began with `threads`.
pub(crate) fn threads_after<'a>(
    threads: Vec<u16>,
    parts: impl Iterator<Item = (PartKind, &'a Part)>,
) -> Vec<u16> {
    parts.fold(threads, |threads, (_, part)| part.piece.threads_after(&threads))
}

/// A thread and its color; also how a bead looks, and what it is called.
#[derive(Debug, Clone, PartialEq)]
pub struct PatternThread {
    /// Its name.
    pub name: SmolStr,
    /// Its color; of a thread that changes color, the first.
    pub color: Rgb,
    /// If it changes color along its length: its colors, which come over and over, the first one first. Otherwise none.
    pub shades: Vec<Shade>,
    /// What people call it.
    pub label: Option<String>,
    /// What people call it in other languages.
    pub labels: Translations,
}

/// One color of a thread that changes color, and how far it goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shade {
    /// The color.
    pub color: Rgb,
    /// How far it goes, in millimeters.
    pub length: f64,
}

impl PatternThread {
    /// What people call it in a language, or in the author's own words.
    pub fn label_in(&self, tag: Option<&str>) -> Option<&str> {
        tag.and_then(|tag| self.labels.find(tag)).or(self.label.as_deref())
    }

    /// What people call it in a language, or its name if they call it nothing else.
    pub fn shown_in(&self, tag: Option<&str>) -> &str {
        self.label_in(tag).filter(|label| !label.trim().is_empty()).unwrap_or(&self.name)
    }
}

/// A bead, its color and its size.
#[derive(Debug, Clone, PartialEq)]
pub struct PatternBead {
    /// Its name, its color, and what people call it.
    pub look: PatternThread,
    /// From side to side, and from one end of its hole to the other, in millimeters.
    pub across: f64,
    /// How wide its hole is, in millimeters.
    pub hole: f64,
}

/// The colors of all threads, in one colorway.
#[derive(Debug, Clone, PartialEq)]
pub struct Colorway {
    /// Its name.
    pub name: String,
    /// By thread: its color and label there.
    pub threads: Vec<PatternThread>,
}

/// How much is tied.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Extent {
    /// Not said.
    #[default]
    Open,
    /// The knotted part, in millimeters.
    Length(f64),
    /// This number of sets.
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
    /// Folded over a loop of this many millimeters.
    Loop(f64, Vec<(u8, u8)>),
}
