//! A face is tied, or tied with fewer turning knots.

use super::Proposal;
use crate::wording::count;
use crate::{Checked, TextEdit, World};
use knotwright_checker::PartKind;
use knotwright_designer::{
    DesignEnd, DesignStart, DesignTask, DesignWatch, Designed, WishedFace, design_band,
};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{FaceChart, Statement};
use knotwright_maker::{ImprovableSet, left_out, write_part};
use knotwright_numbers::ToNumber;
use knotwright_rewriter::Original;
use std::cell::Cell;

/// After this many looks of the solver at whether to stop, the best answer so far is offered: counted, not timed, so that
/// the same text gets the same offer. `knotwright design` takes as long as somebody likes.
const MOST_LOOKS: u32 = 20_000;

/// A face with more knots is too much for wherever the cursor goes.
const MOST_KNOTS: usize = 1_000;

/// Where somebody asks for it and sees how far it is, it may take this many times as long, and the face be this many times
/// as large.
const PATIENCE: u32 = 20;

/// Offered in the face itself, where nothing ties it yet, and at the head of its part.
pub(super) fn tie(checked: &Checked, world: &World, range: Span) -> Option<Proposal> {
    let pattern = checked.pattern()?;
    let (statement, kind) = part_at(checked, range, true)?;
    let face = pattern.face(kind).filter(|_| pattern.is_wish(kind))?;
    statement.node.block()?;
    let start = DesignStart::Given(pattern.threads_before(kind));
    let closes = pattern.comes_again(kind);
    let designed = search(&DesignTask { face: face.clone(), start, closes }, world)?;
    let title = format!("Tie this face, with {}{}", turning(&designed), proof(&designed));
    proposal(checked, world, &TiedFace { kind, face: &face, designed: &designed }, title)
}

/// Offered at the head of a set with turning knots: the same face, and another band.
pub(super) fn fewer_turning(checked: &Checked, world: &World, range: Span) -> Option<Proposal> {
    let pattern = checked.pattern()?;
    let (_, kind) = part_at(checked, range, false)?;
    let set = ImprovableSet::of(pattern).ok().filter(|set| kind == PartKind::Set && set.turning > 0)?;
    let start = if set.is_bound { DesignStart::Given(set.hung) } else { DesignStart::Free };
    let (face, before, closes) = (set.face, set.turning, set.comes_again);
    let designed = search(&DesignTask { face: face.clone(), start, closes }, world)?;
    if designed.turning >= before {
        return None;
    }
    let title = format!(
        "Fewer turning knots for this face: {} instead of {before}{}",
        designed.turning,
        proof(&designed)
    );
    proposal(checked, world, &TiedFace { kind, face: &face, designed: &designed }, title)
}

/// The part whose head the cursor is in, or, if `in_face`, whose face.
fn part_at(checked: &Checked, range: Span, in_face: bool) -> Option<(&Statement, PartKind)> {
    let has = |span: Span| span.start <= range.start && range.end <= span.end;
    let is_here = |statement: &&Statement| {
        let block = statement.node.block();
        let mut faces =
            block.into_iter().flat_map(|block| &block.statements).filter(|inner| inner.is::<FaceChart>());
        has(statement.head) || (in_face && faces.any(|face| has(face.span)))
    };
    let mut parts = checked.top().iter().filter(|statement| PartKind::of(statement).is_some());
    let statement = parts.find(is_here)?;
    Some((statement, PartKind::of(statement)?))
}

fn search(task: &DesignTask, world: &World) -> Option<Designed> {
    let onlooker = world.onlooker;
    let times = if onlooker.is_patient() { PATIENCE } else { 1 };
    if task.face.knots().len() > MOST_KNOTS * times.to_usize() || !(world.is_wanted)() {
        return None;
    }
    onlooker.see("looking for knots that show this face");
    let looks = Cell::new(0_u32);
    let stop = || {
        looks.set(looks.get() + 1);
        looks.get() > MOST_LOOKS * times || onlooker.is_content() || !(world.is_wanted)()
    };
    let mut better = |designed: &Designed| {
        if designed.given_up.is_empty() {
            onlooker.see(&format!("{}; looking for fewer", turning(designed)));
        }
    };
    match design_band(task, &mut DesignWatch { stop: &stop, better: &mut better }) {
        Ok(DesignEnd::Tied(designed)) => Some(designed),
        Ok(DesignEnd::Cannot(_) | DesignEnd::Stopped) | Err(_) => None,
    }
}

fn turning(designed: &Designed) -> String {
    match designed.turning {
        0 => "no turning knots".to_owned(),
        turning => count(turning.to_u64(), "turning knot"),
    }
}

fn proof(designed: &Designed) -> &'static str {
    match (designed.is_least, designed.turning) {
        (_, 0) => "",
        (true, _) => " (proved to be the fewest)",
        (false, _) => " (fewer may be possible)",
    }
}

struct TiedFace<'a> {
    kind: PartKind,
    face: &'a WishedFace,
    designed: &'a Designed,
}

/// The edits that make the text that was tied and compared with the face.
fn proposal(checked: &Checked, world: &World, tied: &TiedFace<'_>, title: String) -> Option<Proposal> {
    let original = Original { source: checked.source(), pattern: checked.pattern()?, library: world.library };
    let written = write_part(original, tied.kind, tied.face, tied.designed).ok()?;
    let gone = left_out(written.left_out).map(|gone| format!(" ({gone})")).unwrap_or_default();
    Some(Proposal::new(format!("{title}{gone}"), vec![difference(checked.text(), &written.text)]))
}

/// What differs, as one edit: what the two texts begin and end with alike is left alone.
fn difference(before: &str, after: &str) -> TextEdit {
    let alike = |one: &mut dyn Iterator<Item = char>, other: &mut dyn Iterator<Item = char>| -> usize {
        one.zip(other).take_while(|(one, other)| one == other).map(|(one, _)| one.len_utf8()).sum()
    };
    let start = alike(&mut before.chars(), &mut after.chars());
    let (rest, new) = (&before[start..], &after[start..]);
    let end = alike(&mut rest.chars().rev(), &mut new.chars().rev());
    let span = Span::new(start, before.len() - end);
    TextEdit { span, text: new[..new.len() - end].to_owned() }
}
