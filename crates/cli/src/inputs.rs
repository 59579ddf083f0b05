//! What a command works on: files and folders, or the standard input.

use crate::terminal::Failure;
use clap::Args;
use knotwright_workspace::{Finds, FoundFile, Home, Homes, ReadError, find_files, folder_of, read_from};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What was typed.
#[derive(Debug, Args)]
pub(crate) struct InputArguments {
    /// Pattern files, folders to search for them, or `-` for standard input
    #[arg(required = true, value_name = "FILE|FOLDER|-")]
    paths: Vec<PathBuf>,

    /// With `-`: the file name to use in reports and to look up settings and `use`
    #[arg(long, value_name = "FILE")]
    stdin_name: Option<PathBuf>,

    /// Leave out what `knotwright.toml` excludes, even if it is named: for hooks, which name every file
    #[arg(long)]
    heed_exclude: bool,
}

impl InputArguments {
    /// As if this one had been typed.
    pub(crate) fn one(path: PathBuf, stdin_name: Option<PathBuf>) -> Self {
        Self { paths: vec![path], stdin_name, heed_exclude: false }
    }
}

/// What is meant.
#[derive(Debug)]
pub(crate) enum Inputs {
    /// What comes in on standard input.
    Stdin(StdinFile),
    /// Files and folders.
    Paths(Paths),
}

/// Files and folders, as they were typed.
#[derive(Debug)]
pub(crate) struct Paths {
    typed: Vec<PathBuf>,
    /// Whether what is excluded is left out even if it was named.
    heed_exclude: bool,
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
                Err(Failure::said("use `-` alone: name either files and folders, or standard input"))
            }
            _ if typed.stdin_name.is_some() => {
                Err(Failure::said("`--stdin-name` needs `-` as the only file"))
            }
            _ => Ok(Self::Paths(Paths { typed: typed.paths, heed_exclude: typed.heed_exclude })),
        }
    }
}

impl StdinFile {
    /// The file as if it were on the disk.
    ///
    /// # Errors
    /// The settings that hold for it cannot be read, or its name is not UTF-8.
    pub(crate) fn found(&self, homes: &Homes) -> Result<FoundFile, Failure> {
        if self.path.to_str().is_none() {
            return Err(Failure::said(format_args!(
                "{}: {}",
                knotwright_workspace::shown_path(&self.path),
                ReadError::Name
            )));
        }
        let home: Arc<Home> = homes.of(folder_of(&self.path), folder_of(&self.path))?;
        Ok(FoundFile {
            shown: knotwright_workspace::shown_path(&self.path),
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

impl Paths {
    /// Files and folders; those that are named are meant.
    pub(crate) fn all(typed: Vec<PathBuf>) -> Self {
        Self { typed, heed_exclude: false }
    }

    /// The files that are meant, in order. There may be none if all that were named are excluded, and that is to be
    /// heeded.
    ///
    /// # Errors
    /// The settings cannot be read, or there is no file to work on.
    pub(crate) fn find(&self, endings: &[&str]) -> Result<Finds, Failure> {
        let mut finds = find_files(&self.typed, endings, &Homes::default())?;
        let all = finds.files.len();
        if self.heed_exclude {
            finds.files.retain(|file| !file.named || !file.home.excludes_file(&file.path));
        }
        if all == 0 && finds.lost.is_empty() {
            let endings: Vec<String> = endings.iter().map(|ending| format!("`.{ending}`")).collect();
            return Err(Failure::said(format_args!(
                "nothing to do: there is no {} file that is not hidden, ignored or excluded",
                endings.join(" or ")
            )));
        }
        Ok(finds)
    }
}
