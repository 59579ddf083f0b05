//! A whole file after an edit of its text: what is wrong then.

use super::search::Goal;
use crate::facts::Facts;
use crate::report::report_problems;
use crate::resolve::resolve;
use crate::tie::{Limits, tie_parts};
use crate::{Edit, Fact, FileId, Finding, GivenUp, Library, Place, Source, rules};
use std::sync::Arc;

/// Longer files are not read again for an edit.
const LONGEST: usize = 100_000;

/// A pattern that costs more to tie is not tied again.
const MOST_COST: u64 = 2_000_000;

/// Reads a file again with edits.
#[derive(Clone, Copy)]
pub(crate) struct Rereader<'a> {
    source: &'a Source,
    library: &'a dyn Library,
    /// What it costs to tie the file as it is.
    cost: u64,
    given_up: &'a GivenUp,
}

/// What is wrong somewhere: the rule, and where it is said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct WrongAt {
    rule: &'static str,
    file: FileId,
    start: u32,
}
use knotwright_grammar::apply_edits;
use knotwright_numbers::ToNumber;

/// What is wrong after an edit.
#[derive(Debug, Clone)]
pub(crate) struct Reread {
    /// With words and names.
    pub(crate) reported: Vec<WrongAt>,
    /// With the tie.
    untied: Vec<WrongAt>,
    closes: bool,
}

impl WrongAt {
    pub(crate) fn of(finding: &Finding) -> Self {
        Self::at(finding.rule.name, finding.place)
    }

    fn at(rule: &'static str, Place { file, span }: Place) -> Self {
        Self { rule, file, start: span.start }
    }

    /// Where it is after some edits.
    pub(crate) fn after(self, edits: &[Edit]) -> Self {
        let before =
            edits.iter().filter(|Edit { place, .. }| place.file == self.file && place.span.end <= self.start);
        let by: i64 = before.map(|edit| edit.text.len().to_i64() - edit.place.span.len().to_i64()).sum();
        Self { start: self.start.saturating_add_signed(by.to_i32()), ..self }
    }
}

impl Reread {
    pub(crate) fn count(&self) -> usize {
        self.reported.len() + self.untied.len()
    }

    /// Whether nothing is wrong, and the set closes.
    pub(crate) fn holds(&self) -> bool {
        self.count() == 0 && self.closes
    }

    /// Whether nothing is wrong with the tie, whatever is wrong with words and names.
    pub(crate) fn ties(&self) -> bool {
        self.untied.is_empty() && self.closes
    }

    pub(crate) fn contains(&self, wrong: &WrongAt) -> bool {
        self.reported.contains(wrong) || self.untied.contains(wrong)
    }
}

impl<'a> Rereader<'a> {
    pub(crate) fn new(goal: &Goal<'a>, library: &'a dyn Library) -> Self {
        Self { source: goal.script.source(), library, cost: goal.cost, given_up: goal.given_up }
    }

    pub(crate) fn library(&self) -> &'a dyn Library {
        self.library
    }

    pub(crate) fn source(&self) -> &'a Source {
        self.source
    }

    /// The file with these edits; `None` if it would take too long to look through, or nobody waits for it any more.
    pub(crate) fn edited(&self, edits: &[Edit]) -> Option<Arc<Source>> {
        let is_short = self.source.text.len() <= LONGEST && self.cost <= MOST_COST;
        let is_wanted = is_short && !self.given_up.is_so();
        let text = edited(&self.source.text, edits).filter(|_| is_wanted)?;
        Some(Arc::new(Source::new(self.source.path.clone(), text)))
    }

    /// What is wrong after these edits; `None` as above.
    pub(crate) fn after(&self, edits: &[Edit]) -> Option<Reread> {
        let source = self.edited(edits)?;
        let mut facts = Facts::default();
        let script = resolve(source, self.library, &mut facts);
        let named = facts.count();
        let limits = Limits { facts: usize::MAX, ..Limits::trial(MOST_COST, self.given_up) };
        let tied = tie_parts(&script, None, limits, &mut facts);
        let mut reported: Vec<WrongAt> = report_problems(&script).iter().map(WrongAt::of).collect();
        let facts = facts.into_list();
        let wrong = |fact: &Fact| WrongAt::at(rules::rule_of(fact).name, fact.place);
        reported.extend(facts[..named].iter().map(wrong));
        let untied = facts[named..].iter().map(wrong).collect();
        if tied.as_ref().is_some_and(|tied| !tied.whole) {
            return None;
        }
        Some(Reread { reported, untied, closes: tied.is_none_or(|tied| tied.closes != Some(false)) })
    }
}

/// The text after edits; `None` if they are in another file, or do not fit.
fn edited(text: &str, edits: &[Edit]) -> Option<String> {
    let is_here = edits.iter().all(|edit| edit.place.file == FileId::CHECKED);
    apply_edits(text, edits.iter().map(|edit| (edit.place.span, edit.text.as_str()))).filter(|_| is_here)
}
