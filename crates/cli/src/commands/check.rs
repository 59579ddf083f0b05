//! `knotwright check`

use crate::checking::{check_file, check_text, mend};
use crate::formats::{FormatName, ReportFormat};
use crate::inputs::{InputArguments, Inputs, StdinFile, find_all};
use crate::many::in_order;
use crate::outcome::{Outcome, Tally};
use crate::rewrite;
use crate::selected::{Selection, SelectionArguments};
use crate::terminal::{Answer, Exit, Failure, Out, Terminal};
use clap::{Args, ValueEnum};
use knotwright_workspace::{Found, Homes, MARKDOWN_ENDING, PATTERN_ENDING};
use std::path::PathBuf;

/// Tie patterns knot for knot, and tell everything in them that cannot be or is surely not meant
///
/// Every strand that is not there, every knot past the edge, every promise that is not kept is an error; what ties but
/// looks like a slip is a warning. Folders are looked through for `.knot` files, and for fenced `knot` blocks in `.md`
/// files (a block marked `knot` and something more, such as `knot fragment`, is left alone). What `.gitignore` names and
/// `knotwright.toml` excludes is left out.
///
/// Without `--deny warnings`, warnings are told but do no harm.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  knotwright check tidepool.knot\n  knotwright check --deny warnings --format github .\n  \
                        knotwright check --mend bands/\n  \
                        knotwright check --changed origin/main --format github .\n  \
                        knotwright check --shard 2/5 --format junit . > findings-2.xml"
)]
pub(crate) struct CheckArguments {
    #[command(flatten)]
    inputs: InputArguments,

    #[command(flatten)]
    selection: SelectionArguments,

    /// The form of the report
    #[arg(long, value_enum, default_value_t = FormatName::Human)]
    format: FormatName,

    /// What counts as a failure besides errors
    #[arg(long, value_enum, value_name = "WHAT")]
    deny: Option<Denied>,

    /// Mend what has only one cure that makes all the rest hold; from standard input, the mended text is written out
    #[arg(long)]
    mend: bool,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Denied {
    /// Warnings make the check fail, too
    Warnings,
}

/// What is meant.
struct Check {
    selection: Selection,
    format: Box<dyn ReportFormat>,
    deny: bool,
    mend: bool,
}

/// What is left of a file once it was checked: a report, a count, and sentences for stderr.
#[derive(Default)]
struct Done {
    report: String,
    tally: Tally,
    mended: Vec<String>,
    failed: Vec<String>,
}

pub(crate) fn run(typed: CheckArguments, terminal: &Terminal) -> Answer {
    let inputs = Inputs::try_from(typed.inputs)?;
    let from_stdin = matches!(inputs, Inputs::Stdin(_));
    if typed.mend && from_stdin && !typed.format.is_for_people() {
        return Err(Failure::said(
            "with `--mend` and `-` the mended text is written out, and there is no place for this report",
        ));
    }
    let selection = Selection::from(typed.selection);
    if from_stdin && !selection.is_all() {
        return Err(Failure::said(
            "`--changed` and `--shard` choose among files; with `-` there is only one text",
        ));
    }
    let deny = typed.deny.is_some();
    let color = if typed.mend && from_stdin { terminal.color_of_errors() } else { terminal.color };
    let check = Check { selection, format: typed.format.format(color, deny), deny, mend: typed.mend };
    match inputs {
        Inputs::Stdin(stdin) if typed.mend => check.mend_stdin(&stdin, terminal),
        Inputs::Stdin(stdin) => check.stdin(&stdin, terminal),
        Inputs::Paths(paths) => check.paths(&paths, terminal),
    }
}

impl Check {
    fn paths(&self, paths: &[PathBuf], terminal: &Terminal) -> Answer {
        let finds = find_all(paths, &[PATTERN_ENDING, MARKDOWN_ENDING])?;
        let files = self.selection.of(finds.files)?;
        let mut writer = Writer::new(self, terminal)?;
        for (path, error) in finds.lost {
            writer.take(&self.done(&Outcome { path, checked: Err(error) }))?;
        }
        in_order(&files, |file| self.file(file), |done| writer.take(&done))?;
        writer.finish()
    }

    fn stdin(&self, stdin: &StdinFile, terminal: &Terminal) -> Answer {
        let file = stdin.found(&Homes::default())?;
        let checked = stdin.text().map(|text| check_text(&file, &text));
        let mut writer = Writer::new(self, terminal)?;
        writer.take(&self.done(&Outcome { path: file.shown, checked }))?;
        writer.finish()
    }

    /// The mended text goes where reports usually go, so the report goes to stderr.
    fn mend_stdin(&self, stdin: &StdinFile, terminal: &Terminal) -> Answer {
        let file = stdin.found(&Homes::default())?;
        let text = stdin.text().map_err(|error| Failure::said(format_args!("{}: {error}", file.shown)))?;
        let mended = mend(&file, &text);
        let mut out = terminal.out();
        out.write_text(&mended.text)?;
        out.flush()?;
        let mut done = self.done(&Outcome { path: file.shown, checked: Ok(mended.reports) });
        mended.done.iter().for_each(|mend| terminal.say(mend));
        terminal.say_drawn(&std::mem::take(&mut done.report));
        terminal.say(summary(&done.tally));
        Ok(self.exit(&done.tally, false))
    }

    fn file(&self, file: &Found) -> Done {
        if self.mend { self.mend_file(file) } else { self.done(&check_file(file)) }
    }

    fn mend_file(&self, file: &Found) -> Done {
        let path = file.shown.clone();
        let text = match knotwright_workspace::read(&file.path) {
            Ok(text) => text,
            Err(error) => return self.done(&Outcome { path, checked: Err(error) }),
        };
        let mended = mend(file, &text);
        if mended.done.is_empty() {
            return self.done(&Outcome { path, checked: Ok(mended.reports) });
        }
        match rewrite::replace(&file.path, &text, &mended.text) {
            Ok(()) => {
                Done { mended: mended.done, ..self.done(&Outcome { path, checked: Ok(mended.reports) }) }
            }
            Err(reason) => {
                let failed = vec![format!("{path}: {reason}")];
                Done { failed, ..self.done(&Outcome { path, checked: Ok(check_text(file, &text)) }) }
            }
        }
    }

    fn done(&self, outcome: &Outcome) -> Done {
        let failed = outcome.checked.as_ref().err().map(|error| format!("{}: {error}", outcome.path));
        Done {
            report: self.format.file(outcome),
            tally: outcome.tally(),
            failed: failed.into_iter().collect(),
            ..Done::default()
        }
    }

    fn exit(&self, tally: &Tally, not_written: bool) -> Exit {
        if tally.unreadable > 0 || not_written {
            Exit::Failed
        } else if tally.errors > 0 || tally.unread > 0 || (self.deny && tally.warnings > 0) {
            Exit::Findings
        } else {
            Exit::Clean
        }
    }
}

/// Puts the results of the files together.
struct Writer<'a> {
    check: &'a Check,
    terminal: &'a Terminal,
    out: Out,
    is_first: bool,
    tally: Tally,
    not_written: bool,
}

impl<'a> Writer<'a> {
    fn new(check: &'a Check, terminal: &'a Terminal) -> Result<Self, Failure> {
        let mut out = terminal.out();
        out.write(&check.format.head())?;
        Ok(Self { check, terminal, out, is_first: true, tally: Tally::default(), not_written: false })
    }

    fn take(&mut self, done: &Done) -> Result<(), Failure> {
        self.tally += done.tally;
        self.not_written |= done.failed.len() > done.tally.unread;
        done.mended.iter().for_each(|mend| self.terminal.say(mend));
        done.failed.iter().for_each(|failed| self.terminal.error(failed));
        if done.report.is_empty() {
            return Ok(());
        }
        if !std::mem::replace(&mut self.is_first, false) {
            self.out.write(self.check.format.separator())?;
        }
        self.out.write(&done.report)
    }

    fn finish(mut self) -> Answer {
        self.out.write(&self.check.format.foot(&self.tally))?;
        self.out.flush()?;
        self.terminal.say(summary(&self.tally));
        Ok(self.check.exit(&self.tally, self.not_written))
    }
}

/// The last line: what was looked at and what was found.
fn summary(tally: &Tally) -> String {
    let count = |number: usize, noun: &str| match number {
        1 => format!("1 {noun}"),
        number => format!("{number} {noun}s"),
    };
    let found = [(tally.errors, "error"), (tally.warnings, "warning"), (tally.unread, "unreadable file")];
    let found: Vec<String> = found
        .into_iter()
        .filter(|(number, _)| *number > 0)
        .map(|(number, noun)| count(number, noun))
        .collect();
    let found = if found.is_empty() { "all is well".to_owned() } else { found.join(", ") };
    let mut line = format!("{} checked: {found}", count(tally.files, "file"));
    if tally.mendable > 0 {
        line.push_str(&format!("; `--mend` can mend {}", tally.mendable));
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_line_counts_what_there_is() {
        let tally = Tally { files: 1, ..Tally::default() };
        assert_eq!(summary(&tally), "1 file checked: all is well");
        let tally = Tally { files: 12, unread: 1, unreadable: 0, errors: 1, warnings: 2, mendable: 2 };
        assert_eq!(
            summary(&tally),
            "12 files checked: 1 error, 2 warnings, 1 unreadable file; `--mend` can mend 2"
        );
    }
}
