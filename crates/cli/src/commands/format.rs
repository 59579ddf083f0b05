//! `knotwright format`

use crate::inputs::{InputArguments, Inputs, StdinFile, find_all};
use crate::many::in_order;
use crate::rewrite;
use crate::terminal::{Answer, Exit, Failure, Out, Terminal};
use crate::visible::visible;
use clap::Args;
use clap::builder::styling::{AnsiColor, Style};
use knotwright_formatter::{apply, format};
use knotwright_workspace::{Found, Homes, PATTERN_ENDING, ReadError, read};
use similar::TextDiff;
use std::path::PathBuf;
use std::sync::Arc;

/// Write patterns the one usual way: indents, spaces, blank lines and charts in bricks
///
/// There is nothing to set. Comments stay where they are, and what cannot be read stays as it is. A file is replaced
/// whole or not at all. What comes in on standard input goes out formatted.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright format bands/\n  knotwright format --check .\n  \
                        knotwright format --diff tidepool.knot\n  cat tidepool.knot | knotwright format -")]
pub(crate) struct FormatArguments {
    #[command(flatten)]
    inputs: InputArguments,

    /// Write nothing; name the files that would change, and fail if there are any
    #[arg(long)]
    check: bool,

    /// Write nothing; show what would change, and fail if anything would
    #[arg(long)]
    diff: bool,
}

/// What becomes of a file that is not written the usual way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Deed {
    Write,
    Name,
    Show { color: bool },
}

/// What became of a file.
struct Done {
    path: String,
    end: End,
    /// How many statements could not be read, and stay as they are.
    unparsed: usize,
}

enum End {
    /// It was as it should be.
    Same,
    /// It was written, or would have been; what is to be shown of it.
    Changed(String),
    /// It is no text.
    Unread(ReadError),
    /// It could not be written.
    Unwritten(String),
}

pub(crate) fn run(typed: FormatArguments, terminal: &Terminal) -> Answer {
    let deed = match (typed.diff, typed.check) {
        (true, _) => Deed::Show { color: terminal.color },
        (false, true) => Deed::Name,
        (false, false) => Deed::Write,
    };
    match Inputs::try_from(typed.inputs)? {
        Inputs::Stdin(stdin) => from_stdin(&stdin, deed, terminal),
        Inputs::Paths(paths) => from_paths(&paths, deed, terminal),
    }
}

fn from_paths(paths: &[PathBuf], deed: Deed, terminal: &Terminal) -> Answer {
    let finds = find_all(paths, &[PATTERN_ENDING])?;
    if let Some(file) = finds.files.iter().find(|file| file.is_markdown()) {
        return Err(Failure::said(format_args!("{}: only pattern files are formatted", file.shown)));
    }
    let mut teller =
        Teller { terminal, out: terminal.out(), deed, changed: 0, files: 0, unparsed: false, failed: false };
    for (path, error) in finds.lost {
        teller.take(Done { path, end: End::Unread(error), unparsed: 0 })?;
    }
    in_order(&finds.files, |file| one(file, deed), |done| teller.take(done))?;
    teller.finish()
}

fn one(file: &Found, deed: Deed) -> Done {
    let path = file.shown.clone();
    let text = match read(&file.path) {
        Ok(text) => text,
        Err(error) => return Done { path, end: End::Unread(error), unparsed: 0 },
    };
    let (new, unparsed) = formatted(&text);
    let end = match (new, deed) {
        (None, _) => End::Same,
        (Some(new), Deed::Write) => match rewrite::replace(&file.path, &text, &new) {
            Ok(()) => End::Changed(String::new()),
            Err(reason) => End::Unwritten(reason),
        },
        (Some(_), Deed::Name) => End::Changed(path.clone() + "\n"),
        (Some(new), Deed::Show { color }) => End::Changed(difference(&path, &text, &new, color)),
    };
    Done { path, end, unparsed }
}

/// The canonical text, if it is another, and how many places could not be read.
fn formatted(text: &Arc<str>) -> (Option<String>, usize) {
    let parsed = knotwright_grammar::parse(text);
    let new = apply(text, &format(text, &parsed));
    ((new != **text).then_some(new), parsed.problems.len())
}

fn from_stdin(stdin: &StdinFile, deed: Deed, terminal: &Terminal) -> Answer {
    let file = stdin.found(&Homes::default())?;
    let text = match stdin.text() {
        Ok(text) => text,
        Err(error) => {
            terminal.error(format_args!("{}: {error}", file.shown));
            return Ok(if error.is_about_content() { Exit::Findings } else { Exit::Failed });
        }
    };
    let (new, unparsed) = formatted(&text);
    let mut out = terminal.out();
    match (&new, deed) {
        (new, Deed::Write) => out.write_text(new.as_deref().unwrap_or(&text))?,
        (Some(_), Deed::Name) => out.write_text(&format!("{}\n", file.shown))?,
        (Some(new), Deed::Show { color }) => {
            write_difference(&mut out, &difference(&file.shown, &text, new, color), color)?
        }
        (None, _) => {}
    }
    out.flush()?;
    tell_unparsed(terminal, &file.shown, unparsed);
    let fails = unparsed > 0 || (deed != Deed::Write && new.is_some());
    Ok(if fails { Exit::Findings } else { Exit::Clean })
}

fn tell_unparsed(terminal: &Terminal, path: &str, unparsed: usize) {
    if unparsed > 0 {
        let places = if unparsed == 1 { "one place" } else { "some places" };
        terminal.error(format_args!(
            "{path}: {places} could not be read and stayed as written; `knotwright check` tells more"
        ));
    }
}

/// Tells what became of the files, one after another.
struct Teller<'a> {
    terminal: &'a Terminal,
    out: Out,
    deed: Deed,
    changed: usize,
    files: usize,
    unparsed: bool,
    failed: bool,
}

impl Teller<'_> {
    fn take(&mut self, done: Done) -> Result<(), Failure> {
        self.files += 1;
        tell_unparsed(self.terminal, &done.path, done.unparsed);
        self.unparsed |= done.unparsed > 0;
        match (done.end, self.deed) {
            (End::Same, _) => {}
            (End::Changed(shown), deed) => {
                self.changed += 1;
                match deed {
                    Deed::Show { color } => write_difference(&mut self.out, &shown, color)?,
                    _ => self.out.write_text(&shown)?,
                }
            }
            (End::Unread(error), _) => {
                self.terminal.error(format_args!("{}: {error}", done.path));
                self.unparsed |= error.is_about_content();
                self.failed |= !error.is_about_content();
            }
            (End::Unwritten(reason), _) => {
                self.terminal.error(format_args!("{}: {reason}", done.path));
                self.failed = true;
            }
        }
        Ok(())
    }

    fn finish(mut self) -> Answer {
        self.out.flush()?;
        let verb = if self.deed == Deed::Write { "formatted" } else { "would be formatted" };
        self.terminal.say(format_args!("{} of {} {verb}", self.changed, count(self.files)));
        let not_as_it_should_be = self.unparsed || (self.deed != Deed::Write && self.changed > 0);
        Ok(match (self.failed, not_as_it_should_be) {
            (true, _) => Exit::Failed,
            (false, true) => Exit::Findings,
            (false, false) => Exit::Clean,
        })
    }
}

fn count(files: usize) -> String {
    if files == 1 { "1 file".to_owned() } else { format!("{files} files") }
}

/// A unified difference, which `patch` can apply if it is not colored.
fn difference(path: &str, old: &str, new: &str, color: bool) -> String {
    let plain = TextDiff::from_lines(old, new).unified_diff().header(path, path).to_string();
    if !color {
        return plain;
    }
    plain.split_inclusive('\n').map(painted).collect()
}

fn painted(line: &str) -> String {
    let style = match line.as_bytes() {
        [b'+', ..] => AnsiColor::Green.on_default(),
        [b'-', ..] => AnsiColor::Red.on_default(),
        [b'@', ..] => AnsiColor::Cyan.on_default(),
        _ => Style::new(),
    };
    let text = line.trim_end_matches(['\n', '\r']);
    format!("{style}{}{style:#}\n", visible(text))
}

/// A colored difference is for people, and made visible already.
fn write_difference(out: &mut Out, difference: &str, color: bool) -> Result<(), Failure> {
    if color { out.write(difference) } else { out.write_text(difference) }
}
