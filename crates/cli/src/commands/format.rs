//! `knotwright format`

use crate::inputs::{InputArguments, Inputs, Paths, StdinFile};
use crate::many::in_order;
use crate::rewrite;
use crate::selected::ChangedArguments;
use crate::terminal::{CommandResult, Exit, Failure, Out, Terminal};
use crate::visible::{name, visible};
use clap::Args;
use clap::builder::styling::{AnsiColor, Style};
use knotwright_formatter::{apply_text_edits, format};
use knotwright_workspace::{FoundFile, Homes, PATTERN_ENDING, ReadError, read_text};
use similar::TextDiff;
use std::sync::Arc;

/// Format patterns in the standard layout: indents, spaces, blank lines, and charts like bricks
///
/// There are no options for the layout. Comments stay where they are, and what cannot be read stays as it is. A
/// file is replaced whole or not at all. With `-`, the formatted text goes to standard output.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright format bands/\n  knotwright format --check .\n  \
                        knotwright format --check --changed origin/main .\n  \
                        knotwright format --diff tidepool.knot\n  cat tidepool.knot | knotwright format -")]
pub(crate) struct FormatArguments {
    #[command(flatten)]
    inputs: InputArguments,

    #[command(flatten)]
    changed: ChangedArguments,

    /// Write nothing; list the files that would change, and fail if there are any
    #[arg(long)]
    check: bool,

    /// Write nothing; show what would change, and fail if anything would
    #[arg(long)]
    diff: bool,
}

/// What becomes of a file that is not written the usual way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum FormatMode {
    Write,
    Name,
    Show { color: bool },
}

/// What became of a file.
struct FormattedFile {
    path: String,
    end: FormatOutcome,
    /// How many statements could not be read, and stay as they are.
    unparsed: usize,
}

enum FormatOutcome {
    /// It was as it should be.
    Same,
    /// It was written, or would have been; what is to be shown of it.
    Changed(String),
    /// It is no text.
    Unread(ReadError),
    /// It could not be written.
    Unwritten(String),
}

pub(crate) fn run(typed: FormatArguments, terminal: &Terminal) -> CommandResult {
    let deed = match (typed.diff, typed.check) {
        (true, _) => FormatMode::Show { color: terminal.color },
        (false, true) => FormatMode::Name,
        (false, false) => FormatMode::Write,
    };
    match Inputs::try_from(typed.inputs)? {
        Inputs::Stdin(_) if !typed.changed.is_all() => {
            Err(Failure::said("`--changed` chooses among files; with `-` there is only one text"))
        }
        Inputs::Stdin(stdin) => from_stdin(&stdin, deed, terminal),
        Inputs::Paths(paths) => from_paths(&paths, &typed.changed, deed, terminal),
    }
}

fn from_paths(
    paths: &Paths,
    changed: &ChangedArguments,
    deed: FormatMode,
    terminal: &Terminal,
) -> CommandResult {
    let finds = paths.find(&[PATTERN_ENDING])?;
    let files = changed.of(finds.files)?;
    if let Some(file) = files.iter().find(|file| file.is_markdown()) {
        return Err(Failure::said(format_args!("{}: only pattern files are formatted", file.shown)));
    }
    let mut teller = FormatReporter {
        terminal,
        out: terminal.out(),
        deed,
        changed: 0,
        files: 0,
        unparsed: false,
        failed: false,
    };
    for (path, error) in finds.lost {
        teller.take(FormattedFile { path, end: FormatOutcome::Unread(error), unparsed: 0 })?;
    }
    in_order(&files, |file| one(file, deed), |done| teller.take(done))?;
    teller.finish()
}

fn one(file: &FoundFile, deed: FormatMode) -> FormattedFile {
    let path = file.shown.clone();
    let text = match read_text(&file.path) {
        Ok(text) => text,
        Err(error) => return FormattedFile { path, end: FormatOutcome::Unread(error), unparsed: 0 },
    };
    let (new, unparsed) = formatted(&text);
    let end = match (new, deed) {
        (None, _) => FormatOutcome::Same,
        (Some(new), FormatMode::Write) => match rewrite::replace(file, &text, &new) {
            Ok(()) => FormatOutcome::Changed(String::new()),
            Err(reason) => FormatOutcome::Unwritten(reason),
        },
        (Some(_), FormatMode::Name) => FormatOutcome::Changed(name(&path) + "\n"),
        (Some(new), FormatMode::Show { color }) => {
            FormatOutcome::Changed(difference(&path, &text, &new, color))
        }
    };
    FormattedFile { path, end, unparsed }
}

/// The canonical text, if it is another, and how many places could not be read.
fn formatted(text: &Arc<str>) -> (Option<String>, usize) {
    let parsed = knotwright_grammar::parse(text);
    let new = apply_text_edits(text, &format(text, &parsed));
    ((new != **text).then_some(new), parsed.problems.len())
}

fn from_stdin(stdin: &StdinFile, deed: FormatMode, terminal: &Terminal) -> CommandResult {
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
        (new, FormatMode::Write) => out.write_text(new.as_deref().unwrap_or(&text))?,
        (Some(_), FormatMode::Name) => out.write(&format!("{}\n", name(&file.shown)))?,
        (Some(new), FormatMode::Show { color }) => {
            write_difference(&mut out, &difference(&file.shown, &text, new, color), color)?
        }
        (None, _) => {}
    }
    out.flush()?;
    tell_unparsed(terminal, &file.shown, unparsed);
    let fails = unparsed > 0 || (deed != FormatMode::Write && new.is_some());
    Ok(if fails { Exit::Findings } else { Exit::Clean })
}

fn tell_unparsed(terminal: &Terminal, path: &str, unparsed: usize) {
    if unparsed > 0 {
        let places = if unparsed == 1 { "one place" } else { "some places" };
        terminal.error(format_args!(
            "{path}: {places} could not be read and stayed as written; `knotwright check` shows them"
        ));
    }
}

/// Reports what became of the files, one after another.
struct FormatReporter<'a> {
    terminal: &'a Terminal,
    out: Out,
    deed: FormatMode,
    changed: usize,
    files: usize,
    unparsed: bool,
    failed: bool,
}

impl FormatReporter<'_> {
    fn take(&mut self, done: FormattedFile) -> Result<(), Failure> {
        self.files += 1;
        tell_unparsed(self.terminal, &done.path, done.unparsed);
        self.unparsed |= done.unparsed > 0;
        match (done.end, self.deed) {
            (FormatOutcome::Same, _) => {}
            (FormatOutcome::Changed(shown), deed) => {
                self.changed += 1;
                match deed {
                    FormatMode::Show { color } => write_difference(&mut self.out, &shown, color)?,
                    _ => self.out.write_text(&shown)?,
                }
            }
            (FormatOutcome::Unread(error), _) => {
                self.terminal.error(format_args!("{}: {error}", done.path));
                self.unparsed |= error.is_about_content();
                self.failed |= !error.is_about_content();
            }
            (FormatOutcome::Unwritten(reason), _) => {
                self.terminal.error(format_args!("{}: {reason}", done.path));
                self.failed = true;
            }
        }
        Ok(())
    }

    fn finish(mut self) -> CommandResult {
        self.out.flush()?;
        let verb = if self.deed == FormatMode::Write { "formatted" } else { "would be formatted" };
        self.terminal.say(format_args!("{} of {} {verb}", self.changed, count(self.files)));
        let not_as_it_should_be = self.unparsed || (self.deed != FormatMode::Write && self.changed > 0);
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
    let name = name(path);
    let plain = TextDiff::from_lines(old, new).unified_diff().header(&name, &name).to_string();
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
