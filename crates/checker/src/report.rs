//! From a source to all that is to be said of it.

use crate::mend::{
    Goal, Mended, mend_chart, mend_closing, mend_hole, mend_idle_step, mend_symmetry, mend_unhung,
    note_what_follows,
};
use crate::once::said_beside;
use crate::rephrase::GivenNames;
use crate::resolve::Script;
use crate::tie::Limits;
use crate::unread::said_unread;
use crate::unrepeated::{Unrepeated, unrepeated_problems};
use crate::wording::count;
use crate::{
    Analysis, Draft, Fact, FileId, Finding, Library, Note, Pattern, Place, Settings, Source, Tag, rules,
};
use knotwright_grammar::{Problem, ProblemKind, Span, to_offset};
use knotwright_numbers::ToNumber;
use std::cmp::Reverse;
use std::sync::Arc;

/// At most this many findings of one file are shown; nobody reads more at once.
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
}

impl Report {
    /// What is said of a pattern that stands in `page` behind that many bytes: places are those of the page. There is no
    /// pattern in it any more, as its places would be others.
    pub fn in_page(mut self, page: &Arc<str>, start: usize) -> Self {
        self.pattern = None;
        if let Some(first) = self.files.first_mut() {
            let own = std::mem::replace(first, Arc::new(Source::new("", "")));
            let own = Arc::try_unwrap(own).unwrap_or_else(|shared| (*shared).clone());
            *first = Arc::new(own.in_page(Arc::clone(page), start));
        }
        let by = to_offset(start);
        let places = self.findings.iter_mut().flat_map(Finding::places_mut);
        for place in places.filter(|place| place.file == FileId::CHECKED) {
            place.span = Span { start: place.span.start + by, end: place.span.end + by };
        }
        self
    }
}

/// As [`check`], of a pattern that takes little room; `None` if it has more than a million knots, or steps and notes of
/// more than 8 MiB.
pub fn check_small(source: &Arc<Source>, library: &dyn Library, settings: &Settings) -> Option<Report> {
    analyze_small(source, library).map(|analysis| analysis.report(library, settings))
}

/// As [`analyze`](crate::analyze), with the same limits.
pub fn analyze_small(source: &Arc<Source>, library: &dyn Library) -> Option<Analysis> {
    let analysis = Analysis::within(Arc::clone(source), library, Limits::SMALL, None).ok()?;
    analysis.is_within().then_some(analysis)
}

/// Looks `source` up, ties it and tests every promise in it. `library` has the files that it uses.
pub fn check(source: Arc<Source>, library: &dyn Library, settings: &Settings) -> Report {
    Draft::new(source).analyze(library).report(library, settings)
}

/// What is wrong with the tie, with its mends. If one edit settles all of it, it is one mistake, and said once.
/// `following`: where all but the first is wrong. `strands`: where it is said who hangs where.
pub(crate) fn tied_wrong(
    mut said: Vec<Finding>,
    mended: Mended,
    following: &[Fact],
    strands: Option<Place>,
) -> Vec<Finding> {
    for (finding, mends) in said.iter_mut().zip(mended.facts) {
        finding.mends.extend(mends);
    }
    if mended.is_one && !said.is_empty() {
        said.truncate(1);
        let start =
            strands.filter(|_| !following.is_empty()).and_then(|strands| at_strands(&said[0], strands));
        note_what_follows(&mut said[0], following.iter().map(|fact| fact.place));
        said[0].notes.extend(start);
    }
    said
}

/// The note where the mistake lies, if all its mends are of `strands`.
fn at_strands(finding: &Finding, strands: Place) -> Option<Note> {
    let is_there =
        |place: Place| strands.span.start <= place.span.start && place.span.end <= strands.span.end;
    let mut edits = finding.mends.iter().flat_map(|mend| &mend.edits);
    let is_theirs = !finding.mends.is_empty() && edits.all(|edit| is_there(edit.place));
    is_theirs.then(|| Note {
        place: strands,
        text: "this says who hangs where, and may be what is wrong".to_owned(),
    })
}

/// A step that ties nothing gets its mends, and a set that does not close; so does the first hole, if there is nothing worse,
/// and then a picture that is nearly symmetric.
pub(crate) fn mend_warnings(findings: &mut [Finding], goal: &Goal) {
    if !goal.facts.is_empty() || !goal.is_clean() {
        return;
    }
    if let Some(idle) = first(findings, Tag::IdleStep) {
        idle.mends = mend_idle_step(goal, idle);
    }
    // Otherwise it may be what is wrong with the closing.
    if first(findings, Tag::Open).is_none()
        && let Some(unhung) = first(findings, Tag::Unhung)
    {
        unhung.mends.extend(mend_unhung(goal, unhung));
    }
    let torn = torn_by_odd_chart(findings);
    if let Some(open) = first(findings, Tag::Open) {
        if goal.closes == Some(false) && !rules::is_open_on_purpose(goal.script) {
            open.mends = mend_closing(goal);
        }
    } else if let Some((chart, hole)) = torn {
        findings[chart].mends = mend_hole(goal, hole);
    } else if let Some(hole) = first(findings, Tag::Hole) {
        hole.mends = mend_hole(goal, hole.place);
    } else if let Some(uneven) = first(findings, Tag::Uneven) {
        uneven.mends = mend_symmetry(goal, uneven);
    } else if let Some(chart) = first(findings, Tag::UnevenChart) {
        chart.mends = mend_chart(goal, chart);
    }
}

/// A chart with a row too many or too few, after which it leaves a hole when it is tied again: its finding's number, and
/// where the hole is.
fn torn_by_odd_chart(findings: &[Finding]) -> Option<(usize, Place)> {
    let chart = findings.iter().position(|finding| finding.rule.has(Tag::OddChart))?;
    let again = findings[chart].notes.first()?.place;
    let mut holes = findings.iter().filter(|finding| finding.rule.has(Tag::Hole));
    holes.find(|hole| hole.place == again).map(|hole| (chart, hole.place))
}

/// Of findings without an error the number of the one that gets the mends, if any may.
pub(crate) fn mended_warning(findings: &[Finding]) -> Option<usize> {
    let first = |tag: Tag| findings.iter().position(|finding| finding.rule.has(tag));
    let of_band = first(Tag::Open)
        .or_else(|| torn_by_odd_chart(findings).map(|torn| torn.0))
        .or_else(|| first(Tag::Hole))
        .or_else(|| first(Tag::Uneven))
        .or_else(|| first(Tag::UnevenChart));
    of_band.or_else(|| first(Tag::IdleStep))
}

fn first(findings: &mut [Finding], tag: Tag) -> Option<&mut Finding> {
    findings.iter_mut().find(|finding| finding.rule.has(tag))
}

/// Whether nothing else can be said of a file with this problem.
pub(crate) fn is_whole(problem: &Problem) -> bool {
    problem.kind.is_of_whole_file()
}

/// What does not parse: in the checked file, and in the motifs of others that it works.
pub(crate) fn report_problems(script: &Script) -> Vec<Finding> {
    let mut worked: Vec<Place> = script.worked_places().collect();
    worked.sort_unstable();
    // Motifs do not lie in one another: the last that begins before a place is the only one that may hold it.
    let is_worked = |place: Place| {
        let behind =
            worked.partition_point(|motif| (motif.file, motif.span.start) <= (place.file, place.span.start));
        let before = behind.checked_sub(1).map(|at| worked[at]);
        before.is_some_and(|motif| motif.file == place.file && place.span.end <= motif.span.end)
    };
    let mut findings = Vec::new();
    for (number, source) in script.sources().enumerate() {
        let file = FileId(number.to_u32());
        let matters = |problem: &&Problem| {
            file == FileId::CHECKED || is_whole(problem) || is_worked(Place { file, span: problem.span })
        };
        let problems = unrepeated_problems(source).into_iter().filter(|one| matters(&one.problem));
        let given = GivenNames::of(source);
        // What else could be written is only looked for where somebody may read it.
        let is_shown = MOST_FINDINGS.saturating_sub(findings.len());
        let worded =
            problems.enumerate().map(|(number, one)| word_once(&one, file, &given, number < is_shown));
        findings.extend(worded);
    }
    findings
}

/// The words for a problem, and where it stands again. The name of a reserved word is wrong only where it is given.
fn word_once(one: &Unrepeated<'_>, file: FileId, given: &GivenNames, is_shown: bool) -> Finding {
    let mut finding = match is_shown {
        true => said_unread(one.problem, file, given),
        false => {
            rules::word_problem(one.problem, file, given.source()).at(Place { file, span: one.problem.span })
        }
    };
    if let Some(span) = one.next.filter(|_| one.problem.kind != ProblemKind::ReservedName) {
        let rest = match one.again - 1 {
            0 => String::new(),
            more => format!(", and in {}", count(more.to_u64(), "more row")),
        };
        finding.notes.push(Note { place: Place { file, span }, text: format!("here again{rest}") });
    }
    finding
}

/// Applies the settings and the comments that allow something, sorts, and leaves out what nobody would read.
pub(crate) fn settle_findings(
    findings: Vec<Finding>,
    files: &[Arc<Source>],
    settings: &Settings,
) -> Vec<Finding> {
    let mut findings = settings.settle(findings, files);
    if findings.len() > MOST_FINDINGS {
        findings.retain(said_beside(&findings));
    }
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
