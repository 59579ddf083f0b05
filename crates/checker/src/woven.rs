//! A sound pattern and its band, as the warnings look at them: pieces, and the step behind every knot.

use crate::uneven::SeenPart;
use crate::worked_at::{PartKnot, affordable_looks, worked_at};
use crate::{Checked, Extent, FileId, Finding, Part, PartKind, Pattern, Place, Source, Step};
use knotwright_band::beads::BeadAt;
use knotwright_band::thread::Figures;
use knotwright_band::{BandRows, Join, Piece, Sets};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{ClosingBlock, OpeningBlock, SetBlock};
use knotwright_numbers::ToNumber;
use std::cell::{Cell, OnceCell};
use std::ops::Deref;

/// Sets that pick strands by color are tied one after another until their colors come again, but no more knots
/// than this: an answer is wanted while one writes. A set counts as some knots, however few it has.
const MOST_KNOTS_LOOKED_AHEAD: usize = 500_000;
const KNOTS_FOR_A_SET: usize = 50;

/// A pattern in which every promise holds.
pub(crate) struct Sound<'a> {
    pub(crate) source: &'a Source,
    pub(crate) pattern: &'a Pattern,
    /// Whether the colors hang after one set as before it.
    closes: bool,
    sets: OnceCell<Option<Sets>>,
    /// What is seen of opening, set and closing.
    seen: [OnceCell<Option<SeenPart>>; 3],
}

impl<'a> Sound<'a> {
    /// `None` if there is an error: what is tied then is not what was meant.
    pub(crate) fn of(checked: &Checked<'a>) -> Option<Self> {
        let pattern = checked.pattern.filter(|_| checked.sound)?;
        let closes = checked.closes == Some(true);
        Some(Self {
            source: checked.source,
            pattern,
            closes,
            sets: OnceCell::new(),
            seen: Default::default(),
        })
    }

    /// Whether the colors hang after one set as before it.
    pub(crate) fn closes(&self) -> bool {
        self.closes
    }

    /// The words `set`, `opening` or `closing`, whichever is there: what a finding about the band points at.
    pub(crate) fn head(&self) -> Place {
        let mut found = Span::default();
        for statement in self.source.parsed.tree.statements.iter().rev() {
            let word = if statement.is::<SetBlock>() {
                "set"
            } else if statement.is::<OpeningBlock>() && found.is_empty() {
                "opening"
            } else if statement.is::<ClosingBlock>() && found.is_empty() {
                "closing"
            } else {
                continue;
            };
            let start = statement.span.start.to_usize();
            found = Span::new(start, start + word.len());
            if word == "set" {
                break;
            }
        }
        Place { file: FileId::CHECKED, span: found }
    }

    /// By strand of the opening: its thread.
    pub(crate) fn thread(&self, strand: u8) -> u16 {
        self.pattern.strands.get(usize::from(strand)).copied().unwrap_or(u16::MAX)
    }

    /// What a thread is called.
    pub(crate) fn name(&self, thread: u16) -> &'a str {
        self.pattern.threads.get(usize::from(thread)).map_or("", |thread| thread.name.as_str())
    }

    /// By position, the thread that hangs there as the set begins.
    pub(crate) fn set_threads(&self) -> Vec<u16> {
        self.pattern.threads_before(PartKind::Set)
    }

    /// What is seen of a part; `None` if that is not known, or not worth a look.
    pub(crate) fn seen(&self, kind: PartKind) -> Option<&SeenPart> {
        self.seen_in(kind, None)
    }

    fn seen_in(&self, kind: PartKind, laid: Option<&BandRows>) -> Option<&SeenPart> {
        self.seen[kind as usize].get_or_init(|| SeenPart::of(self, kind, laid)).as_ref()
    }

    /// All sets, one after another; `None` if there is none, or if it cannot be said how they go on.
    pub(crate) fn sets(&self) -> Option<&Sets> {
        self.sets.get_or_init(|| self.find_sets()).as_ref()
    }

    fn find_sets(&self) -> Option<Sets> {
        let set = self.pattern.set.as_ref()?.piece.clone();
        let begins = self.set_threads();
        if !self.pattern.picks_by_color || set.threads_after(&begins) == begins {
            return Some(Sets::alike(set));
        }
        let mut affordable = MOST_KNOTS_LOOKED_AHEAD;
        let mut tie = |threads: &[u16]| {
            let set = self.pattern.set_from(threads)?.piece;
            affordable = affordable.checked_sub(set.knots().len().max(KNOTS_FOR_A_SET))?;
            Some(set)
        };
        Sets::by_color(&begins, |threads| tie(threads).ok_or(())).ok()
    }
}

/// The band of a sound pattern, every knot in its row.
pub(crate) struct Woven<'a> {
    sound: &'a Sound<'a>,
    pub(crate) opening: Piece,
    pub(crate) set: Option<Piece>,
    pub(crate) closing: Piece,
    /// Opening, set and closing, one below the other; the set twice if a second one is tied like the first, so that it is
    /// seen how one set joins the next.
    pub(crate) laid: BandRows,
    /// All that is laid as one piece, if somebody has asked for it.
    whole: OnceCell<Piece>,
    /// By part of what is laid, its first knot.
    parts: Vec<(u32, &'a Part)>,
    /// How many looks may still be taken to find out where motifs are worked: none while edits are tried.
    looks: Cell<usize>,
}

/// What is known of the pattern is known of its band.
impl<'a> Deref for Woven<'a> {
    type Target = Sound<'a>;

    fn deref(&self) -> &Sound<'a> {
        self.sound
    }
}

impl<'a> Woven<'a> {
    /// What knots and rows take of the thread that the gauge tells, or of the usual one.
    pub(crate) fn figures(&self) -> Option<Figures> {
        let straight = self.laid.straight_rows().to_f64() / f64::from(self.laid.height().max(1));
        self.pattern.gauge.or_usual().figures(straight.min(1.0)).ok()
    }

    /// Lays the band of a pattern.
    pub(crate) fn of(sound: &'a Sound<'a>) -> Self {
        Self::of_pieces(sound, |kind| sound.pattern.part(kind).map(|part| part.piece.clone()))
    }

    /// Lays other pieces in the place of the pattern's own. The steps behind them are not known.
    pub(crate) fn of_pieces(sound: &'a Sound<'a>, piece: impl Fn(PartKind) -> Option<Piece>) -> Self {
        let pattern = sound.pattern;
        let none = || Piece::empty(pattern.strands.len());
        let opening = piece(PartKind::Opening).unwrap_or_else(none);
        let closing = piece(PartKind::Closing).unwrap_or_else(none);
        let set = piece(PartKind::Set);
        let alike = sound.closes || !pattern.picks_by_color;
        let sets = if alike && pattern.extent != Extent::Sets(1) { 2 } else { 1 };
        let of = |part: &'a Option<Part>, piece: &Piece| part.as_ref().map(|part| (part, piece.clone()));
        let set_of = set.as_ref().and_then(|set| of(&pattern.set, set));
        let parts: Vec<(&Part, Piece)> = of(&pattern.opening, &opening)
            .into_iter()
            .chain(set_of.into_iter().flat_map(|set| std::iter::repeat_n(set, sets)))
            .chain(of(&pattern.closing, &closing))
            .collect();
        let laid = match parts.is_empty() {
            true => BandRows::of([none()]),
            false => BandRows::of(parts.iter().map(|(_, piece)| piece.clone())),
        };
        let parts = parts.into_iter().map(|(part, _)| part);
        let parts = laid.firsts().zip(parts).collect();
        Self { sound, laid, whole: OnceCell::new(), parts, opening, set, closing, looks: Cell::new(0) }
    }

    /// This band for somebody who reads what is found.
    pub(crate) fn told(self) -> Self {
        self.looks.set(affordable_looks(self.sound.pattern));
        self
    }

    /// What is seen of a part, as [`Sound::seen`] says it. If the band begins with two sets, the set is not laid again for that.
    pub(crate) fn seen(&self, kind: PartKind) -> Option<&SeenPart> {
        let is_set_twice = matches!(&self.parts[..], [(_, one), (_, next), ..] if std::ptr::eq(*one, *next));
        self.sound.seen_in(kind, Some(&self.laid).filter(|_| is_set_twice))
    }

    /// All that is laid as one piece. Of a long band that takes time: few ask for it.
    pub(crate) fn whole(&self) -> &Piece {
        self.whole.get_or_init(|| self.laid.as_one())
    }

    /// The joins of all that is laid.
    pub(crate) fn joins(&self) -> impl Iterator<Item = &Join> {
        self.laid.pieces().flat_map(Piece::joins)
    }

    /// The beads of all that is laid in the order of threading, and where each stands. One whose line at the top cannot be read
    /// is left out.
    pub(crate) fn beads(&self) -> (Vec<BeadAt>, Vec<Place>) {
        let of = |(first, part): &(u32, &'a Part)| {
            let first = *first;
            let whole = move |bead: BeadAt| BeadAt { before: first + bead.before, ..bead };
            let place = |bead: BeadAt| part.steps[bead.step.to_usize()].place;
            let is_known = |bead: &BeadAt| usize::from(bead.bead) < self.pattern.beads.len();
            part.beads().filter(is_known).map(|bead| (whole(bead), place(bead))).collect::<Vec<_>>()
        };
        self.parts.iter().flat_map(of).unzip()
    }

    /// Whether a knot of what is laid is of the second set.
    pub(crate) fn is_of_second_set(&self, knot: usize) -> bool {
        let after = self.parts.partition_point(|(first, _)| first.to_usize() <= knot);
        matches!(&self.parts[..after], [.., (_, before), (_, own)] if std::ptr::eq(*before, *own))
    }

    /// Where the step stands that tied a knot of what is laid.
    pub(crate) fn place(&self, knot: usize) -> Option<Place> {
        self.step(knot).map(|step| step.place)
    }

    /// A finding about a knot of what is laid, with where the motif is worked in which its step stands.
    pub(crate) fn note_work(&self, mut finding: Finding, knot: u32) -> Finding {
        let Some(knot) = self.knot_of_part(knot).filter(|_| self.looks.get() > 0) else { return finding };
        for work in worked_at(self.pattern, knot, &self.looks) {
            finding = finding.note(work, "the motif is worked here");
        }
        finding
    }

    /// A knot of what is laid as one of its part.
    fn knot_of_part(&self, knot: u32) -> Option<PartKnot> {
        let after = self.parts.partition_point(|(first, _)| *first <= knot);
        let (first, part) = *self.parts.get(after.checked_sub(1)?)?;
        let mut parts = self.pattern.parts();
        let (kind, _) = parts.find(|(_, other)| std::ptr::eq(*other, part))?;
        Some(PartKnot { part: kind, number: knot - first, step: self.place(knot.to_usize())? })
    }

    /// The step that tied a knot of what is laid; the second set's are those of the first.
    pub(crate) fn step(&self, knot: usize) -> Option<&'a Step> {
        let knot = u32::try_from(knot).ok()?;
        let after = self.parts.partition_point(|(first, _)| *first <= knot);
        let (first, part) = *self.parts.get(after.checked_sub(1)?)?;
        part.step_of(knot - first).map(|step| &part.steps[step])
    }
}
