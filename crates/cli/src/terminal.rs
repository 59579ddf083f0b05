//! What the program says, and how it ends.

use crate::visible::{name, on_one_line, visible, write_json};
use clap::builder::styling::{AnsiColor, Style};
use std::fmt;
use std::io::{self, BufWriter, IsTerminal, StdoutLock, Write};
use std::process::ExitCode;

/// How the program ends, if nothing failed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Exit {
    /// All is well: 0.
    Clean,
    /// There are findings, or a file is not as it should be: 1.
    Findings,
    /// Something could not be read or written; the rest was done: 2.
    Failed,
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(match exit {
            Exit::Clean => 0,
            Exit::Findings => 1,
            Exit::Failed => 2,
        })
    }
}

/// Why a command ended before its time: what was typed, set up, read or written is at fault. Said on stderr, exit 2.
#[derive(Debug)]
pub(crate) struct Failure(pub(crate) String);

impl Failure {
    /// A sentence for a person.
    pub(crate) fn said(message: impl fmt::Display) -> Self {
        Self(message.to_string())
    }
}

impl From<knotwright_workspace::HomeError> for Failure {
    fn from(error: knotwright_workspace::HomeError) -> Self {
        Self::said(format_args!("{}: {}", error.path, error.reason))
    }
}

/// How a command ends.
pub(crate) type CommandResult = Result<Exit, Failure>;

/// When to use color.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, clap::ValueEnum)]
pub(crate) enum ColorWish {
    /// On a terminal, unless the variable NO_COLOR is set or the terminal is dumb
    #[default]
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

impl ColorWish {
    fn grants(self, is_terminal: bool) -> bool {
        let is_set = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
        let dumb = || std::env::var_os("TERM").is_some_and(|term| term == "dumb");
        match self {
            Self::Always => true,
            Self::Never => false,
            // no-color.org: set and not empty, whatever its value.
            Self::Auto => is_terminal && !is_set("NO_COLOR") && !dumb(),
        }
    }
}

/// The two streams of the program.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Terminal {
    /// Whether stdout gets color.
    pub(crate) color: bool,
    /// Whether stderr does.
    color_of_errors: bool,
    /// Whether stdout is looked at by a person.
    is_seen: bool,
}

impl Terminal {
    pub(crate) fn new(wish: ColorWish) -> Self {
        let is_seen = io::stdout().is_terminal();
        Self {
            color: wish.grants(is_seen),
            color_of_errors: wish.grants(io::stderr().is_terminal()),
            is_seen,
        }
    }

    /// Says something on stderr, on one line; it may begin with the name of a file. If nobody listens there, nothing is lost
    /// but the words.
    pub(crate) fn say(&self, text: impl fmt::Display) {
        let _ = writeln!(io::stderr().lock(), "{}", name(&text.to_string()));
    }

    /// Says what is at fault.
    pub(crate) fn error(&self, text: impl fmt::Display) {
        self.marked("error", AnsiColor::Red.on_default().bold(), &text.to_string());
    }

    /// Says something that was meant to be drawn by us, color and all.
    pub(crate) fn say_drawn(&self, drawn: &str) {
        let _ = io::stderr().lock().write_all(drawn.as_bytes());
    }

    fn marked(&self, mark: &str, style: Style, text: &str) {
        let style = if self.color_of_errors { style } else { Style::new() };
        let _ = writeln!(io::stderr().lock(), "{style}{mark}:{style:#} {}", on_one_line(text));
    }

    /// Whether stdout is looked at by a person.
    pub(crate) fn is_seen(&self) -> bool {
        self.is_seen
    }

    /// How many columns stdout has: as the variable COLUMNS or the terminal says, else 80.
    pub(crate) fn columns(&self) -> usize {
        let said = std::env::var("COLUMNS").ok().and_then(|columns| columns.trim().parse().ok());
        let measured =
            || terminal_size::terminal_size_of(io::stdout()).map(|(width, _)| usize::from(width.0));
        said.or_else(measured).filter(|columns| *columns > 0).unwrap_or(80)
    }

    /// The standard output.
    pub(crate) fn out(&self) -> Out {
        let to = BufWriter::with_capacity(64 * 1024, Listened { to: io::stdout().lock(), is_gone: false });
        Out { to, is_seen: self.is_seen }
    }

    /// Whether reports on stderr get color.
    pub(crate) fn color_of_errors(&self) -> bool {
        self.color_of_errors
    }
}

/// The standard output, written in large pieces.
pub(crate) struct Out {
    to: BufWriter<Listened<StdoutLock<'static>>>,
    is_seen: bool,
}

impl Out {
    /// Writes what was made to be read: it holds no sign that misleads but our own color.
    ///
    /// # Errors
    /// The output is closed or full.
    pub(crate) fn write(&mut self, text: &str) -> Result<(), Failure> {
        self.to.write_all(text.as_bytes()).map_err(not_written)
    }

    /// Writes text from a pattern, for another program byte for byte, for a person made visible.
    ///
    /// # Errors
    /// The output is closed or full.
    pub(crate) fn write_text(&mut self, text: &str) -> Result<(), Failure> {
        if self.is_seen { self.write(&visible(text)) } else { self.write(text) }
    }

    /// Writes what is no text, as it is.
    ///
    /// # Errors
    /// The output is closed or full.
    pub(crate) fn write_bytes(&mut self, bytes: &[u8]) -> Result<(), Failure> {
        self.to.write_all(bytes).map_err(not_written)
    }

    /// Writes one line of JSON.
    ///
    /// # Errors
    /// The output is closed or full.
    pub(crate) fn write_json(&mut self, value: &impl serde::Serialize) -> Result<(), Failure> {
        write_json(&mut self.to, value).map_err(|error| not_written(error.into()))?;
        self.write("\n")
    }

    /// Hands over what is still held back.
    ///
    /// # Errors
    /// The output is closed or full.
    pub(crate) fn flush(&mut self) -> Result<(), Failure> {
        self.to.flush().map_err(not_written)
    }
}

fn not_written(error: io::Error) -> Failure {
    Failure::said(format_args!("the output cannot be written: {}", knotwright_workspace::refusal(&error)))
}

/// Something to write to, whose reader may go away before the end, as `head` does. That is no fault, and what comes then
/// is for nobody; but how the program ends is still asked for, so that its work goes on.
struct Listened<W> {
    to: W,
    is_gone: bool,
}

impl<W: Write> Listened<W> {
    fn unless_gone<T>(&mut self, if_gone: T, write: impl FnOnce(&mut W) -> io::Result<T>) -> io::Result<T> {
        if self.is_gone {
            return Ok(if_gone);
        }
        match write(&mut self.to) {
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => {
                self.is_gone = true;
                Ok(if_gone)
            }
            result => result,
        }
    }
}

impl<W: Write> Write for Listened<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.unless_gone(bytes.len(), |to| to.write(bytes))
    }

    fn flush(&mut self) -> io::Result<()> {
        self.unless_gone((), Write::flush)
    }
}
