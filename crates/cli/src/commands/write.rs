//! `knotwright write`

use crate::bands::OneArguments;
use crate::output::put;
use crate::terminal::{Answer, Exit, Failure, Terminal};
use crate::tying::TyingArguments;
use clap::{Args, ValueEnum};
use knotwright_render::{Document, Order, ProseOptions, instructions};
use std::path::{Path, PathBuf};

/// Write the band in words: what to cut, how the strands hang, and every step, as a person would tell it
///
/// Plain text on a terminal and in files that end in `.txt`, Markdown otherwise. After every section it says how the
/// strands hang, so that a slip is seen before the next one.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright write tidepool.knot\n  \
                        knotwright write tidepool.knot -o tidepool.md --length 16cm\n  \
                        knotwright write tidepool.knot --by rows --language de --mirrored")]
pub(crate) struct WriteArguments {
    #[command(flatten)]
    one: OneArguments,

    /// Write a file, in place of what is there
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,

    /// How the text is set
    #[arg(long, value_enum, value_name = "FORMAT")]
    format: Option<Format>,

    /// In which order knots are told
    #[arg(long, value_enum, default_value_t, value_name = "ORDER")]
    by: By,

    #[command(flatten)]
    tying: TyingArguments,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// Headings and lists as a web page or a notebook sets them
    Markdown,
    /// For a terminal or a printer
    Plain,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum By {
    /// Step by step, as the pattern says
    #[default]
    Steps,
    /// Row by row
    Rows,
}

/// Lines of plain text for a file or a printer; on a terminal they are as long as it is wide, but no longer than this.
const COLUMNS: usize = 90;

pub(crate) fn run(typed: WriteArguments, terminal: &Terminal) -> Answer {
    let (format, output) = (typed.wanted(terminal), typed.output.clone());
    let document = match typed.document(terminal)? {
        Ok(document) => document,
        Err(exit) => return Ok(exit),
    };
    let text = match format {
        Format::Markdown => document.markdown(),
        Format::Plain if output.is_none() => document.plain(terminal.columns().min(COLUMNS)),
        Format::Plain => document.plain(COLUMNS),
    };
    if output.is_some() {
        put(output.as_ref(), text.as_bytes(), terminal)?;
    } else {
        let mut out = terminal.out();
        out.write_text(&text)?;
        out.flush()?;
    }
    Ok(Exit::Clean)
}

impl WriteArguments {
    /// The instructions as Markdown, for a pattern that is looked up from `folder`.
    ///
    /// # Errors
    /// Within: what was said already ends the program so. Without: what was asked for is at fault.
    pub(crate) fn markdown(
        mut self,
        folder: &Path,
        terminal: &Terminal,
    ) -> Result<Result<String, Exit>, Failure> {
        if self.output.is_some() || self.format.is_some() {
            return Err(Failure::said(
                "`--output` and `--format` say nothing in a mark: it is Markdown, and stays here",
            ));
        }
        if self.one.path == Path::new("-") {
            return Err(Failure::said("a mark names a pattern file, not the standard input"));
        }
        self.one.path = folder.join(&self.one.path);
        Ok(self.document(terminal)?.map(|document| document.markdown()))
    }

    fn document(self, terminal: &Terminal) -> Result<Result<Document, Exit>, Failure> {
        let band = match self.one.band(terminal)? {
            Ok(band) => band,
            Err(exit) => return Ok(Err(exit)),
        };
        let said = |reason| Failure::said(format_args!("{}: {reason}", band.file.shown));
        let instructed = self.tying.tying().script(&band.pattern).map_err(said)?;
        let options = ProseOptions {
            language: self.tying.language(),
            order: if self.by == By::Rows { Order::Rows } else { Order::Steps },
            mirrored: instructed.mirrored,
        };
        Ok(Ok(instructions(&instructed.script, &options)))
    }

    fn wanted(&self, terminal: &Terminal) -> Format {
        let is_text =
            |path: &PathBuf| path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("txt"));
        match (self.format, &self.output) {
            (Some(format), _) => format,
            (None, Some(path)) if is_text(path) => Format::Plain,
            (None, None) if terminal.is_seen() => Format::Plain,
            _ => Format::Markdown,
        }
    }
}
