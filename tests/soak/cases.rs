//! What is tried: each case is plain data, so that one that fails is a small file.

use crate::{program, texts, typed, wire};
use serde::{Deserialize, Serialize};
use std::panic::{AssertUnwindSafe, catch_unwind};

/// One attempt.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub(crate) enum Case {
    /// A document that is edited step by step, and the same text opened afresh.
    Typed { encoding: String, page: bool, start: String, changes: Vec<Change> },
    /// Two files of which one uses the other, both edited.
    Pair { encoding: String, changes: Vec<(bool, Change)> },
    /// A pattern that is parsed, checked and formatted.
    Text { text: String },
    /// A page of Markdown.
    Page { text: String },
    /// Settings.
    Settings { text: String },
    /// Two patterns that are compared.
    Compare { one: String, other: String },
    /// Bytes that reach a language server.
    Wire { bytes: Vec<u8> },
    /// A run of the program in a folder with these files.
    Program { files: Vec<HostileFile>, arguments: Vec<String> },
}

/// This many characters, from one on, are replaced.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Change {
    pub(crate) from: usize,
    pub(crate) length: usize,
    pub(crate) text: String,
}

/// A file with a name and a content that may be no text.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct HostileFile {
    pub(crate) name: Vec<u8>,
    pub(crate) content: HostileContent,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum HostileContent {
    Bytes(Vec<u8>),
    /// A symbolic link.
    Link(String),
    Folder,
    Pipe,
}

impl Case {
    /// Tries it; the error says what is wrong. A panic is wrong, too.
    pub(crate) fn attempt(&self) -> Result<(), String> {
        catch_unwind(AssertUnwindSafe(|| self.run())).unwrap_or_else(|panic| {
            let text = panic.downcast_ref::<String>().cloned();
            Err(text
                .or_else(|| panic.downcast_ref::<&str>().map(|&text| text.to_owned()))
                .unwrap_or_default())
        })
    }

    fn run(&self) -> Result<(), String> {
        match self {
            Self::Typed { encoding, page, start, changes } => typed::one(encoding, *page, start, changes),
            Self::Pair { encoding, changes } => typed::pair(encoding, changes),
            Self::Text { text } => texts::text(text),
            Self::Page { text } => texts::page(text),
            Self::Settings { text } => texts::settings(text),
            Self::Compare { one, other } => texts::compare(one, other),
            Self::Wire { bytes } => wire::bytes(bytes),
            Self::Program { files, arguments } => program::run(files, arguments),
        }
    }

    /// Cases that are a little smaller.
    pub(crate) fn smaller(&self) -> Vec<Self> {
        let mut cases = Vec::new();
        match self {
            Self::Typed { encoding, page, start, changes } => {
                for fewer in shorter(changes) {
                    let (encoding, start) = (encoding.clone(), start.clone());
                    cases.push(Self::Typed { encoding, page: *page, start, changes: fewer });
                }
            }
            Self::Pair { encoding, changes } => {
                let fewer = shorter(changes).into_iter();
                cases.extend(fewer.map(|changes| Self::Pair { encoding: encoding.clone(), changes }));
            }
            Self::Text { text } => cases.extend(fewer_lines(text).map(|text| Self::Text { text })),
            Self::Page { text } => cases.extend(fewer_lines(text).map(|text| Self::Page { text })),
            Self::Settings { text } => cases.extend(fewer_lines(text).map(|text| Self::Settings { text })),
            Self::Compare { one, other } => {
                cases.extend(fewer_lines(one).map(|one| Self::Compare { one, other: other.clone() }));
                cases.extend(fewer_lines(other).map(|other| Self::Compare { one: one.clone(), other }));
            }
            Self::Wire { bytes } => {
                cases.extend(shorter(bytes).into_iter().map(|bytes| Self::Wire { bytes }))
            }
            Self::Program { files, arguments } => {
                let fewer = shorter(files).into_iter();
                cases.extend(fewer.map(|files| Self::Program { files, arguments: arguments.clone() }));
            }
        }
        cases
    }
}

/// The list without a half, a quarter, ... of it, and without each single one if it is short.
fn shorter<T: Clone>(list: &[T]) -> Vec<Vec<T>> {
    let mut found = Vec::new();
    let mut size = list.len() / 2;
    while size > 0 {
        for start in (0..list.len()).step_by(size).take(64) {
            let end = (start + size).min(list.len());
            found.push([&list[..start], &list[end..]].concat());
        }
        size /= 2;
    }
    found
}

fn fewer_lines(text: &str) -> impl Iterator<Item = String> {
    let lines: Vec<&str> = text.split_inclusive('\n').collect();
    shorter(&lines).into_iter().map(|lines| lines.concat())
}
