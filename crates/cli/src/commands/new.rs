//! `knotwright new`

use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use crate::whole;
use clap::Args;
use knotwright_lettering::{LetterTrouble, Lettering, MOST_SIGNS};
use knotwright_workspace::PATTERN_ENDING;
use std::path::{Path, PathBuf};

/// Begin a pattern: write a small, complete file that explains itself
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright new harbor-lights\n  \
                        knotwright new harbor-lights.knot --title \"Lights over the harbor\"\n  \
                        knotwright new ahoy --letters AHOY\n  knotwright new -")]
pub(crate) struct NewArguments {
    /// The file to write; it must not exist yet. `.knot` is added if it has no ending; `-` writes to standard
    /// output
    #[arg(value_name = "FILE|-")]
    path: PathBuf,

    /// The title of the pattern; by default it is made from the file name
    #[arg(long)]
    title: Option<String>,

    /// Begin a band with this text in letters, on as many strands as they need
    #[arg(long, value_name = "TEXT")]
    letters: Option<String>,
}

pub(crate) fn run(typed: &NewArguments, terminal: &Terminal) -> CommandResult {
    let title = typed.title.clone().unwrap_or_else(|| title_from(&typed.path));
    let text = match &typed.letters {
        Some(letters) => lettered(&title, letters)?,
        None => starter(&title)?,
    };
    if typed.path == Path::new("-") {
        let mut out = terminal.out();
        out.write_text(&text)?;
        out.flush()?;
        return Ok(Exit::Clean);
    }
    let path = with_ending(&typed.path)?;
    let shown = knotwright_workspace::shown_path(&path);
    whole::create(&path, &text).map_err(|reason| Failure::said(format_args!("{shown}: {reason}")))?;
    terminal.say(format_args!("wrote {shown}; `knotwright check {shown}` ties it"));
    Ok(Exit::Clean)
}

/// A name without an ending gets that of patterns: no folder is searched for files of another.
fn with_ending(path: &Path) -> Result<PathBuf, Failure> {
    match path.extension() {
        None => Ok(path.with_extension(PATTERN_ENDING)),
        Some(ending) if ending == PATTERN_ENDING => Ok(path.to_path_buf()),
        Some(_) => {
            let shown = knotwright_workspace::shown_path(path);
            Err(Failure::said(format_args!(
                "{shown}: the name of a pattern file ends in `.{PATTERN_ENDING}`"
            )))
        }
    }
}

/// `harbor-lights.knot` is called "Harbor lights".
fn title_from(path: &Path) -> String {
    let name =
        path.file_stem().map(|name| name.to_string_lossy().replace(['-', '_'], " ")).unwrap_or_default();
    let mut letters = name.trim().chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => "First band".to_owned(),
    }
}

fn starter(title: &str) -> Result<String, Failure> {
    Ok(include_str!("starter.knot").replace("TITLE", &in_quotes(title, "a title")?))
}

/// A pattern with this text, a strand free at each edge.
fn lettered(title: &str, letters: &str) -> Result<String, Failure> {
    let text = in_quotes(letters, "a text in letters")?;
    let needs = Lettering { text: letters, across: false, height: None }.needs().map_err(no_letters)?;
    let starter = include_str!("starter-letters.knot");
    let strands = (needs + 2).to_string();
    let title = in_quotes(title, "a title")?;
    // What the user wrote comes last, so that nothing in it is taken for a place to fill in.
    let (head, rest) = starter.split_once("TITLE").unwrap_or((starter, ""));
    let (body, end) = rest.split_once("LETTERS").unwrap_or((rest, ""));
    Ok(format!("{head}{title}{}{text}{end}", body.replace("STRANDS", &strands)))
}

pub(crate) fn no_letters(trouble: LetterTrouble) -> Failure {
    match trouble {
        LetterTrouble::NoLetter { sign } => Failure::said(format_args!(
            "there is no letter for {}",
            knotwright_wording::quoted(&sign.to_string(), 1)
        )),
        LetterTrouble::TooManySigns { signs } => Failure::said(format_args!(
            "{signs} signs are too many for a line of letters, which has at most {MOST_SIGNS}"
        )),
        LetterTrouble::Empty | LetterTrouble::NoHeight { .. } | LetterTrouble::TooNarrow(_) => {
            Failure::said("there is nothing to see in these letters")
        }
    }
}

/// A text as it stands between the quotes of a pattern.
fn in_quotes(text: &str, what: &str) -> Result<String, Failure> {
    if text.contains(['{', '}']) || text.contains(char::is_control) {
        return Err(Failure::said(format_args!(
            "{what} cannot contain braces, line breaks or other control characters"
        )));
    }
    Ok(text.replace('\\', "\\\\").replace('"', "\\\""))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_is_taken_from_the_name_of_the_file() {
        assert_eq!(title_from(Path::new("bands/harbor-lights.knot")), "Harbor lights");
        assert_eq!(title_from(Path::new("\u{e9}t\u{e9}_1.knot")), "\u{c9}t\u{e9} 1");
        assert_eq!(title_from(Path::new("-")), "First band");
    }
}
