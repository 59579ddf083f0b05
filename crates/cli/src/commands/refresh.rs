//! `knotwright refresh`

use crate::commands::write::WriteArguments;
use crate::inputs::{InputArguments, Inputs};
use crate::rewrite;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use crate::visible::name;
use clap::{Args, Parser};
use knotwright_workspace::{FoundFile, MARKDOWN_ENDING, folder_of, markdown_comments, read_text};
use std::ops::Range;

/// Update instructions in Markdown files: the text of `knotwright write` between two marks
///
/// The first mark is a comment that says what to write, `<!-- knotwright write bands/tidepool.knot --by rows -->`;
/// the second is `<!-- /knotwright -->`. Each is on a line of its own. Paths start at the folder of the Markdown
/// file. The rest of the file stays as it is, and the file is replaced whole or not at all.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  knotwright refresh tutorials/first-band.md\n  knotwright refresh --check ."
)]
pub(crate) struct RefreshArguments {
    #[command(flatten)]
    inputs: InputArguments,

    /// Write nothing; list the files that are out of date, and fail if there are any
    #[arg(long)]
    check: bool,
}

/// What is in the first mark after `knotwright write`.
#[derive(Debug, Parser)]
#[command(no_binary_name = true, disable_help_flag = true, color = clap::ColorChoice::Never)]
struct RefreshMark {
    #[command(flatten)]
    write: WriteArguments,
}

/// Two marks, and what is to be between them.
struct MarkedPassage {
    /// The bytes of the first mark.
    opens: Range<usize>,
    /// What it says after `knotwright write`.
    words: Vec<String>,
    /// The first byte of the second mark.
    closes: usize,
}

pub(crate) fn run(typed: RefreshArguments, terminal: &Terminal) -> CommandResult {
    let Inputs::Paths(paths) = Inputs::try_from(typed.inputs)? else {
        return Err(Failure::said(
            "the patterns are found from the folder of the Markdown file, and `-` has no folder",
        ));
    };
    let finds = paths.find(&[MARKDOWN_ENDING])?;
    let mut exit = Exit::Clean;
    for (path, error) in &finds.lost {
        terminal.error(format_args!("{path}: {error}"));
        exit = Exit::Failed;
    }
    let (mut stale, mut all) = (0, 0);
    for file in finds.files.iter().filter(|file| file.is_markdown()) {
        all += 1;
        match refresh(file, typed.check, terminal)? {
            Ok(changed) => stale += usize::from(changed),
            Err(end) => exit = exit.max(end),
        }
    }
    let (deed, end) = if typed.check { ("out of date", Exit::Findings) } else { ("refreshed", Exit::Clean) };
    terminal.say(format_args!("{stale} of {all} Markdown files {deed}"));
    Ok(if stale > 0 { exit.max(end) } else { exit })
}

/// Whether the file is, or was, out of date; or how the program ends after what is wrong was said.
fn refresh(file: &FoundFile, check: bool, terminal: &Terminal) -> Result<Result<bool, Exit>, Failure> {
    let said = |reason: String| Failure::said(format_args!("{}: {reason}", file.shown));
    let old = read_text(&file.path).map_err(|error| said(error.to_string()))?;
    let (mut new, mut at) = (String::with_capacity(old.len()), 0);
    for passage in passages(&old).map_err(said)? {
        let text = match written(file, &passage, line_of(&old, passage.opens.start), terminal)? {
            Ok(text) => text,
            Err(exit) => return Ok(Err(exit)),
        };
        new.push_str(&old[at..passage.opens.end]);
        new.push_str(&as_lines(&text, old.contains("\r\n")));
        at = passage.closes;
    }
    new.push_str(&old[at..]);
    let changed = *new != *old;
    if changed && check {
        let mut out = terminal.out();
        out.write(&format!("{}\n", name(&file.shown)))?;
        out.flush()?;
    } else if changed {
        rewrite::replace(file, &old, &new).map_err(said)?;
    }
    Ok(Ok(changed))
}

/// What a mark asks for.
fn written(
    file: &FoundFile,
    passage: &MarkedPassage,
    line: usize,
    terminal: &Terminal,
) -> Result<Result<String, Exit>, Failure> {
    let mark = RefreshMark::try_parse_from(&passage.words).map_err(|error| {
        let reason = error.to_string();
        let reason = reason.lines().next().unwrap_or_default().trim_start_matches("error: ").to_owned();
        Failure::said(format_args!("{}:{line}: this mark is not understood: {reason}", file.shown))
    })?;
    mark.write.markdown(folder_of(&file.path), terminal)
}

/// Marks and what is between them, in order.
fn passages(text: &str) -> Result<Vec<MarkedPassage>, String> {
    let mut found = Vec::new();
    let mut open: Option<(Range<usize>, Vec<String>)> = None;
    for place in markdown_comments(text) {
        let said = text[place.clone()].trim().trim_start_matches("<!--").trim_end_matches("-->").trim();
        if said == "/knotwright" {
            let Some((opens, words)) = open.take() else {
                return Err(format!("line {}: this mark has no first mark", line_of(text, place.start)));
            };
            found.push(MarkedPassage { opens, words, closes: place.start });
        } else if let Some(rest) = said.strip_prefix("knotwright write ") {
            if let Some((earlier, _)) = &open {
                return Err(never_ends(text, earlier));
            }
            open = Some((place, words(rest)));
        }
    }
    match open {
        Some((opens, _)) => Err(never_ends(text, &opens)),
        None => Ok(found),
    }
}

fn never_ends(text: &str, opens: &Range<usize>) -> String {
    format!("line {}: `<!-- /knotwright -->` is missing after this mark", line_of(text, opens.start))
}

/// Counted from 1.
fn line_of(text: &str, at: usize) -> usize {
    text[..at].matches('\n').count() + 1
}

/// Words as a shell reads them, with double quotes for those that hold spaces.
fn words(text: &str) -> Vec<String> {
    let (mut words, mut word, mut quoted) = (Vec::new(), None::<String>, false);
    for sign in text.chars() {
        match sign {
            '"' => {
                quoted = !quoted;
                word.get_or_insert_default();
            }
            sign if sign.is_whitespace() && !quoted => words.extend(word.take()),
            sign => word.get_or_insert_default().push(sign),
        }
    }
    words.extend(word);
    words
}

/// A text on lines of its own, with an empty one before and after, that end as those of the file do.
fn as_lines(text: &str, with_return: bool) -> String {
    let lines = format!("\n{}\n\n", text.trim_end());
    if with_return { lines.replace('\n', "\r\n") } else { lines }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_split_as_a_shell_does() {
        assert_eq!(words("a.knot  --by rows "), ["a.knot", "--by", "rows"]);
        assert_eq!(words("\"low tide.knot\" --sets=\"2\" \"\""), ["low tide.knot", "--sets=2", ""]);
    }

    #[test]
    fn marks_that_do_not_fit_together_are_reported_with_their_line() {
        let reason = |text: &str| passages(text).err().unwrap();
        assert!(reason("a\n\n<!-- /knotwright -->\n").starts_with("line 3: "));
        assert!(reason("<!-- knotwright write a -->\n").starts_with("line 1: "));
        let twice = "<!-- knotwright write a -->\n\n<!-- knotwright write b -->\n\n<!-- /knotwright -->\n";
        assert!(reason(twice).starts_with("line 1: "));
        assert!(passages("```\n<!-- /knotwright -->\n```\n").unwrap().is_empty(), "in a block of code");
    }
}
