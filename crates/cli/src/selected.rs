//! Some of the files: those of a change, those that fall to one machine of many.

use crate::changed::GitChanges;
use crate::terminal::Failure;
use clap::Args;
use knotwright_workspace::FoundFile;
use std::str::FromStr;

/// What was typed where a file stands for itself.
#[derive(Debug, Args)]
pub(crate) struct ChangedArguments {
    /// Only files that are not as they were where this branch left REV, committed or not
    #[arg(long, value_name = "REV")]
    changed: Option<String>,
}

impl ChangedArguments {
    /// Whether nothing is left out.
    pub(crate) fn is_all(&self) -> bool {
        self.changed.is_none()
    }

    /// Those of `files` that are meant, in order. There may be none, and that is no fault.
    ///
    /// # Errors
    /// What changed cannot be found out.
    pub(crate) fn of(&self, files: Vec<FoundFile>) -> Result<Vec<FoundFile>, Failure> {
        let Some(revision) = &self.changed else { return Ok(files) };
        Ok(GitChanges::since(revision, &files).map_err(Failure::said)?.themselves_among(files))
    }
}

/// What was typed where others may depend on a file.
#[derive(Debug, Args)]
pub(crate) struct SelectionArguments {
    /// Only files that changed since this branch left REV, committed or not, and files that use them; all files
    /// below a `knotwright.toml` that changed
    #[arg(long, value_name = "REV")]
    changed: Option<String>,

    /// Only part I of N, to spread the files over several machines; each file is in the same part every time
    #[arg(long, value_name = "I/N")]
    shard: Option<Shard>,
}

/// What is meant.
#[derive(Debug)]
pub(crate) struct Selection {
    changed: Option<String>,
    shard: Option<Shard>,
}

impl From<SelectionArguments> for Selection {
    fn from(typed: SelectionArguments) -> Self {
        Self { changed: typed.changed, shard: typed.shard }
    }
}

impl Selection {
    /// Whether nothing is left out.
    pub(crate) fn is_all(&self) -> bool {
        self.changed.is_none() && self.shard.is_none()
    }

    /// Those of `files` that are meant, in order. There may be none, and that is no fault.
    ///
    /// # Errors
    /// What changed cannot be found out.
    pub(crate) fn of(&self, mut files: Vec<FoundFile>) -> Result<Vec<FoundFile>, Failure> {
        if let Some(revision) = &self.changed {
            files = GitChanges::since(revision, &files).map_err(Failure::said)?.among(files);
        }
        Ok(match self.shard {
            Some(shard) => shard.of(files),
            None => files,
        })
    }
}

/// One of several equal parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Shard {
    /// From 1.
    number: usize,
    /// How many parts there are.
    parts: usize,
}

impl Shard {
    /// Dealt out like cards: neighbors, which are often alike in size, go to different machines.
    fn of<T>(self, items: Vec<T>) -> Vec<T> {
        items.into_iter().skip(self.number - 1).step_by(self.parts).collect()
    }
}

impl FromStr for Shard {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let numbers = text.split_once('/').and_then(|(number, parts)| {
            Some(Self { number: number.parse().ok()?, parts: parts.parse().ok()? })
        });
        match numbers {
            Some(shard) if (1..=shard.parts).contains(&shard.number) => Ok(shard),
            Some(shard) => {
                Err(format!("machine {} of {} is none; they are counted from 1", shard.number, shard.parts))
            }
            None => Err("write which machine of how many: `2/5`".to_owned()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_falls_to_one_machine_and_none_has_two_more_than_another() {
        let files: Vec<usize> = (0..23).collect();
        for parts in 1..30 {
            let dealt: Vec<Vec<usize>> =
                (1..=parts).map(|number| Shard { number, parts }.of(files.clone())).collect();
            let mut all = dealt.concat();
            all.sort_unstable();
            assert_eq!(all, files);
            let sizes = || dealt.iter().map(Vec::len);
            assert!(sizes().max().unwrap() - sizes().min().unwrap() <= 1);
        }
    }

    #[test]
    fn a_machine_that_is_none_is_refused() {
        assert_eq!("2/5".parse(), Ok(Shard { number: 2, parts: 5 }));
        for bad in
            ["0/5", "6/5", "0/0", "1/0", "5", "", "/", "1/2/3", "-1/2", "a/b", "1/99999999999999999999999"]
        {
            assert!(bad.parse::<Shard>().is_err(), "{bad}");
        }
    }
}
