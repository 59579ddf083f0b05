//! From what was typed to checked bands. What is wrong with a pattern is said, and nothing is answered about it.

use crate::formats::FormatName;
use crate::inputs::{InputArguments, Inputs, find_all};
use crate::outcome::Outcome;
use crate::terminal::{Answer, Exit, Failure, Terminal};
use clap::Args;
use knotwright_checker::{Level, Pattern, Report, Severity, Source, check, tie};
use knotwright_workspace::{Found, Homes, PATTERN_ENDING, ReadError, read};
use std::path::PathBuf;
use std::sync::Arc;

/// A pattern without errors.
#[derive(Debug)]
pub(crate) struct Band {
    /// Its file.
    pub(crate) file: Found,
    /// It, then those it uses.
    pub(crate) files: Vec<Arc<Source>>,
    /// The tied pattern.
    pub(crate) pattern: Pattern,
}

/// One pattern, as it is typed.
#[derive(Debug, Clone, Args)]
pub(crate) struct OneArguments {
    /// A pattern file, or `-` for what comes in on standard input
    #[arg(value_name = "FILE|-")]
    pub(crate) path: PathBuf,

    /// With `-`: the name the pattern goes by; settings and `use` are looked up from there
    #[arg(long, value_name = "FILE")]
    pub(crate) stdin_name: Option<PathBuf>,
}

impl OneArguments {
    /// The one band that is meant.
    ///
    /// # Errors
    /// Within: what was said already ends the program so. Without: what was typed or set up is at fault.
    pub(crate) fn band(self, terminal: &Terminal) -> Result<Result<Band, Exit>, Failure> {
        if self.path.is_dir() {
            let shown = knotwright_workspace::shown(&self.path);
            return Err(Failure::said(format_args!(
                "{shown}: this is a folder, and one pattern file is needed"
            )));
        }
        let mut found = None;
        let exit = each(InputArguments::one(self.path, self.stdin_name), terminal, |band| {
            found = Some(band);
            Ok(Exit::Clean)
        })?;
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
    answer: impl FnMut(Band) -> Result<Exit, Failure>,
) -> Answer {
    let mut asker = Asker { terminal, answer, exit: Exit::Clean };
    match Inputs::try_from(typed)? {
        Inputs::Stdin(stdin) => asker.take(&stdin.found(&Homes::default())?, stdin.text())?,
        Inputs::Paths(paths) => {
            let finds = find_all(&paths, &[PATTERN_ENDING])?;
            finds.lost.iter().for_each(|(path, error)| asker.lose(path, error));
            finds.files.iter().try_for_each(|file| asker.take(file, read(&file.path)))?;
        }
    }
    Ok(asker.exit)
}

/// The band of a text, or how the program ends after what was wrong with it was said.
///
/// # Errors
/// It is a Markdown file.
pub(crate) fn of_text(
    file: &Found,
    text: &Arc<str>,
    terminal: &Terminal,
) -> Result<Result<Band, Exit>, Failure> {
    if file.is_markdown() {
        return Err(Failure::said(format_args!(
            "{}: a pattern file is needed here, not Markdown",
            file.shown
        )));
    }
    let pattern = match tied(file, text) {
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
    Ok(Ok(Band::new(file, pattern)))
}

/// The band of a text, if there is one without errors; nothing is said.
pub(crate) fn quietly(file: &Found, text: &Arc<str>) -> Option<Band> {
    Some(Band::new(file, tied(file, text).ok()??))
}

/// The pattern of a text, none if it is a library; or what is wrong with it. Warnings are not looked for, unless the
/// settings make errors of some.
fn tied(file: &Found, text: &Arc<str>) -> Result<Option<Pattern>, Box<Report>> {
    let source = Arc::new(Source::new(&*file.shown, Arc::clone(text)));
    let (library, settings) = (&file.home.library, &file.home.settings);
    let tied = tie(Arc::clone(&source), library);
    let has_graver = settings.levels.values().any(|level| *level == Level::Error);
    if tied.errors.is_empty() && !has_graver {
        return Ok(tied.pattern);
    }
    let report = check(source, library, settings);
    if report.findings.iter().any(|finding| finding.severity == Severity::Error) {
        return Err(Box::new(report));
    }
    Ok(tied.pattern)
}

impl Band {
    fn new(file: &Found, pattern: Pattern) -> Self {
        Self { file: file.clone(), files: pattern.sources().cloned().collect(), pattern }
    }
}

struct Asker<'a, F> {
    terminal: &'a Terminal,
    answer: F,
    exit: Exit,
}

impl<F: FnMut(Band) -> Result<Exit, Failure>> Asker<'_, F> {
    fn take(&mut self, file: &Found, text: Result<Arc<str>, ReadError>) -> Result<(), Failure> {
        match text {
            Ok(text) => {
                let exit = match of_text(file, &text, self.terminal)? {
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
