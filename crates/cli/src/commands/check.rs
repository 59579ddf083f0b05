//! `knotwright check`

use crate::baseline::{Baseline, BaselineEntry, SettledFile};
use crate::checking::{check_file, check_text, mend};
use crate::formats::{FormatName, ReportFormat};
use crate::inputs::{InputArguments, Inputs, Paths, StdinFile};
use crate::many::in_order;
use crate::outcome::{Outcome, Tally};
use crate::rewrite;
use crate::selected::{Selection, SelectionArguments};
use crate::terminal::{CommandResult, Exit, Failure, Out, Terminal};
use clap::{Args, ValueEnum};
use knotwright_checker::{Note, Report, Tag};
use knotwright_numbers::ToNumber;
use knotwright_wording::digits;
use knotwright_workspace::{FoundFile, Homes, MARKDOWN_ENDING, PATTERN_ENDING};
use std::collections::HashSet;
use std::path::PathBuf;

/// Tie patterns knot for knot, and report what cannot be tied or is surely not meant
///
/// A strand that is not there, a knot past the edge, or a broken promise is an error. What can be tied but looks
/// like a slip is a warning. In folders, the command checks `.knot` files and fenced `knot` blocks in `.md` files
/// (but not blocks marked with more than `knot`, such as `knot fragment`). It skips what `.gitignore` lists and
/// `knotwright.toml` excludes.
///
/// Warnings do not make the check fail, unless you add `--deny warnings`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  knotwright check tidepool.knot\n  knotwright check --deny warnings --format github .\n  \
                        knotwright check --mend bands/\n  \
                        knotwright check --changed origin/main --format github .\n  \
                        knotwright check --write-baseline baseline.json .\n  \
                        knotwright check --deny warnings --baseline baseline.json .\n  \
                        knotwright check --shard 2/5 --format junit . > findings-2.xml"
)]
pub(crate) struct CheckArguments {
    #[command(flatten)]
    inputs: InputArguments,

    #[command(flatten)]
    selection: SelectionArguments,

    /// The format of the report
    #[arg(long, value_enum, default_value_t = FormatName::Human)]
    format: FormatName,

    /// What else counts as a failure, besides errors
    #[arg(long, value_enum, value_name = "WHAT")]
    deny: Option<Denied>,

    /// Count only warnings that are not in this file, which `--write-baseline` wrote
    #[arg(long, value_name = "FILE", conflicts_with = "write_baseline")]
    baseline: Option<PathBuf>,

    /// Record all warnings that there are, so that `--baseline` counts only new ones
    #[arg(long, value_name = "FILE")]
    write_baseline: Option<PathBuf>,

    /// Apply each mend that is certain: the only one that makes everything else hold. With `-`, write the mended
    /// text to standard output
    #[arg(long)]
    mend: bool,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Denied {
    /// Warnings fail the check, too
    Warnings,
}

/// What is meant.
struct Check {
    selection: Selection,
    baseline: Option<Baseline>,
    format: Box<dyn ReportFormat>,
    /// How many mends of a finding the format shows, if not all.
    shown: Option<usize>,
    deny: bool,
    mend: bool,
    /// The files that are checked, by their names as shown to people.
    checked: HashSet<String>,
}

/// What is left of a file once it was checked: a report, a count, and sentences for stderr.
#[derive(Default)]
struct CheckedFile {
    report: String,
    tally: Tally,
    mended: Vec<String>,
    failed: Vec<String>,
    /// For the baseline.
    entries: Vec<BaselineEntry>,
}

pub(crate) fn run(typed: CheckArguments, terminal: &Terminal) -> CommandResult {
    let inputs = Inputs::try_from(typed.inputs)?;
    let from_stdin = matches!(inputs, Inputs::Stdin(_));
    if typed.mend && from_stdin && !typed.format.is_for_people() {
        return Err(Failure::said(
            "with `--mend` and `-`, the mended text goes to standard output, so the report cannot have this format",
        ));
    }
    let selection = Selection::from(typed.selection);
    if from_stdin && !selection.is_all() {
        return Err(Failure::said(
            "`--changed` and `--shard` choose among files; with `-` there is only one text",
        ));
    }
    if typed.write_baseline.is_some() && (from_stdin || !selection.is_all()) {
        return Err(Failure::said(
            "`--write-baseline` writes down what all files have: leave out `--changed`, `--shard` and `-`",
        ));
    }
    let baseline = match (&typed.baseline, &typed.write_baseline) {
        (Some(path), _) => Some(Baseline::read(path)?),
        (None, Some(path)) => Some(Baseline::to_write(path)?),
        (None, None) => None,
    };
    let deny = typed.deny.is_some();
    let color = if typed.mend && from_stdin { terminal.color_of_errors() } else { terminal.color };
    let check = Check {
        selection,
        baseline,
        format: typed.format.format(color, deny),
        shown: typed.format.shown_mends(),
        deny,
        mend: typed.mend,
        checked: HashSet::new(),
    };
    match inputs {
        Inputs::Stdin(stdin) if typed.mend => check.mend_stdin(&stdin, terminal),
        Inputs::Stdin(stdin) => check.stdin(&stdin, terminal),
        Inputs::Paths(paths) => check.paths(&paths, terminal),
    }
}

impl Check {
    fn paths(mut self, paths: &Paths, terminal: &Terminal) -> CommandResult {
        let finds = paths.find(&[PATTERN_ENDING, MARKDOWN_ENDING])?;
        let files = self.selection.of(finds.files)?;
        self.checked = files.iter().map(|file| file.shown.clone()).collect();
        let check = &self;
        let mut writer = ReportWriter::new(check, terminal)?;
        for (path, error) in finds.lost {
            writer.take(check.done(None, Outcome { path, checked: Err(error) }))?;
        }
        in_order(&files, |file| check.file(file), |done| writer.take(done))?;
        writer.finish()
    }

    fn stdin(&self, stdin: &StdinFile, terminal: &Terminal) -> CommandResult {
        let file = stdin.found(&Homes::default())?;
        let checked = stdin.text().map(|text| check_text(&file, &text));
        let mut writer = ReportWriter::new(self, terminal)?;
        writer.take(self.done(Some(&file), Outcome { path: file.shown.clone(), checked }))?;
        writer.finish()
    }

    /// The mended text goes where reports usually go, so the report goes to stderr.
    fn mend_stdin(&self, stdin: &StdinFile, terminal: &Terminal) -> CommandResult {
        let file = stdin.found(&Homes::default())?;
        let text = stdin.text().map_err(|error| Failure::said(format_args!("{}: {error}", file.shown)))?;
        let mended = mend(&file, &text);
        let mut out = terminal.out();
        out.write_text(&mended.text)?;
        out.flush()?;
        let path = file.shown.clone();
        let mut done = self.done(Some(&file), Outcome { path, checked: Ok(mended.reports) });
        mended.done.iter().for_each(|mend| terminal.say(mend));
        terminal.say_drawn(&std::mem::take(&mut done.report));
        terminal.say(summary(&done.tally));
        Ok(self.exit(&done.tally, false))
    }

    fn file(&self, file: &FoundFile) -> CheckedFile {
        if self.mend { self.mend_file(file) } else { self.done(Some(file), check_file(file, self.shown)) }
    }

    fn mend_file(&self, file: &FoundFile) -> CheckedFile {
        let path = file.shown.clone();
        let text = match knotwright_workspace::read_text(&file.path) {
            Ok(text) => text,
            Err(error) => return self.done(None, Outcome { path, checked: Err(error) }),
        };
        let mended = mend(file, &text);
        if mended.done.is_empty() {
            return self.done(Some(file), Outcome { path, checked: Ok(mended.reports) });
        }
        match rewrite::replace(file, &text, &mended.text) {
            Ok(()) => {
                let outcome = Outcome { path, checked: Ok(mended.reports) };
                CheckedFile { mended: mended.done, ..self.done(Some(file), outcome) }
            }
            Err(reason) => {
                let failed = vec![format!("{path}: {reason}")];
                let outcome = Outcome { path, checked: Ok(check_text(file, &text)) };
                CheckedFile { failed, ..self.done(Some(file), outcome) }
            }
        }
    }

    /// Leaves out what is wrong with several files together, if one that comes before this one says it.
    fn leave_out_said(&self, path: &str, report: &mut Report) {
        let files = &report.files;
        let is_before = |other: &str| other < path && self.checked.contains(other);
        let other =
            |note: &Note| files.get(note.place.file.0.to_usize()).is_some_and(|file| is_before(&file.path));
        report
            .findings
            .retain(|finding| !finding.rule.has(Tag::Together) || !finding.notes.iter().any(other));
    }

    /// What is left of a file; of one that is not there, `None`, only its name is known.
    fn done(&self, file: Option<&FoundFile>, mut outcome: Outcome) -> CheckedFile {
        let reports = outcome.checked.iter_mut().flatten();
        reports.for_each(|report| self.leave_out_said(&outcome.path, report));
        let settled = match (&self.baseline, file, &mut outcome.checked) {
            (Some(baseline), Some(file), Ok(reports)) => baseline.settle(file, reports),
            _ => SettledFile::default(),
        };
        let failed = outcome.checked.as_ref().err().map(|error| format!("{}: {error}", outcome.path));
        CheckedFile {
            report: self.format.file(&outcome),
            tally: Tally { known: settled.known, ..outcome.tally() },
            failed: failed.into_iter().collect(),
            entries: [settled.gone, settled.found].concat(),
            ..CheckedFile::default()
        }
    }

    fn exit(&self, tally: &Tally, not_written: bool) -> Exit {
        if tally.refused > 0 || not_written {
            Exit::Failed
        } else if tally.errors > 0 || tally.unread > 0 || (self.deny && tally.warnings > 0) {
            Exit::Findings
        } else {
            Exit::Clean
        }
    }
}

/// Puts the results of the files together.
struct ReportWriter<'a> {
    check: &'a Check,
    terminal: &'a Terminal,
    out: Out,
    is_first: bool,
    tally: Tally,
    not_written: bool,
    entries: Vec<BaselineEntry>,
}

impl<'a> ReportWriter<'a> {
    fn new(check: &'a Check, terminal: &'a Terminal) -> Result<Self, Failure> {
        let mut out = terminal.out();
        out.write(&check.format.head())?;
        let (tally, entries) = (Tally::default(), Vec::new());
        Ok(Self { check, terminal, out, is_first: true, tally, not_written: false, entries })
    }

    fn take(&mut self, done: CheckedFile) -> Result<(), Failure> {
        self.tally += done.tally;
        self.entries.extend(done.entries);
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

    fn finish(mut self) -> CommandResult {
        self.out.write(&self.check.format.foot(&self.tally))?;
        self.out.flush()?;
        self.terminal.say(summary(&self.tally));
        if let Some(baseline) = &self.check.baseline {
            if self.check.selection.is_all() {
                self.entries.extend(baseline.of_lost_files());
            }
            baseline.finish(self.entries, self.tally.errors > 0, self.terminal)?;
        }
        Ok(self.check.exit(&self.tally, self.not_written))
    }
}

/// The last line: what was looked at and what was found.
fn summary(tally: &Tally) -> String {
    let count = |number: usize, noun| digits::count(number.to_u64(), noun);
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
    if tally.known > 0 {
        line.push_str(&format!("; {} in the baseline", count(tally.known, "warning")));
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
        let tally = Tally { files: 12, unread: 1, errors: 1, warnings: 2, mendable: 2, known: 40, ..tally };
        assert_eq!(
            summary(&tally),
            "12 files checked: 1 error, 2 warnings, 1 unreadable file; `--mend` can mend 2; 40 warnings in the baseline"
        );
    }
}
