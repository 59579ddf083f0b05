//! `knotwright export`

use crate::checking::check_text;
use crate::exported::Exported;
use crate::formats::FormatName;
use crate::inputs::{InputArguments, Inputs, find_all};
use crate::outcome::Outcome;
use crate::reckoning::Reckoning;
use crate::terminal::{Answer, Exit, Failure, Out, Terminal};
use clap::Args;
use knotwright_checker::{Report, Severity};
use knotwright_workspace::{Found, Homes, PATTERN_ENDING, ReadError, read};
use std::sync::Arc;

/// Write all that is reckoned of a band as JSON: knots with their rows, orders, repeats, thread and lengths
///
/// One line of JSON for each pattern, in the form of the schema `band-1.schema.json`. A pattern with errors is told
/// about and left out. Libraries, which have no strands of their own, are left out of folders.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright export tidepool.knot > tidepool.json\n  \
                        knotwright export bands/ | jq -r '.title'")]
pub(crate) struct ExportArguments {
    #[command(flatten)]
    inputs: InputArguments,
}

pub(crate) fn run(typed: ExportArguments, terminal: &Terminal) -> Answer {
    let mut exporter = Exporter { terminal, out: terminal.out(), exit: Exit::Clean };
    match Inputs::try_from(typed.inputs)? {
        Inputs::Stdin(stdin) => exporter.take(&stdin.found(&Homes::default())?, stdin.text())?,
        Inputs::Paths(paths) => {
            let finds = find_all(&paths, &[PATTERN_ENDING])?;
            finds.lost.iter().for_each(|(path, error)| exporter.lose(path, error));
            finds.files.iter().try_for_each(|file| exporter.take(file, read(&file.path)))?;
        }
    }
    exporter.out.flush()?;
    Ok(exporter.exit)
}

struct Exporter<'a> {
    terminal: &'a Terminal,
    out: Out,
    exit: Exit,
}

impl Exporter<'_> {
    fn take(&mut self, file: &Found, text: Result<Arc<str>, ReadError>) -> Result<(), Failure> {
        if file.is_markdown() {
            return Err(Failure::said(format_args!("{}: only pattern files are exported", file.shown)));
        }
        match text {
            Ok(text) => check_text(file, &text).into_iter().try_for_each(|report| self.export(file, report)),
            Err(error) => {
                self.lose(&file.shown, &error);
                Ok(())
            }
        }
    }

    fn export(&mut self, file: &Found, report: Report) -> Result<(), Failure> {
        if report.findings.iter().any(|finding| finding.severity == Severity::Error) {
            self.end(Exit::Findings);
            let outcome = Outcome { path: file.shown.clone(), checked: Ok(vec![report]) };
            let format = FormatName::Human.format(self.terminal.color_of_errors(), false);
            self.terminal.say_drawn(&format.file(&outcome));
            return Ok(());
        }
        let Some(pattern) = &report.pattern else {
            if file.named {
                self.end(Exit::Findings);
                self.terminal.error(format_args!("{}: a library has no band to export", file.shown));
            }
            return Ok(());
        };
        let reckoning = Reckoning::of(pattern)
            .map_err(|error| Failure::said(format_args!("{}: cannot be reckoned: {error:?}", file.shown)))?;
        self.out.write_json(&Exported::new(&report, pattern, &reckoning))
    }

    fn lose(&mut self, path: &str, error: &ReadError) {
        self.end(if error.is_about_content() { Exit::Findings } else { Exit::Failed });
        self.terminal.error(format_args!("{path}: {error}"));
    }

    /// The gravest end counts.
    fn end(&mut self, exit: Exit) {
        self.exit = self.exit.max(exit);
    }
}
