//! What a command works on: files and folders, or the standard input.

use crate::terminal::Failure;
use clap::Args;
use knotwright_workspace::{Finds, Found, Home, Homes, ReadError, find, folder_of, read_from};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What was typed.
#[derive(Debug, Args)]
pub(crate) struct InputArguments {
    /// Pattern files, folders to look through for them, or `-` for what comes in on standard input
    #[arg(required = true, value_name = "FILE|FOLDER|-")]
    paths: Vec<PathBuf>,

    /// With `-`: the name the pattern goes by in reports; settings and `use` are looked up from there
    #[arg(long, value_name = "FILE")]
    stdin_name: Option<PathBuf>,
}

impl InputArguments {
    /// As if this one had been typed.
    pub(crate) fn one(path: PathBuf, stdin_name: Option<PathBuf>) -> Self {
        Self { paths: vec![path], stdin_name }
    }
}

/// What is meant.
#[derive(Debug)]
pub(crate) enum Inputs {
    /// What comes in on standard input.
    Stdin(StdinFile),
    /// Files and folders.
    Paths(Vec<PathBuf>),
}

/// The file that the standard input stands for.
#[derive(Debug)]
pub(crate) struct StdinFile {
    path: PathBuf,
}

impl TryFrom<InputArguments> for Inputs {
    type Error = Failure;

    fn try_from(typed: InputArguments) -> Result<Self, Failure> {
        let stdin = Path::new("-");
        match typed.paths.as_slice() {
            [only] if only == stdin => {
                let path = typed.stdin_name.unwrap_or_else(|| PathBuf::from("stdin.knot"));
                Ok(Self::Stdin(StdinFile { path }))
            }
            paths if paths.iter().any(|path| path == stdin) => {
                Err(Failure::said("`-` stands alone: name either files and folders, or the standard input"))
            }
            _ if typed.stdin_name.is_some() => {
                Err(Failure::said("`--stdin-name` needs `-` as the only file"))
            }
            _ => Ok(Self::Paths(typed.paths)),
        }
    }
}

impl StdinFile {
    /// The file as if it were on the disk.
    ///
    /// # Errors
    /// The settings that hold for it cannot be read, or its name is not UTF-8.
    pub(crate) fn found(&self, homes: &Homes) -> Result<Found, Failure> {
        if self.path.to_str().is_none() {
            return Err(Failure::said(format_args!(
                "{}: {}",
                knotwright_workspace::shown(&self.path),
                ReadError::Name
            )));
        }
        let home: Arc<Home> = homes.of(folder_of(&self.path), folder_of(&self.path))?;
        Ok(Found {
            shown: knotwright_workspace::shown(&self.path),
            path: self.path.clone(),
            home,
            named: true,
        })
    }

    /// What came in.
    ///
    /// # Errors
    /// It is no text.
    pub(crate) fn text(&self) -> Result<Arc<str>, ReadError> {
        read_from(std::io::stdin().lock())
    }
}

/// The files that `paths` mean, in order.
///
/// # Errors
/// The settings cannot be read, or there is no file to work on.
pub(crate) fn find_all(paths: &[PathBuf], endings: &[&str]) -> Result<Finds, Failure> {
    let finds = find(paths, endings, &Homes::default())?;
    if finds.files.is_empty() && finds.lost.is_empty() {
        let endings: Vec<String> = endings.iter().map(|ending| format!("`.{ending}`")).collect();
        return Err(Failure::said(format_args!(
            "nothing to do: no {} file in there that is neither hidden, ignored nor excluded",
            endings.join(" or ")
        )));
    }
    Ok(finds)
}
