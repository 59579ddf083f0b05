//! One edit after which all knots show what a face promises, where many do not: other threads for the letters of the face,
//! `strands` written otherwise, or another mark of the chart.

use super::face_rows::FacedChart;
use super::search::Goal;
use super::strands::{StrandsEdit, list_hangings};
use crate::faces::{ReadFace, face_in};
use crate::marks::place_in;
use crate::resolve::ThreadId;
use crate::rules::other_works;
use crate::{
    Edit, Fact, FactKind, FileId, Finding, Library, Mend, Part, PartKind, Pattern, Place, Source, analyze,
};
use knotwright_designer::FaceDifference;
use knotwright_grammar::apply_edits;
use knotwright_grammar::tree::{FaceChart, Statement};
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashMap as HashMap;
use std::sync::Arc;

/// In a larger band an edit takes too long to try.
const MOST_KNOTS: u64 = 5_000;

/// The most edits that are tried on the text, and the most that are offered.
const MOST_TRIED: usize = 24;
const MOST_OFFERED: usize = 4;

/// More knots than this are hardly wrong each by itself.
const MOST_SLIPS: usize = 4;

/// A part, and what it is to show.
struct FacedPart<'a> {
    kind: PartKind,
    part: &'a Part,
    /// By position as it begins, the thread.
    hung: Vec<ThreadId>,
    read: ReadFace,
}

/// A file in which faces are wrong, and nothing else.
pub(crate) struct FaceGoal<'a> {
    pub(crate) goal: &'a Goal<'a>,
    pub(crate) pattern: Option<&'a Pattern>,
    pub(crate) library: &'a dyn Library,
    /// How many mistakes there are.
    pub(crate) wrong: usize,
}

impl FaceGoal<'_> {
    /// How many errors there are after some edits; `None` if that would take too long.
    pub(super) fn wrong_after(&self, edits: &[Edit]) -> Option<usize> {
        let source = self.goal.script.source();
        let is_wanted = self.goal.knots <= MOST_KNOTS && self.goal.is_clean() && !self.goal.is_given_up();
        let edits = edits.iter().map(|edit| (edit.place.span, edit.text.as_str()));
        let text = apply_edits(&source.text, edits).filter(|_| is_wanted)?;
        Some(analyze(Arc::new(Source::new(&*source.path, text)), self.library).errors().len())
    }

    /// Adds to `finding`, if it is about knots that show other colors, the edits after which nothing is wrong.
    pub(crate) fn mend_whole(&self, fact: &Fact, finding: &mut Finding) {
        let FactKind::FaceDiffers { more, .. } = &fact.kind else { return };
        let goal = self.goal;
        let Some(pattern) = self.pattern.filter(|_| goal.knots <= MOST_KNOTS && goal.is_clean()) else {
            return;
        };
        let faced = |kind| {
            let (part, hung) = (pattern.part(kind)?, pattern.threads_before(kind));
            Some(FacedPart { kind, part, hung, read: face_in(goal.script, kind)? })
        };
        let parts: Vec<FacedPart> = PartKind::ALL.into_iter().filter_map(faced).collect();
        let letters = parts.iter().filter_map(|part| part.other_letters(goal));
        let charts =
            PartKind::ALL.into_iter().filter_map(|kind| FacedChart::of(goal.script, Some(pattern), kind));
        let marks = charts.flat_map(|chart| chart.changed_marks());
        let turned = parts.iter().filter_map(|part| part.turned_marks(goal));
        // Of a single knot the mark is known; but another one may do as well.
        let is_single = more.count == 0;
        let is_new = |mend: &Mend| finding.mends.iter().all(|other| other.edits != mend.edits);
        let all: Vec<Mend> = match is_single {
            true => marks.filter(is_new).collect(),
            false => letters.chain(other_strands(goal, pattern, &parts)).chain(marks).chain(turned).collect(),
        };
        let holds = |mend: &Mend| self.wrong_after(&mend.edits) == Some(0);
        let mends: Vec<Mend> = all.into_iter().take(MOST_TRIED).filter(holds).take(MOST_OFFERED).collect();
        let is_other = !mends.is_empty();
        finding.mends.iter_mut().for_each(|mend| mend.certain &= !is_other);
        finding.mends.extend(mends);
        if let ([only], false) = (&mut finding.mends[..], is_single) {
            only.certain = true;
        }
    }
}

impl FacedPart<'_> {
    /// The knots that show another color if these threads hang there as the part begins.
    fn differs(&self, hung: &[ThreadId]) -> Option<Vec<FaceDifference>> {
        let hung = |strand: u8| hung.get(usize::from(strand)).copied().unwrap_or(ThreadId::MAX);
        self.read.face.compare(&self.part.piece, hung)
    }

    /// The threads that its letters must stand for, if all knots of each letter show one thread.
    fn other_letters(&self, goal: &Goal) -> Option<Mend> {
        let source = goal.script.source();
        let letter = |knot: usize| self.read.marks[knot].span.of(&source.text);
        let shown = self.part.piece.threads_of_knots(&self.hung);
        // By letter, how many of its knots show which other thread.
        let mut instead: HashMap<&str, (ThreadId, usize)> = HashMap::default();
        for difference in self.differs(&self.hung)? {
            let found = shown[difference.knot.to_usize()].0;
            let (thread, knots) = instead.entry(letter(difference.wished)).or_insert((found, 0));
            if *thread != found {
                return None;
            }
            *knots += 1;
        }
        let knots_of = |of: &str| (0..self.read.marks.len()).filter(|&knot| letter(knot) == of).count();
        if instead.is_empty() || instead.iter().any(|(of, (_, knots))| *knots < knots_of(of)) {
            return None;
        }
        let mut statements = source.parsed.tree.statements.iter();
        let block = statements.find(|statement| PartKind::of(statement) == Some(self.kind))?.node.block()?;
        let chart = block.statements.iter().find_map(Statement::get::<FaceChart>)?;
        let mut edits = Vec::new();
        let mut says = Vec::new();
        for key in &chart.keys {
            if let Some(&(thread, _)) = instead.get(key.letter.text.as_str()) {
                let name = goal.script.thread_name(thread);
                says.push(format!("`{} {name}`", key.letter.text));
                let place = Place { file: FileId::CHECKED, span: key.thread.span };
                edits.push(Edit { place, text: name.to_string() });
            }
        }
        let title = format!("write {} after `face`: the face shows then", says.join(", "));
        Some(Mend::new(title, edits, false))
    }

    /// The other mark for each of a few knots whose other strand has the color.
    fn turned_marks(&self, goal: &Goal) -> Option<Mend> {
        let differs = self.differs(&self.hung).filter(|differs| differs.len() <= MOST_SLIPS)?;
        let shown = self.part.piece.threads_of_knots(&self.hung);
        let source = goal.script.source();
        let turned = |difference: &FaceDifference| {
            let place = place_in(goal.script.sources(), self.part, difference.knot)?;
            let is_other =
                self.read.face.knots()[difference.wished].color == Some(shown[difference.knot.to_usize()].1);
            let written = place.span.of(&source.text);
            let mark = other_works(written).filter(|_| is_other && place.file == FileId::CHECKED)?;
            Some((format!("`{mark}` instead of `{written}`"), Edit { place, text: mark.to_owned() }))
        };
        let turned: Vec<(String, Edit)> = differs.iter().map(turned).collect::<Option<_>>()?;
        let (says, edits): (Vec<String>, Vec<Edit>) = turned.into_iter().unzip();
        Some(Mend::new(format!("write {}: the face shows then", says.join(", ")), edits, false))
    }
}

/// Other lists of strands with which the knots show every face, as far as they are tied alike.
fn other_strands(goal: &Goal, pattern: &Pattern, parts: &[FacedPart<'_>]) -> Vec<Mend> {
    let shows = |hung: &StrandsEdit| {
        let mut threads = hung.threads.clone();
        for kind in PartKind::ALL {
            let Some(part) = pattern.part(kind) else { continue };
            if threads.len() != part.piece.strands() {
                return false;
            }
            let faced = parts.iter().find(|faced| faced.kind == kind);
            if faced.is_some_and(|faced| faced.differs(&threads).is_none_or(|differs| !differs.is_empty())) {
                return false;
            }
            threads = part.piece.threads_after(&threads);
        }
        true
    };
    let hangings = list_hangings(goal.script).into_iter().filter(shows);
    let mend = |hung: StrandsEdit| {
        let written = hung.written(goal.script);
        let edit = |(span, text)| Edit { place: Place { file: FileId::CHECKED, span }, text };
        let title = format!("{}: the face shows then", written.says);
        Mend::new(title, written.edits.into_iter().map(edit).collect(), false)
    };
    hangings.map(mend).collect()
}
