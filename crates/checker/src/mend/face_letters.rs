//! A letter of a face that stands for nothing: the thread that has no letter there, or another letter.

use super::face_whole::FaceGoal;
use super::search::Goal;
use crate::{Edit, Fact, FactKind, FileId, Finding, Mend, Place, Source};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{FaceChart, Statement};
use rustc_hash::FxHashSet as HashSet;

/// The most edits that are tried for a letter, and the most that are offered.
const MOST_TRIED: usize = 12;
const MOST_OFFERED: usize = 4;

/// In more places no letter is written by one mend.
const MOST_PLACES: usize = 4;

impl FaceGoal<'_> {
    /// Adds to `finding`, if it is about an unknown letter, what puts it right: those edits first after which nothing is wrong.
    pub(crate) fn mend_letter(&self, fact: &Fact, finding: &mut Finding) {
        let FactKind::FaceLetterUnknown { letter, again } = &fact.kind else { return };
        let Some(chart) = chart_around(self.goal.script.source(), fact.place.span) else { return };
        let places: Vec<Place> = std::iter::once(fact.place).chain(again.iter().copied()).collect();
        let proposed = new_keys(self.goal, chart, *letter).into_iter().chain(other_letters(chart, &places));
        let tried = proposed.take(MOST_TRIED).filter_map(|mend| Some((self.wrong_after(&mend.edits)?, mend)));
        let mut better: Vec<(usize, Mend)> = tried.filter(|(left, _)| *left < self.wrong).collect();
        better.sort_by_key(|(left, _)| *left);
        let is_only = better.iter().filter(|(left, _)| *left == 0).count() == 1;
        finding.mends.extend(better.into_iter().take(MOST_OFFERED).map(|(left, mend)| match left {
            0 => Mend { certain: is_only, title: format!("{}: the face shows then", mend.title), ..mend },
            _ => mend,
        }));
    }
}

/// The face that a mark is in.
fn chart_around(source: &Source, mark: Span) -> Option<&FaceChart> {
    let is_around = |statement: &&Statement| {
        statement.span.start <= mark.start && mark.end <= statement.span.end && statement.is::<FaceChart>()
    };
    source.parsed.tree.walk().find(is_around)?.get()
}

/// The letter for each thread that hangs somewhere and has none; likely it begins with it.
fn new_keys(goal: &Goal, chart: &FaceChart, letter: char) -> Vec<Mend> {
    let Some(last) = chart.keys.last() else { return Vec::new() };
    let known: HashSet<&str> = chart.keys.iter().map(|key| key.thread.text.as_str()).collect();
    let hung = goal.script.head.strands.as_deref().unwrap_or_default();
    let threads = (0..).zip(&goal.script.head.threads).filter(|(number, _)| hung.contains(number));
    let mut names: Vec<&str> = threads.map(|(_, thread)| thread.name.as_str()).collect();
    names.retain(|name| !known.contains(name));
    names.sort_by_key(|name| !name.starts_with(letter));
    let (start, file) = (last.thread.span.end, FileId::CHECKED);
    let mend = |name: &str| {
        let place = Place { file, span: Span { start, end: start } };
        let edits = vec![Edit { place, text: format!(", {letter} {name}") }];
        Mend::new(format!("write `, {letter} {name}` after `{}`", last.thread.text), edits, false)
    };
    names.into_iter().map(mend).collect()
}

/// Each other letter in its place, where it is so in a few places only.
fn other_letters(chart: &FaceChart, places: &[Place]) -> Vec<Mend> {
    if places.len() > MOST_PLACES {
        return Vec::new();
    }
    let mend = |letter: &str| {
        let edits = places.iter().map(|&place| Edit { place, text: letter.to_owned() }).collect();
        Mend::new(format!("write `{letter}`"), edits, false)
    };
    chart.keys.iter().map(|key| mend(&key.letter.text)).collect()
}
