//! From a source to all that is to be said of it.

use crate::facts::Facts;
use crate::kept::{Kept, Memory, Resumed, Shown};
use crate::mend::{Goal, Mended, is_hole, mend_closing, mend_facts, mend_hole, prove_word, respell};
use crate::resolve::{Script, resolve};
use crate::tie::{Limits, tie};
use crate::unrepeated::unrepeated;
use crate::{Checked, Fact, FileId, Finding, Library, Note, Pattern, Place, Settings, Source, rules};
use knotwright_grammar::{Problem, ProblemKind};
use std::cmp::Reverse;
use std::sync::Arc;

/// So many findings of one file are shown; nobody reads more at once.
const MOST_FINDINGS: usize = 100;

/// All that is known about one file.
#[derive(Debug, Clone)]
pub struct Report {
    /// The checked file first, then those it uses.
    pub files: Vec<Arc<Source>>,
    /// In order of place.
    pub findings: Vec<Finding>,
    /// The tied pattern; `None` for a library, or if the head does not say enough to tie.
    pub pattern: Option<Pattern>,
    /// For the next check.
    pub(crate) memory: Memory,
}

impl Report {
    /// What helps to check the same file again after an edit; see [`recheck`]. It holds no file.
    pub fn keep(self) -> Option<Kept> {
        match self.memory {
            Memory::Sound(shown) => Kept::new(self.files.first()?, self.pattern?, shown),
            Memory::Before(kept) => kept.map(|kept| *kept),
        }
    }
}

/// Looks `source` up, ties it and tests every promise in it. `library` has the files that it uses.
///
/// Opening, set and closing are tied once each, the closing as after one set. Where the colors do not return after
/// a set, what holds in the first may not hold in the second; that they do not return is a finding of its own.
pub fn check(source: Arc<Source>, library: &dyn Library, settings: &Settings) -> Report {
    recheck(source, library, settings, None)
}

/// The same, sooner, for a file that was checked before and edited since: what was kept says what the band shows, if
/// the edit has left its knots as they were. The report is the same as that of [`check`].
pub fn recheck(
    source: Arc<Source>,
    library: &dyn Library,
    settings: &Settings,
    kept: Option<Kept>,
) -> Report {
    if let Some(problem) = source.parsed.problems.iter().find(|problem| is_whole(problem)) {
        let findings = vec![rules::problem(problem, FileId(0), &source)];
        let memory = Memory::Before(kept.map(Box::new));
        return Report { files: vec![source], findings, pattern: None, memory };
    }
    let kept = match kept.map(|kept| Box::new(kept).resume(&source)) {
        Some(Ok(resumed)) => return resumed_report(resumed, settings),
        Some(Err(kept)) => Some(kept),
        None => None,
    };
    let mut facts = Facts::default();
    let script = Arc::new(resolve(source, library, &mut facts));
    let names = facts.count();
    let mut tied = tie(&script, None, Limits::WHOLE, &mut facts).unwrap_or_default();
    let (closes, cost, marks) = (tied.closes, tied.cost, std::mem::take(&mut tied.marks));
    let pattern = Pattern::new(Arc::clone(&script), tied);
    let facts = facts.into_list();
    let problems = problems(&script);
    let sound = problems.is_empty() && facts.is_empty();
    let (named, untied) = facts.split_at(names);
    let goal =
        Goal { script: &script, facts: untied, closes, cost, clean: problems.is_empty() && names == 0 };
    let mended = mend_facts(&goal);

    let mut findings = problems;
    prove_word(&mut findings, script.source(), library);
    let alone = findings.is_empty() && facts.len() == 1;
    findings.extend(named.iter().map(|fact| {
        let mut finding = rules::words(fact);
        finding.mends.extend(respell(fact, script.source(), (library, alone)));
        finding
    }));
    findings.extend(tied_wrong(untied, &mended));
    let checked = Checked {
        source: script.source(),
        script: &script,
        pattern: pattern.as_ref(),
        facts: &facts,
        closes,
        sound,
    };
    let memory = match pattern.as_ref().filter(|_| sound) {
        Some(pattern) => {
            let again = kept.and_then(|kept| kept.said(pattern, script.source()));
            let said = again.unwrap_or_else(|| rules::of_band(&checked));
            Memory::Sound(Shown { said, closes, marks })
        }
        None => Memory::Before(kept),
    };
    let findings = warned(findings, (&checked, &memory, &goal), settings);
    Report { findings, files: script.sources().cloned().collect(), pattern, memory }
}

/// The report of a pattern that was tied again only where it was edited, without an error.
fn resumed_report(resumed: Resumed, settings: &Settings) -> Report {
    let Resumed { script, mut tied, said } = resumed;
    let script = Arc::new(script);
    let (closes, cost, marks) = (tied.closes, tied.cost, std::mem::take(&mut tied.marks));
    let pattern = Pattern::new(Arc::clone(&script), tied);
    let checked = Checked {
        source: script.source(),
        script: &script,
        pattern: pattern.as_ref(),
        facts: &[],
        closes,
        sound: true,
    };
    let said = said.unwrap_or_else(|| rules::of_band(&checked));
    let memory = Memory::Sound(Shown { said, closes, marks });
    let goal = Goal { script: &script, facts: &[], closes, cost, clean: true };
    let findings = warned(Vec::new(), (&checked, &memory, &goal), settings);
    Report { findings, files: script.sources().cloned().collect(), pattern, memory }
}

/// The findings as they are shown, with all warnings.
fn warned(
    mut findings: Vec<Finding>,
    (checked, memory, goal): (&Checked, &Memory, &Goal),
    settings: &Settings,
) -> Vec<Finding> {
    findings.extend(rules::of_text(checked));
    findings.extend(memory.said().iter().cloned());
    let files: Vec<_> = checked.script.sources().cloned().collect();
    let mut findings = settle(findings, &files, settings);
    mend_warnings(&mut findings, goal);
    findings
}

/// What is wrong with the tie. If one edit settles all of it, it is one mistake, and said once.
fn tied_wrong(facts: &[Fact], mended: &Mended) -> Vec<Finding> {
    let said = facts.iter().zip(&mended.facts).map(|(fact, mends)| {
        let mut finding = rules::words(fact);
        finding.mends.clone_from(mends);
        finding
    });
    if !mended.is_one {
        return said.collect();
    }
    let first = said.take(1);
    let follow = facts.len() - 1;
    first
        .map(|finding| match facts.get(1) {
            Some(next) => {
                finding.note(next.place, format!("what follows from it ({follow} more) begins here"))
            }
            None => finding,
        })
        .collect()
}

/// A set that does not close gets its mends; so does the first hole, if there is nothing worse.
fn mend_warnings(findings: &mut [Finding], goal: &Goal) {
    if !goal.facts.is_empty() || !goal.clean {
        return;
    }
    if let Some(open) = findings.iter_mut().find(|finding| finding.rule.name == "set-does-not-close") {
        open.mends = mend_closing(goal);
    } else if let Some(hole) = findings.iter_mut().find(|finding| is_hole(finding.rule.name)) {
        hole.mends = mend_hole(goal, hole.place);
    }
}

/// Whether nothing else can be said of a file with this problem.
pub(crate) fn is_whole(problem: &Problem) -> bool {
    matches!(problem.kind, ProblemKind::NewerEdition { .. } | ProblemKind::TooLarge)
}

/// What does not parse: in the checked file, and in the motifs of others that it works.
pub(crate) fn problems(script: &Script) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (number, source) in script.sources().enumerate() {
        let file = FileId(number as u32);
        let matters = |problem: &&Problem| {
            let within = |place: Place| {
                place.file == file
                    && place.span.start <= problem.span.start
                    && problem.span.end <= place.span.end
            };
            file == FileId(0) || is_whole(problem) || script.worked_places().any(within)
        };
        let problems = unrepeated(source).into_iter().filter(matters);
        findings.extend(problems.map(|problem| rules::problem(problem, file, source)));
    }
    findings
}

/// Applies the settings and the comments that allow something, sorts, and leaves out what nobody would read.
fn settle(findings: Vec<Finding>, files: &[Arc<Source>], settings: &Settings) -> Vec<Finding> {
    let mut findings = settings.settle(findings, files);
    let more = findings.len().saturating_sub(MOST_FINDINGS);
    if more > 0 {
        // Warnings are left out before errors.
        findings.sort_by_key(|finding| (Reverse(finding.severity), finding.place));
        findings.truncate(MOST_FINDINGS);
    }
    findings.sort_by_key(|finding| (finding.place, Reverse(finding.severity)));
    if let Some(last) = findings.last_mut().filter(|_| more > 0) {
        let text = format!("{more} more findings are left out");
        last.notes.push(Note { place: last.place, text });
    }
    findings
}
