//! One version of a file: how it ties, and what is found in it.
//!
//! The two are apart, so that nobody waits for what they do not need. A hover or a proposal asks how the strands hang,
//! which is known as soon as the file is tied. Findings take longer, as the whole band is looked through for them; and
//! mends take longest, as many edits are tried. What is wrong first is known before all of that ([`Listener`](crate::Listener)).

use crate::faces::check_faces;
use crate::facts::Facts;
use crate::joins::check_joins;
use crate::kept::{Kept, RestTied, Resumed, Shown};
use crate::mend::{
    FaceGoal, FaceMender, Goal, MendedExpect, Rereader, TiedBand, Wrongs, add_remedies, find_doubled,
    may_be_a_word, mend_expects, mend_face_rows, mend_facts, mend_halves, mend_pairs, put_in_number,
    rename_copy, respell_name,
};
use crate::once::{
    likely_causes, said_beside, said_once, said_together, waits_for, with_odd_chart, with_unused,
};
use crate::rephrase::{GivenNames, name_parameters};
use crate::report::{is_whole, mend_warnings, mended_warning, report_problems, settle_findings, tied_wrong};
use crate::resolve::{Script, resolve};
use crate::said::{is_unfinished, said};
use crate::tie::{Keep, Limits, Mark, Tied, tie_parts};
use crate::unread::said_unread;
use crate::woven::Sound;
use crate::{
    Checked, Draft, Edit, Fact, FactKind, FileId, Finding, GivenUp, Library, Mend, Pattern, Place, Report,
    Rule, Settings, Severity, Source, finders, rules,
};
use knotwright_grammar::Span;
use knotwright_grammar::tree::Strands;
use std::sync::{Arc, OnceLock};

/// One version of a file, looked up and tied; see [`Draft`](crate::Draft).
#[derive(Debug, Clone)]
pub struct Analysis {
    source: Arc<Source>,
    /// `None` if one problem is all that can be said of the file.
    examined: Option<Examined>,
    /// The last version without an error, if there is an error in this one.
    before: Option<Box<Kept>>,
}

/// What is known of a file before anybody looks for mends.
#[derive(Debug)]
pub struct FirstFindings {
    /// In order of place; each of them is among all findings.
    pub findings: Vec<Finding>,
    /// Whether these are all. If several things are wrong, whether they are one mistake, which is reported once, only shows
    /// when the edit is found that mends them all.
    pub is_all: bool,
    /// What is wrong besides, unless it follows from what was found: that only shows in the end. There is more of it in
    /// [`Analysis::later_findings`].
    pub doubtful: Vec<Finding>,
}

/// Where a file says who hangs where.
fn strands_place(source: &Source) -> Option<Place> {
    let mut statements = source.parsed.tree.statements.iter();
    let strands = statements.find(|statement| statement.is::<Strands>())?;
    Some(Place { file: FileId::CHECKED, span: strands.span })
}

/// The rule and the place of a finding.
fn whence(finding: &Finding) -> (&'static Rule, Place) {
    (finding.rule, finding.place)
}

/// Whether nothing of it may only say what is not there yet.
fn is_finished<'a>(findings: impl IntoIterator<Item = &'a Finding>) -> bool {
    !findings.into_iter().any(|finding| finding.unfinished)
}

/// What is wrong with a file, and whether nothing of it may only say what is not there yet.
struct Errors {
    findings: Vec<Finding>,
    is_finished: bool,
}

/// A file that was looked up and tied.
#[derive(Debug, Clone)]
struct Examined {
    script: Arc<Script>,
    pattern: Option<Pattern>,
    /// What does not parse.
    problems: Vec<Finding>,
    /// What is wrong with names, then what is wrong with the tie.
    facts: Vec<Fact>,
    /// How many of them are about names.
    named: usize,
    /// What is wrong with faces and joins. No edit is tried for it: the tie knows nothing of faces, and joins tie nothing.
    faces: Vec<Fact>,
    closes: Option<bool>,
    cost: u64,
    knots: u64,
    marks: [Vec<Mark>; 3],
    /// What the band shows, found when somebody asks.
    shown: OnceLock<Vec<Finding>>,
}

/// Looks up and ties `source`, of which no version was analyzed before. `library` has the files that it uses.
pub fn analyze(source: Arc<Source>, library: &dyn Library) -> Analysis {
    Draft::new(source).analyze(library)
}

impl Analysis {
    /// Of a version that nobody has looked up or tied.
    pub fn unread(source: Arc<Source>) -> Self {
        Self { source, examined: None, before: None }
    }

    /// Looks up and ties `source`, no further than the limits say; `kept`: what was known of a version before.
    ///
    /// # Errors
    /// What was known, if it was given up.
    pub(crate) fn within(
        source: Arc<Source>,
        library: &dyn Library,
        limits: Limits,
        kept: Option<Box<Kept>>,
    ) -> Result<Self, Option<Box<Kept>>> {
        if source.parsed.problems.iter().any(is_whole) {
            return Ok(Self { source, examined: None, before: kept });
        }
        let kept = match kept.map(|kept| kept.resume(&source, limits.given_up)) {
            Some(Ok(Resumed { script, tied, said })) => {
                let examined = Examined::new(Arc::new(script), tied, Vec::new(), 0);
                return Ok(Self { source, examined: Some(examined.showing(said)), before: None });
            }
            Some(Err(kept)) => Some(kept),
            None => None,
        };
        let rest = kept.as_ref().and_then(|kept| kept.tie_after(&source, limits));
        let RestTied { script, tied, facts, named } = rest.unwrap_or_else(|| {
            let mut facts = Facts::default();
            let script = resolve(Arc::clone(&source), library, &mut facts);
            let named = facts.count();
            limits.listener.iter().for_each(|listener| listener.before_tie(&script, &facts));
            let tied = tie_parts(&script, None, limits, &mut facts).unwrap_or_default();
            RestTied { script, tied, facts, named }
        });
        let script = Arc::new(script);
        if limits.given_up.is_so() {
            return Err(kept);
        }
        let examined = Examined::new(script, tied, facts.into_list(), named);
        Ok(match examined.pattern.as_ref().filter(|_| examined.is_sound()) {
            Some(pattern) => {
                let said = kept.and_then(|kept| kept.said(pattern, &source));
                Self { source, examined: Some(examined.showing(said)), before: None }
            }
            None => Self { source, examined: Some(examined), before: kept },
        })
    }

    /// Whether no limit ended the tie.
    pub(crate) fn is_within(&self) -> bool {
        let is_limit = |fact: &Fact| matches!(fact.kind, FactKind::TooManyKnots | FactKind::TooMuchMemory);
        !self.examined.as_ref().is_some_and(|examined| examined.facts.iter().any(is_limit))
    }

    /// The checked file.
    pub fn source(&self) -> &Arc<Source> {
        &self.source
    }

    /// The checked file first, then those it uses: a [`FileId`] counts them.
    pub fn files(&self) -> Vec<Arc<Source>> {
        match &self.examined {
            Some(examined) => examined.script.sources().cloned().collect(),
            None => vec![Arc::clone(&self.source)],
        }
    }

    /// The tied pattern; `None` for a library, or if the head does not say enough to tie.
    pub fn pattern(&self) -> Option<&Pattern> {
        self.examined.as_ref()?.pattern.as_ref()
    }

    /// The tied pattern, for those who want nothing else.
    pub fn into_pattern(self) -> Option<Pattern> {
        self.examined?.pattern
    }

    /// All errors, one by one and without mends: known as soon as the file is tied, for those who prove something by
    /// tying it.
    pub fn errors(&self) -> Vec<Finding> {
        let Some(examined) = &self.examined else { return self.problem() };
        let facts = examined.facts.iter().chain(&examined.faces).map(rules::word_fact);
        let is_error = |finding: &Finding| finding.severity == Severity::Error;
        examined.problems.iter().cloned().chain(facts).filter(is_error).collect()
    }

    /// What is wrong with faces.
    pub(crate) fn faces(&self) -> &[Fact] {
        self.examined.as_ref().map_or(&[], |examined| &examined.faces)
    }

    /// The marks of faces that no strand can show, as far as that is known.
    pub fn untied_marks(&self) -> Vec<Place> {
        let faces = self.examined.iter().flat_map(|examined| &examined.faces);
        let marks = faces.filter_map(|fact| match &fact.kind {
            FactKind::FaceCannotBeTied { marks, .. } => Some(marks),
            _ => None,
        });
        marks.flatten().copied().collect()
    }

    /// All findings with their mends, in order of place; `library` and `settings` are those that hold for the file. If
    /// much is wrong with the band, many edits are tried for it.
    pub fn findings(&self, library: &dyn Library, settings: &Settings) -> Vec<Finding> {
        match &self.examined {
            Some(examined) => {
                examined.findings_unless(&GivenUp::NEVER, library, settings).unwrap_or_default()
            }
            None => self.problem(),
        }
    }

    /// All findings with their mends; `None` if it was given up.
    pub fn findings_unless(
        &self,
        given_up: &GivenUp,
        library: &dyn Library,
        settings: &Settings,
    ) -> Option<Vec<Finding>> {
        let given_up = given_up.again();
        let Some(examined) = &self.examined else { return Some(self.problem()) };
        examined.findings_unless(&given_up, library, settings)
    }

    /// What is known as soon as the file is tied, without mends: no edit is tried for it. `None` if it was given up.
    pub fn first_findings_unless(&self, given_up: &GivenUp, settings: &Settings) -> Option<FirstFindings> {
        let given_up = given_up.again();
        let found = match &self.examined {
            Some(examined) => examined.first_findings(settings, &given_up),
            None => FirstFindings { findings: self.problem(), is_all: true, doubtful: Vec::new() },
        };
        (!given_up.is_so()).then_some(found)
    }

    /// What is wrong with the tie after the first thing that is, unless it follows from that. After a slip it may be a
    /// thousand things that nobody will see: so it is only put into words for those who ask.
    pub fn later_findings(&self, settings: &Settings) -> Vec<Finding> {
        let Some(examined) = &self.examined else { return Vec::new() };
        let later = examined.untied().iter().skip(1).map(|fact| examined.said(fact)).collect();
        settle_findings(later, &self.files(), settings)
    }

    /// All at once, of a version that nobody edits.
    pub fn report(self, library: &dyn Library, settings: &Settings) -> Report {
        let (files, findings) = (self.files(), self.findings(library, settings));
        Report { files, findings, pattern: self.examined.and_then(|examined| examined.pattern) }
    }

    /// What helps to analyze the next version. It holds no file.
    pub(crate) fn keep(self) -> Option<Box<Kept>> {
        match self.examined {
            Some(examined) if examined.is_sound() && examined.pattern.is_some() => {
                let Examined { pattern, closes, marks, shown, .. } = examined;
                Kept::new(&self.source, pattern?, Shown { said: shown.into_inner(), closes, marks })
                    .map(Box::new)
            }
            _ => self.before,
        }
    }

    /// The problem about which alone something can be said.
    fn problem(&self) -> Vec<Finding> {
        let problem = self.source.parsed.problems.iter().find(|problem| is_whole(problem));
        let given = GivenNames::of(&self.source);
        problem.map(|problem| said_unread(problem, FileId::CHECKED, &given)).into_iter().collect()
    }
}

impl Examined {
    /// `named`: how many of the facts, the first ones, are about names.
    fn new(script: Arc<Script>, mut tied: Tied, facts: Vec<Fact>, named: usize) -> Self {
        let (closes, cost, knots) = (tied.closes, tied.cost, tied.knots);
        let marks = std::mem::take(&mut tied.marks);
        let is_sound = facts.is_empty() && script.source().parsed.problems.is_empty();
        let mut faces = check_faces(&script, &tied, is_sound);
        if is_sound {
            faces.extend(check_joins(&script, &tied));
        }
        let pattern = Pattern::new(Arc::clone(&script), tied);
        let problems = report_problems(&script);
        let shown = OnceLock::new();
        Self { script, pattern, problems, facts, named, faces, closes, cost, knots, marks, shown }
    }

    /// With what the band shows, if that is known.
    fn showing(self, said: Option<Vec<Finding>>) -> Self {
        Self { shown: said.map_or_else(OnceLock::new, OnceLock::from), ..self }
    }

    /// Whether there is no error.
    fn is_sound(&self) -> bool {
        self.problems.is_empty() && self.facts.is_empty() && self.faces.is_empty()
    }

    fn goal<'a>(&'a self, settings: &Settings, given_up: &'a GivenUp) -> Goal<'a> {
        Goal {
            script: &self.script,
            facts: &self.facts[self.named..],
            closes: self.closes,
            cost: self.cost,
            knots: self.knots,
            misread: self.problems.len() + self.named,
            band: self.pattern.as_ref().map(|pattern| TiedBand { pattern, marks: &self.marks }),
            shown: settings.shown_mends,
            given_up,
        }
    }

    /// `None` if it was given up.
    fn findings_unless(
        &self,
        given_up: &GivenUp,
        library: &dyn Library,
        settings: &Settings,
    ) -> Option<Vec<Finding>> {
        let still_wanted = || (!given_up.is_so()).then_some(());
        let goal = self.goal(settings, given_up);
        let rereader = Rereader::new(&goal, library);
        // Where nothing but the tie is wrong, it may be one mistake: then only the first thing is put into words.
        let (is_tied_alone, rest) = (goal.is_clean(), 1.min(goal.facts.len())..);
        let most = if is_tied_alone { 1 } else { usize::MAX };
        let wrongs = self.wrongs(most).settled(&rereader).under_what_is_missing(&self.facts[..self.named]);
        still_wanted()?;
        let face_rows = || mend_face_rows(&goal, self.pattern.as_ref(), library);
        let mut findings = wrongs.reported;
        let goal = Goal { misread: findings.len(), ..goal };
        // If some of it followed from a wrong word or name, the rest may as well.
        findings.extend(match is_tied_alone || wrongs.untied.len() == goal.facts.len() {
            true => {
                let mended = mend_facts(&goal);
                still_wanted()?;
                let MendedExpect { lists, others } = mend_expects(&goal, &rereader, &mended);
                let mended = mended.or_last(others).or_lists(lists, &rereader).or_first(face_rows());
                let mut said = wrongs.untied;
                if is_tied_alone && !mended.is_one {
                    said.extend(goal.facts[rest.clone()].iter().map(|fact| self.said(fact)));
                }
                tied_wrong(said, mended, &goal.facts[rest], strands_place(self.script.source()))
            }
            false => wrongs.untied,
        });
        add_remedies(&mut findings, &self.facts, &rereader);
        if self.problems.is_empty() {
            mend_halves(&goal, &self.facts[..self.named], &mut findings);
        }
        let mut faces: Vec<Finding> = self.faces.iter().map(|fact| self.said_of_face(fact)).collect();
        let is_elsewhere = |fact: &Fact| matches!(fact.kind, FactKind::FaceKnots { .. });
        if let Some((_, finding)) = self.faces.iter().zip(&mut faces).find(|(fact, _)| is_elsewhere(fact)) {
            finding.mends.extend(face_rows());
        }
        let wrong = self.faces.len();
        let faced = FaceGoal { goal: &goal, pattern: self.pattern.as_ref(), library, wrong };
        for (fact, finding) in self.faces.iter().zip(&mut faces) {
            faced.mend_letter(fact, finding);
            faced.mend_whole(fact, finding);
        }
        let mender = FaceMender::new(&goal, &self.faces, library);
        if let Some(mut mender) = mender {
            self.faces.iter().zip(&mut faces).for_each(|(fact, finding)| mender.mend(fact, finding));
        }
        findings.extend(faces);
        still_wanted()?;
        let is_finished = is_finished(&findings);
        let mut findings = self.with_warnings(Errors { findings, is_finished }, settings, given_up);
        mend_warnings(&mut findings, &goal);
        still_wanted()?;
        if goal.is_clean() && !goal.facts.is_empty() {
            findings = with_odd_chart(findings);
        }
        let found = said_once(findings, |edits| {
            let source = rereader.edited(edits)?;
            let limits =
                Limits { facts: Limits::WHOLE.facts, keep: Keep::All, ..Limits::trial(goal.cost, given_up) };
            let analysis = Analysis::within(source, library, limits, None).ok()?;
            analysis.examined.map(|examined| examined.unmended(settings, given_up))
        });
        still_wanted()?;
        let mut found = if goal.is_clean() { with_unused(found) } else { found };
        found.retain(said_beside(&found));
        Some(found)
    }

    /// All findings, one by one and without mends.
    fn unmended(&self, settings: &Settings, given_up: &GivenUp) -> Vec<Finding> {
        let Wrongs { mut reported, untied } = self.wrongs(usize::MAX);
        reported.extend(untied);
        reported.extend(self.faces.iter().map(|fact| self.said_of_face(fact)));
        let is_finished = is_finished(&reported);
        self.with_warnings(Errors { findings: reported, is_finished }, settings, given_up)
    }

    fn first_findings(&self, settings: &Settings, given_up: &GivenUp) -> FirstFindings {
        // The first thing that is wrong with the tie is a mistake of its own, whatever follows from it. So is a wrong word,
        // if it is the only one that may have led to others.
        let (wrongs, untied) = (self.wrongs(1), self.untied().len());
        let is_finished = is_finished(wrongs.reported.iter().chain(&wrongs.untied))
            && !self.untied().iter().any(|fact| is_unfinished(&self.script, fact));
        let mending = wrongs.reported.iter().filter(|finding| !finding.mends.is_empty()).count();
        let may_lead = mending > 0 && wrongs.reported.len() + untied > 1;
        let is_missing = wrongs.is_of_what_is_missing(&self.facts[..self.named]);
        let may_follow = is_missing && untied > 0;
        let is_all = untied < 2 && !may_lead && !may_follow && !self.may_be_words();
        // Of several such words, each that no other one can be the cause of.
        let in_doubt: Vec<(&Rule, Place)> = match (self.may_be_words() || mending > 1, may_lead) {
            (true, _) => {
                let sure = self.stands_alone(&wrongs.reported);
                let doubtful = wrongs.reported.iter().enumerate().filter(|(at, _)| !sure.contains(at));
                doubtful.map(|doubtful| doubtful.1).chain(&wrongs.untied).map(whence).collect()
            }
            (false, true) => {
                let others = wrongs.reported.iter().filter(|finding| finding.mends.is_empty());
                others.chain(&wrongs.untied).map(whence).collect()
            }
            (false, false) if may_follow => wrongs.untied.iter().map(whence).collect(),
            (false, false) => Vec::new(),
        };
        let faces = self.faces.iter().map(|fact| self.said_of_face(fact));
        let findings = wrongs.reported.into_iter().chain(wrongs.untied).chain(faces).collect();
        let findings = self.with_warnings(Errors { findings, is_finished }, settings, given_up);
        let is_said = said_beside(&findings);
        let is_sure = |finding: &Finding| !in_doubt.contains(&whence(finding));
        let (findings, mut doubtful): (Vec<_>, Vec<_>) = findings.into_iter().partition(is_sure);
        // What may follow from another finding waits, too.
        let mut causes: Vec<Finding> =
            likely_causes(&findings).into_iter().map(|cause| findings[cause].clone()).collect();
        // Of errors in doubt, one may stay alone; which one, makes no difference.
        let is_error = |finding: &&Finding| finding.severity == Severity::Error;
        if !findings.iter().any(|finding| is_error(&finding)) {
            causes.extend(doubtful.iter().filter(is_error).take(2).cloned());
        }
        let waits = |finding: &Finding| causes.iter().any(|cause| waits_for(finding, cause));
        let (waiting, findings): (Vec<_>, Vec<_>) = findings.into_iter().partition(waits);
        let is_all = is_all && waiting.is_empty();
        doubtful.extend(waiting);
        // What is not said beside an error may still become a note of it.
        let findings = findings.into_iter().filter(is_said).collect();
        doubtful.retain(is_said);
        FirstFindings { findings, is_all, doubtful }
    }

    /// Of all that is wrong with words and names, the numbers of those words that are still wrong after every mend of the
    /// others: these are on other lines, and no braces are on their lines, so that a line is read the same after them.
    fn stands_alone(&self, reported: &[Finding]) -> Vec<usize> {
        let text = &self.script.source().text;
        let braces = ['{', '}', '\n', '\r'];
        let lines = |finding: &Finding| -> Option<Vec<Span>> {
            let line = |edit: &Edit| {
                let line = edit.place.span.whole_lines(text);
                let is_plain = edit.place.file == FileId::CHECKED && !edit.text.contains(braces);
                (is_plain && !line.of(text).contains(braces)).then_some(line)
            };
            finding.mends.iter().flat_map(|mend| &mend.edits).map(line).collect()
        };
        let lines: Vec<Option<Vec<Span>>> = reported.iter().map(lines).collect();
        let is_alone = |at: &usize| {
            let own = reported[*at].place.span;
            let is_elsewhere = |line: &Span| own.end < line.start || line.end < own.start;
            let mut others = lines.iter().enumerate().filter(|(other, _)| other != at);
            rules::is_of_a_word(&reported[*at])
                && others.all(|(_, lines)| lines.as_ref().is_some_and(|lines| lines.iter().all(is_elsewhere)))
        };
        (0..self.problems.len()).filter(is_alone).collect()
    }

    /// Whether a name that is not there may be a word of the notation: that only shows when it is tried.
    fn may_be_words(&self) -> bool {
        self.facts[..self.named].iter().any(may_be_a_word)
    }

    /// What is wrong with the tie.
    fn untied(&self) -> &[Fact] {
        &self.facts[self.named..]
    }

    /// All errors, with what is proposed for words and names; of the tie at most this many.
    fn wrongs(&self, most: usize) -> Wrongs {
        let named = self.facts[..self.named].iter().map(|fact| {
            let mut finding = self.said(fact);
            finding.mends.extend(respell_name(fact));
            finding.mends.extend(rename_copy(fact, &self.facts[..self.named]));
            finding.mends.extend(name_parameters(fact, &self.facts[..self.named], self.script.source()));
            finding.mends.extend(mend_pairs(fact, self.script.source()));
            finding.mends.extend(put_in_number(fact, self.script.source()));
            finding
        });
        Wrongs {
            reported: self.problems.iter().cloned().chain(named).collect(),
            untied: self.untied().iter().take(most).map(|fact| self.said(fact)).collect(),
        }
    }

    /// Of a knot that shows the wrong color, with the mark that shows the right one.
    fn said_of_face(&self, fact: &Fact) -> Finding {
        let mut finding = self.said(fact);
        if fact.place.file == FileId::CHECKED {
            let written = fact.place.span.of(&self.script.source().text);
            // Where several knots are off, another slip may be behind all of them.
            let is_alone = self.faces.len() == 1;
            let mend = rules::mend_face(written, fact);
            finding.mends.extend(mend.map(|mend| Mend { certain: mend.certain && is_alone, ..mend }));
        }
        finding
    }

    fn said(&self, fact: &Fact) -> Finding {
        said(&self.script, fact)
    }

    /// What the band shows. It is known from then on, unless it was given up.
    fn shown(&self, sound: &Sound, given_up: &GivenUp) -> Vec<Finding> {
        if let Some(shown) = self.shown.get() {
            return shown.clone();
        }
        let shown = finders::find_in_band(sound, given_up);
        if !given_up.is_so() {
            self.shown.get_or_init(|| shown.clone());
        }
        shown
    }

    /// Errors and all warnings as they are shown, in order of place.
    fn with_warnings(
        &self,
        Errors { mut findings, is_finished }: Errors,
        settings: &Settings,
        given_up: &GivenUp,
    ) -> Vec<Finding> {
        let checked = Checked {
            source: self.script.source(),
            script: &self.script,
            pattern: self.pattern.as_ref(),
            facts: &self.facts,
            closes: self.closes,
            sound: self.is_sound(),
        };
        // What is not used yet, may be in what is being typed.
        if is_finished {
            findings.extend(finders::find_in_text(&checked, given_up));
        }
        if let Some(sound) = Sound::of(&checked) {
            findings.extend(self.shown(&sound, given_up));
            // With a hole or another picture, that is what is wrong, and has its mends.
            if mended_warning(&findings).is_none() {
                findings.extend(find_doubled(&self.goal(settings, given_up)));
            }
        }
        let findings = rules::unrepeated_mirrors(findings, self.script.source());
        let files: Vec<_> = self.script.sources().cloned().collect();
        said_together(settle_findings(findings, &files, settings))
    }
}
