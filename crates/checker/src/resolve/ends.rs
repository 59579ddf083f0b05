//! What is made of the strands before the first knot and after the last, and whether it can be.

use super::beads::KnownBeads;
use super::{File, UNKNOWN_THREAD, measures};
use crate::facts::Facts;
use crate::{EndsTrouble, FactKind, FileId, Place};
use knotwright_band::ends::{EndWork, share_out};
use knotwright_band::thread::{PlaitShape, USUAL_SKEIN};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{
    Block, EndBead, EndPiece, Name, Node, Number, Plait, Slide, SplitBlock, Statement, Twist, Wrap,
};
use knotwright_numbers::ToNumber;
use std::ops::{Range, RangeInclusive};

/// Of how many bundles a plait is made by hand.
const BUNDLES: RangeInclusive<u32> = 3..=8;
/// More turns are surely a slip. Common practice, no source.
const MOST_TURNS: u32 = 500;

/// An end and the strands that hang there.
pub(super) struct EndReader<'a> {
    pub(super) file: &'a File,
    /// `begin`, or else `finish`.
    pub(super) is_begin: bool,
    /// How many strands hang there, if that is known.
    pub(super) strands: Option<usize>,
    /// Which of them are one thread; there is none at an end where all are cut.
    pub(super) pairs: &'a [(u8, u8)],
    /// Whether they are folded there.
    pub(super) is_folded: bool,
    /// The thread of the leftmost strand.
    pub(super) first_thread: u16,
    pub(super) beads: KnownBeads<'a>,
    pub(super) facts: &'a mut Facts,
}

/// The strands of a bundle, by their position; `None` if it is not known how many there are.
type Strands = Option<Range<usize>>;

impl EndReader<'_> {
    /// All that is made there. What cannot be made is reported and left out.
    pub(super) fn read(&mut self, block: &Block, place: Place) -> Vec<EndWork> {
        let strands = self.strands.map(|strands| 0..strands);
        let works = self.works(block, &strands, Outward { reaches_tip: true, is_whole: true });
        // A strand has no more than a skein.
        let (millimeters, most) = (taken(&works), USUAL_SKEIN);
        if millimeters > most {
            let block = if self.is_begin { "begin" } else { "finish" };
            self.facts.say(place, FactKind::Ends(EndsTrouble::TooLong { block, millimeters, most }));
        }
        works
    }

    fn works(&mut self, block: &Block, strands: &Strands, outward: Outward) -> Vec<EndWork> {
        let pieces: Vec<(&EndPiece, Span)> = block.statements.iter().filter_map(piece_of).collect();
        let closures = pieces.iter().rev().take_while(|(piece, _)| role_of(piece) == EndRole::Closes).count();
        let outermost = if self.is_begin { Some(0) } else { (pieces.len() - closures).checked_sub(1) };
        let mut works = Vec::with_capacity(pieces.len());
        for (at, &(piece, span)) in pieces.iter().enumerate() {
            let is_last = outward.is_whole && at + 1 == pieces.len();
            let at_tip = outward.reaches_tip && Some(at) == outermost;
            let beyond = if self.is_begin { &pieces[..at] } else { &pieces[at + 1..] };
            let hangs = beyond.iter().all(|(piece, _)| role_of(piece) == EndRole::HangsFree);
            let is_free = outward.reaches_tip && !self.is_folded && hangs;
            works.extend(self.work(piece, strands, Standing { span, at_tip, is_free, is_last }));
        }
        works
    }

    fn work(&mut self, piece: &EndPiece, strands: &Strands, at: Standing) -> Option<EndWork> {
        match piece {
            EndPiece::Knot(_) => Some(EndWork::Knot),
            EndPiece::Plait(plait) => self.plait(plait, strands),
            EndPiece::Twist(twist) => self.twist(twist, strands, at),
            EndPiece::Wrap(wrap) => self.wrap(wrap),
            EndPiece::Split(split) => self.split(split, strands, at),
            EndPiece::Loop(round) => {
                let length = measures::read_length("loop", &round.length, self.facts)?;
                self.at_tip("loop", at)?;
                Some(EndWork::Loop { length })
            }
            EndPiece::Tassel(tassel) => {
                let length = measures::read_length("tassel", &tassel.length, self.facts)?;
                self.unless(self.is_folded, at.span, EndsTrouble::TasselAtFold)?;
                self.at_tip("tassel", at)?;
                Some(EndWork::Tassel { length })
            }
            EndPiece::Bead(bead) => self.bead(bead, strands, at),
            EndPiece::Closing(_) => {
                self.closes("closing knot", at)?;
                Some(EndWork::ClosingKnot)
            }
            EndPiece::Slide(slide) => self.slide(slide, at),
        }
    }

    fn bead(&mut self, bead: &EndBead, strands: &Strands, at: Standing) -> Option<EndWork> {
        self.unless(at.is_free, at.span, EndsTrouble::BeadSlipsOff)?;
        // A name that is not there is reported where all names are.
        let number = *self.file.beads.get(&bead.bead.text)?;
        if let Some(trouble) =
            self.beads.in_the_way(number, strands.as_ref().map_or(0, |strands| strands.len()))
        {
            self.facts.say(Place { file: FileId::CHECKED, span: at.span }, FactKind::BeadHole(trouble));
        }
        Some(EndWork::Bead { bead: number, length: self.beads.beads.get(usize::from(number))?.across })
    }

    fn twist(&mut self, twist: &Twist, strands: &Strands, at: Standing) -> Option<EndWork> {
        let length = measures::read_length("twist", &twist.length, self.facts)?;
        let is_alone = strands.as_ref().is_some_and(|strands| strands.len() < 2);
        self.unless(is_alone, at.span, EndsTrouble::TwistOfOne)?;
        Some(EndWork::Twist { length })
    }

    fn plait(&mut self, plait: &Plait, strands: &Strands) -> Option<EndWork> {
        let length = measures::read_length("plait", &plait.length, self.facts);
        let Number { span, value: bundles } = plait.bundles;
        self.unless(!BUNDLES.contains(&bundles), span, EndsTrouble::PlaitBundles { bundles })?;
        if let Some(strands) = strands.as_ref().map(|strands| strands.len()) {
            let too_few = strands < bundles.to_usize();
            self.unless(too_few, span, EndsTrouble::PlaitStrands { bundles, strands })?;
        }
        Some(EndWork::Plait { bundles: u8::try_from(bundles).ok()?, length: length? })
    }

    fn wrap(&mut self, wrap: &Wrap) -> Option<EndWork> {
        let turns = self.turns(wrap.turns)?;
        Some(EndWork::Wrap { thread: self.thread(&wrap.thread), turns })
    }

    fn slide(&mut self, slide: &Slide, at: Standing) -> Option<EndWork> {
        let turns = self.turns(slide.turns);
        self.closes("slide", at)?;
        let thread = slide.thread.as_ref().map_or(self.first_thread, |name| self.thread(name));
        Some(EndWork::Slide { thread, turns: turns? })
    }

    fn split(&mut self, split: &SplitBlock, strands: &Strands, at: Standing) -> Option<EndWork> {
        let Number { span, value: parts } = split.parts;
        let shared = strands.as_ref().map(|strands| shared_out(strands, parts.to_usize()));
        // The smallest part is the last one. What is in the block is read in any case: it may be wrong by itself.
        let part = shared.as_ref().and_then(|shared| shared.last().cloned());
        let outward = Outward { reaches_tip: at.at_tip, is_whole: false };
        let works = self.works(&split.block, &part, outward);
        self.unless(parts < 2, span, EndsTrouble::SplitInOne { parts })?;
        let hanging = strands.as_ref().map_or(usize::MAX, |strands| strands.len());
        let too_few = EndsTrouble::SplitStrands { parts, strands: hanging };
        self.unless(hanging < parts.to_usize(), span, too_few)?;
        let torn = self.pairs.iter().find(|(one, other)| is_torn([*one, *other], &shared)).copied();
        let (left, right) =
            torn.map_or((0, 0), |(left, right)| (usize::from(left) + 1, usize::from(right) + 1));
        self.unless(torn.is_some(), at.span, EndsTrouble::SplitThread { left, right })?;
        Some(EndWork::Split { parts: u8::try_from(parts).ok()?, works })
    }

    fn turns(&mut self, turns: Number) -> Option<u32> {
        let place = Place { file: FileId::CHECKED, span: turns.span };
        if turns.value == 0 {
            self.facts.say(place, FactKind::ZeroMeasure { what: "turns" });
            return None;
        }
        self.unless(turns.value > MOST_TURNS, turns.span, EndsTrouble::TooManyTurns { turns: turns.value })?;
        Some(turns.value)
    }

    /// The number of a thread; a name that is not there is reported where all names are.
    fn thread(&self, name: &Name) -> u16 {
        self.file.threads.get(&name.text).copied().unwrap_or(UNKNOWN_THREAD)
    }

    fn at_tip(&mut self, piece: &'static str, at: Standing) -> Option<()> {
        self.unless(!at.at_tip, at.span, EndsTrouble::NotAtTip { piece, begin: self.is_begin })
    }

    fn closes(&mut self, piece: &'static str, at: Standing) -> Option<()> {
        let elsewhere = self.is_begin || !at.is_last;
        self.unless(elsewhere, at.span, EndsTrouble::ClosureElsewhere { piece })
    }

    /// Reports a trouble if there is one.
    fn unless(&mut self, is_so: bool, span: Span, trouble: EndsTrouble) -> Option<()> {
        if is_so {
            self.facts.say(Place { file: FileId::CHECKED, span }, FactKind::Ends(trouble));
        }
        (!is_so).then_some(())
    }
}

/// Which pieces are read.
#[derive(Clone, Copy)]
struct Outward {
    /// Nothing is beyond the outermost of them.
    reaches_tip: bool,
    /// They are those of the whole end, and not of a part.
    is_whole: bool,
}

/// Where a piece stands in its end.
#[derive(Clone, Copy)]
struct Standing {
    span: Span,
    /// Nothing is beyond it.
    at_tip: bool,
    /// Beyond it there is at most what hangs free.
    is_free: bool,
    /// Nothing comes after it in the whole end.
    is_last: bool,
}

fn piece_of(statement: &Statement) -> Option<(&EndPiece, Span)> {
    match &statement.node {
        Node::EndPiece(piece) => Some((piece, statement.head)),
        Node::Head(_) | Node::Body(_) | Node::Swatch(_) | Node::Broken(_) => None,
    }
}

/// What a piece does to what else is at its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum EndRole {
    /// It holds nothing: it hangs free.
    HangsFree,
    /// It closes the band, when all else is made.
    Closes,
    /// It holds the strands.
    Holds,
}

fn role_of(piece: &EndPiece) -> EndRole {
    match piece {
        EndPiece::Tassel(_) => EndRole::HangsFree,
        EndPiece::Closing(_) | EndPiece::Slide(_) => EndRole::Closes,
        EndPiece::Knot(_)
        | EndPiece::Plait(_)
        | EndPiece::Twist(_)
        | EndPiece::Wrap(_)
        | EndPiece::Split(_)
        | EndPiece::Loop(_)
        | EndPiece::Bead(_) => EndRole::Holds,
    }
}

/// The strands of each part; of more parts than there are strands, each is one.
fn shared_out(strands: &Range<usize>, parts: usize) -> Vec<Range<usize>> {
    let mut start = strands.start;
    share_out(strands.len(), parts.clamp(1, strands.len().max(1)))
        .map(|count| {
            let part = start..start + count;
            start += count;
            part
        })
        .collect()
}

/// Whether two strands that are one thread are in different parts.
fn is_torn(pair: [u8; 2], parts: &Option<Vec<Range<usize>>>) -> bool {
    let [one, other] =
        pair.map(|strand| parts.iter().flatten().position(|part| part.contains(&usize::from(strand))));
    one.zip(other).is_some_and(|(one, other)| one != other)
}

/// What is in the way of a `piece` that closes the band, made as this finish says, when the beginning is like that.
pub(super) fn cannot_close(finish: &[EndWork], begin: &Beginning) -> Option<EndsTrouble> {
    let (piece, ties) = match finish.last()? {
        EndWork::ClosingKnot => ("closing knot", true),
        EndWork::Slide { .. } => ("slide", false),
        _ => return None,
    };
    let at_begin = match begin {
        Beginning::Ends => true,
        Beginning::Fold => false,
        Beginning::Loop => ties,
        Beginning::Works(works) => has_tail(works) || (ties && has_loop(works)),
    };
    let begin = !at_begin;
    (begin || !has_tail(finish)).then_some(EndsTrouble::NothingToClose { piece, begin })
}

/// What the band begins with, as far as it can be tied to something.
pub(super) enum Beginning<'a> {
    /// Ends that hang free.
    Ends,
    /// Threads that are folded over a pin.
    Fold,
    /// A loop of the threads.
    Loop,
    /// What `begin` says.
    Works(&'a [EndWork]),
}

/// Whether there is something that reaches beyond the knots.
fn has_tail(works: &[EndWork]) -> bool {
    works.iter().any(|work| match work {
        EndWork::Plait { .. } | EndWork::Twist { .. } | EndWork::Tassel { .. } => true,
        EndWork::Split { works, .. } => has_tail(works),
        EndWork::Knot
        | EndWork::Wrap { .. }
        | EndWork::Loop { .. }
        | EndWork::Bead { .. }
        | EndWork::ClosingKnot
        | EndWork::Slide { .. } => false,
    })
}

fn has_loop(works: &[EndWork]) -> bool {
    works.iter().any(|work| matches!(work, EndWork::Loop { .. }))
}

/// What the lengths in an end come to along one strand, in millimeters, whatever the thread.
fn taken(works: &[EndWork]) -> f64 {
    let of = |work: &EndWork| match work {
        EndWork::Plait { bundles, length } => length * PlaitShape::of(*bundles).take_up,
        EndWork::Twist { length }
        | EndWork::Loop { length }
        | EndWork::Tassel { length }
        | EndWork::Bead { length, .. } => *length,
        EndWork::Split { works, .. } => taken(works),
        EndWork::Knot | EndWork::Wrap { .. } | EndWork::ClosingKnot | EndWork::Slide { .. } => 0.0,
    };
    works.iter().map(of).sum()
}
