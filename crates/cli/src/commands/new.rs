//! `knotwright new`

use crate::rewrite;
use crate::terminal::{Answer, Exit, Failure, Terminal};
use clap::Args;
use knotwright_workspace::PATTERN_ENDING;
use std::path::{Path, PathBuf};

/// Begin a pattern: writes a small file that is whole, and explains itself
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright new harbor-lights\n  \
                        knotwright new harbor-lights.knot --title \"Lights over the harbor\"\n  knotwright new -")]
pub(crate) struct NewArguments {
    /// The file to write, which must not be there yet; `.knot` is added if there is no ending; `-` writes it out
    #[arg(value_name = "FILE|-")]
    path: PathBuf,

    /// What the pattern is called; without it, the name of the file is taken
    #[arg(long)]
    title: Option<String>,
}

pub(crate) fn run(typed: &NewArguments, terminal: &Terminal) -> Answer {
    let title = typed.title.clone().unwrap_or_else(|| title_from(&typed.path));
    let text = starter(&title)?;
    if typed.path == Path::new("-") {
        let mut out = terminal.out();
        out.write_text(&text)?;
        out.flush()?;
        return Ok(Exit::Clean);
    }
    let path = with_ending(&typed.path)?;
    let shown = knotwright_workspace::shown(&path);
    rewrite::create(&path, &text).map_err(|reason| Failure::said(format_args!("{shown}: {reason}")))?;
    terminal.say(format_args!("{shown} is written; `knotwright check {shown}` ties it"));
    Ok(Exit::Clean)
}

/// A name without an ending gets that of patterns: no folder is searched for files of another.
fn with_ending(path: &Path) -> Result<PathBuf, Failure> {
    match path.extension() {
        None => Ok(path.with_extension(PATTERN_ENDING)),
        Some(ending) if ending == PATTERN_ENDING => Ok(path.to_path_buf()),
        Some(_) => {
            let shown = knotwright_workspace::shown(path);
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
    if title.contains(['{', '}']) || title.contains(char::is_control) {
        return Err(Failure::said(
            "a title holds neither braces nor line breaks nor other control characters",
        ));
    }
    let title = title.replace('\\', "\\\\").replace('"', "\\\"");
    Ok(include_str!("starter.knot").replace("TITLE", &title))
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
