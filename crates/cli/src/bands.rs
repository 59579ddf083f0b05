//! From what was typed to checked bands. What is wrong with a pattern is said, and nothing is answered about it.

use crate::formats::FormatName;
use crate::inputs::{InputArguments, Inputs};
use crate::many::LargeTurn;
use crate::outcome::Outcome;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::Args;
use knotwright_checker::{
    Finding, Level, PartKind, Pattern, Report, Severity, Source, Tag, analyze, analyze_small,
};
use knotwright_maker::too_large;
use knotwright_workspace::{FoundFile, Homes, PATTERN_ENDING, ReadError, read_text};
use std::path::PathBuf;
use std::sync::Arc;

/// A pattern without errors.
#[derive(Debug)]
pub(crate) struct BandFile {
    /// Its file.
    pub(crate) file: FoundFile,
    /// It, then those it uses.
    pub(crate) files: Vec<Arc<Source>>,
    /// The tied pattern.
    pub(crate) pattern: Pattern,
}

impl BandFile {
    /// Whether there is room to plan or compare it; says so if there is none.
    pub(crate) fn has_room(&self, terminal: &Terminal) -> bool {
        let reason = too_large(&self.pattern);
        if let Some(reason) = &reason {
            terminal.error(format_args!("{}: {reason}", self.file.shown));
        }
        reason.is_none()
    }

    /// Says of each part that is a face and nothing else that nothing ties it yet, and what does.
    pub(crate) fn say_wishes(&self, terminal: &Terminal) {
        for kind in PartKind::ALL.into_iter().filter(|kind| self.pattern.is_wish(*kind)) {
            terminal.say(format_args!(
                "{}: its {} is a face that nothing ties yet; `knotwright design` finds the knots",
                self.file.shown,
                kind.word()
            ));
        }
    }
}

/// One pattern, as it is typed.
#[derive(Debug, Clone, Args)]
pub(crate) struct OneArguments {
    /// A pattern file, or `-` for standard input
    #[arg(value_name = "FILE|-")]
    pub(crate) path: PathBuf,

    /// With `-`: the file name to use to look up settings and `use`
    #[arg(long, value_name = "FILE")]
    pub(crate) stdin_name: Option<PathBuf>,
}

impl OneArguments {
    /// The one band that is meant.
    ///
    /// # Errors
    /// Within: what was said already ends the program so. Without: what was typed or set up is at fault.
    pub(crate) fn band(self, terminal: &Terminal) -> Result<Result<BandFile, Exit>, Failure> {
        self.band_by(tied_in_turn, terminal)
    }

    /// The one band that is meant, also if its face cannot be tied with its strands: that is what a design finds out.
    ///
    /// # Errors
    /// As [`band`](Self::band).
    pub(crate) fn band_to_design(self, terminal: &Terminal) -> Result<Result<BandFile, Exit>, Failure> {
        self.band_by(tied_to_design, terminal)
    }

    fn band_by(self, tie: TieText, terminal: &Terminal) -> Result<Result<BandFile, Exit>, Failure> {
        if self.path.is_dir() {
            let shown = knotwright_workspace::shown_path(&self.path);
            return Err(Failure::said(format_args!(
                "{shown}: this is a folder, and one pattern file is needed"
            )));
        }
        let mut found = None;
        let answer = |band| {
            found = Some(band);
            Ok(Exit::Clean)
        };
        let asker = Asker { terminal, tie, answer, exit: Exit::Clean };
        let exit = asker.ask(InputArguments::one(self.path, self.stdin_name))?;
        Ok(found.ok_or(exit.max(Exit::Findings)))
    }
}

/// Answers for every band that is meant, in the order of their files. The gravest end counts.
///
/// # Errors
/// What was typed or set up is at fault, or `answer` says so.
pub(crate) fn each(
    typed: InputArguments,
    terminal: &Terminal,
    answer: impl FnMut(BandFile) -> Result<Exit, Failure>,
) -> CommandResult {
    Asker { terminal, tie: tied_in_turn, answer, exit: Exit::Clean }.ask(typed)
}

/// The pattern of a text, none if it is a library; or what is wrong with it.
type TieText = fn(&FoundFile, &Arc<str>) -> Result<Option<Pattern>, Box<Report>>;

/// The band of a text, or how the program ends after what was wrong with it was said.
///
/// # Errors
/// It is a Markdown file.
pub(crate) fn of_text(
    file: &FoundFile,
    text: &Arc<str>,
    terminal: &Terminal,
) -> Result<Result<BandFile, Exit>, Failure> {
    of_tied(file, || tied_in_turn(file, text), terminal)
}

fn of_tied(
    file: &FoundFile,
    tied: impl FnOnce() -> Result<Option<Pattern>, Box<Report>>,
    terminal: &Terminal,
) -> Result<Result<BandFile, Exit>, Failure> {
    if file.is_markdown() {
        return Err(Failure::said(format_args!(
            "{}: a pattern file is needed here, not Markdown",
            file.shown
        )));
    }
    let pattern = match tied() {
        Ok(pattern) => pattern,
        Err(report) => {
            let outcome = Outcome { path: file.shown.clone(), checked: Ok(vec![*report]) };
            let format = FormatName::Human.format(terminal.color_of_errors(), false);
            terminal.say_drawn(&format.file(&outcome));
            return Ok(Err(Exit::Findings));
        }
    };
    let Some(pattern) = pattern else {
        if file.named {
            terminal.error(format_args!("{}: a library has no band of its own", file.shown));
            return Ok(Err(Exit::Findings));
        }
        return Ok(Err(Exit::Clean));
    };
    Ok(Ok(BandFile::new(file, pattern)))
}

/// The band of a text, none if it is a library; or what is wrong with it. Nothing is said. One that takes much memory waits
/// for its turn.
pub(crate) fn quietly(
    file: &FoundFile,
    text: &Arc<str>,
    turn: &LargeTurn,
) -> Result<Option<BandFile>, Box<Report>> {
    Ok(tied(file, text, turn)?.map(|pattern| BandFile::new(file, pattern)))
}

/// The pattern of a text, none if it is a library; or what is wrong with it.
fn tied(file: &FoundFile, text: &Arc<str>, turn: &LargeTurn) -> Result<Option<Pattern>, Box<Report>> {
    match look(file, &Arc::new(Source::new(&*file.shown, Arc::clone(text))), turn) {
        TiedFile::Band(pattern) => Ok(Some(*pattern)),
        TiedFile::Library => Ok(None),
        TiedFile::Wrong(report) => Err(report),
    }
}

/// The pattern of a text, where one file is worked on after another: nobody waits for it.
fn tied_in_turn(file: &FoundFile, text: &Arc<str>) -> Result<Option<Pattern>, Box<Report>> {
    tied(file, text, &LargeTurn::default())
}

/// The pattern of a text; a face that cannot be tied with these strands is nothing wrong.
fn tied_to_design(file: &FoundFile, text: &Arc<str>) -> Result<Option<Pattern>, Box<Report>> {
    let analysis = analyze(Arc::new(Source::new(&*file.shown, Arc::clone(text))), &file.home.library);
    let errors = analysis.errors();
    let is_of_face = |finding: &Finding| finding.rule.has(Tag::NoWay);
    match !errors.is_empty() && errors.iter().all(is_of_face) {
        true => Ok(analysis.into_pattern()),
        false => tied_in_turn(file, text),
    }
}

/// What a file holds.
pub(crate) enum TiedFile {
    /// A band without errors.
    Band(Box<Pattern>),
    /// Motifs, and no band of its own.
    Library,
    /// Something that is wrong.
    Wrong(Box<Report>),
}

/// Ties a pattern; one that takes much memory waits for its turn. Warnings are not looked for, unless the settings make
/// errors of some.
pub(crate) fn look(file: &FoundFile, source: &Arc<Source>, turn: &LargeTurn) -> TiedFile {
    let (library, settings) = (&file.home.library, file.settings());
    let analysis = analyze_small(source, library).unwrap_or_else(|| {
        turn.take();
        analyze(Arc::clone(source), library)
    });
    let has_graver = settings.levels.values().any(|level| *level == Level::Error);
    let pattern = if has_graver || !analysis.errors().is_empty() {
        let report = analysis.report(library, &settings);
        if report.findings.iter().any(|finding| finding.severity == Severity::Error) {
            return TiedFile::Wrong(Box::new(report));
        }
        report.pattern
    } else {
        analysis.into_pattern()
    };
    pattern.map_or(TiedFile::Library, |pattern| TiedFile::Band(Box::new(pattern)))
}

impl BandFile {
    fn new(file: &FoundFile, pattern: Pattern) -> Self {
        Self { file: file.clone(), files: pattern.sources().cloned().collect(), pattern }
    }
}

struct Asker<'a, F> {
    terminal: &'a Terminal,
    tie: TieText,
    answer: F,
    exit: Exit,
}

impl<F: FnMut(BandFile) -> Result<Exit, Failure>> Asker<'_, F> {
    fn ask(mut self, typed: InputArguments) -> CommandResult {
        match Inputs::try_from(typed)? {
            Inputs::Stdin(stdin) => self.take(&stdin.found(&Homes::default())?, stdin.text())?,
            Inputs::Paths(paths) => {
                let finds = paths.find(&[PATTERN_ENDING])?;
                finds.lost.iter().for_each(|(path, error)| self.lose(path, error));
                finds.files.iter().try_for_each(|file| self.take(file, read_text(&file.path)))?;
            }
        }
        Ok(self.exit)
    }

    fn take(&mut self, file: &FoundFile, text: Result<Arc<str>, ReadError>) -> Result<(), Failure> {
        match text {
            Ok(text) => {
                let exit = match of_tied(file, || (self.tie)(file, &text), self.terminal)? {
                    Ok(band) => (self.answer)(band)?,
                    Err(exit) => exit,
                };
                self.exit = self.exit.max(exit);
            }
            Err(error) => self.lose(&file.shown, &error),
        }
        Ok(())
    }

    fn lose(&mut self, path: &str, error: &ReadError) {
        self.exit = self.exit.max(if error.is_about_content() { Exit::Findings } else { Exit::Failed });
        self.terminal.error(format_args!("{path}: {error}"));
    }
}
