//! Of what is made at an end: how the strands are shared out, and what it takes of the thread.

use super::HoverLook;
use crate::wording::{both, length};
use knotwright_band::ends::{EndWork, share_out};
use knotwright_band::thread::{EndStrands, Figures, Model};
use knotwright_checker::StartForm;
use knotwright_grammar::tree::{BeginBlock, EndPiece, SplitBlock};
use knotwright_maker::USUAL_THICKNESS;
use knotwright_numbers::ToNumber;

/// Said at the first word of a piece.
pub(super) fn words(look: &HoverLook, piece: &EndPiece) -> Vec<String> {
    let Some(of) = strands(look) else { return Vec::new() };
    let figures = look.checked.whole_band().and_then(|whole| whole.figures);
    let figures = figures.unwrap_or_else(|| Model::new(USUAL_THICKNESS).figures(0.0));
    let mut said: Vec<String> = shared(piece, of.strands).into_iter().collect();
    said.extend(work(piece, look).and_then(|work| takes(&work, of, figures)));
    said
}

/// The strands that hang where the piece is made.
fn strands(look: &HoverLook) -> Option<EndStrands> {
    let pattern = look.checked.pattern()?;
    let (_, around) = look.site.path.split_last()?;
    let is_begin = around.first().is_some_and(|statement| statement.is::<BeginBlock>());
    let splits = around.iter().filter_map(|statement| statement.get::<SplitBlock>());
    let strands = splits
        .fold(pattern.strands.len(), |strands, split| strands.div_ceil(split.parts.value.to_usize().max(1)));
    Some(EndStrands { strands, is_folded: is_begin && pattern.start != StartForm::Loose })
}

/// How the strands are shared out to bundles or parts.
fn shared(piece: &EndPiece, strands: usize) -> Option<String> {
    let (what, into) = match piece {
        EndPiece::Plait(plait) => ("Bundles", plait.bundles.value),
        EndPiece::Split(split) => ("Parts", split.parts.value),
        EndPiece::Twist(_) => ("Bundles", 2),
        EndPiece::Knot(_)
        | EndPiece::Wrap(_)
        | EndPiece::Loop(_)
        | EndPiece::Tassel(_)
        | EndPiece::Bead(_)
        | EndPiece::Closing(_)
        | EndPiece::Slide(_) => return None,
    };
    let into = into.to_usize().min(strands);
    let shares: Vec<String> = share_out(strands, into).map(|share| share.to_string()).collect();
    let is_one = share_out(strands, into).all(|share| share == 1);
    Some(format!("{what} of {} {}.", both(&shares), if is_one { "strand" } else { "strands" }))
}

/// The piece in numbers; what it is wrapped with is left out.
fn work(piece: &EndPiece, look: &HoverLook) -> Option<EndWork> {
    Some(match piece {
        EndPiece::Knot(_) => EndWork::Knot,
        EndPiece::Plait(plait) => EndWork::Plait {
            bundles: u8::try_from(plait.bundles.value).ok()?,
            length: plait.length.millimeters,
        },
        EndPiece::Twist(twist) => EndWork::Twist { length: twist.length.millimeters },
        EndPiece::Wrap(wrap) => EndWork::Wrap { thread: 0, turns: wrap.turns.value },
        EndPiece::Loop(round) => EndWork::Loop { length: round.length.millimeters },
        EndPiece::Tassel(tassel) => EndWork::Tassel { length: tassel.length.millimeters },
        EndPiece::Bead(bead) => {
            let mut beads = look.checked.pattern()?.beads.iter();
            EndWork::Bead { bead: 0, length: beads.find(|of| of.look.name == bead.bead.text)?.across }
        }
        EndPiece::Closing(_) => EndWork::ClosingKnot,
        EndPiece::Slide(slide) => EndWork::Slide { thread: 0, turns: slide.turns.value },
        EndPiece::Split(_) => return None,
    })
}

fn takes(work: &EndWork, of: EndStrands, figures: Figures) -> Option<String> {
    let taken = figures.work_thread(work, of);
    if let Some(own) = taken.own.first() {
        return Some(format!("It takes a thread of its own of about {}.", length(own.length)));
    }
    let of_each = taken.of_each;
    (of_each > 0.0).then(|| format!("It takes about {} of every strand.", length(of_each)))
}
