//! Texts by the names that git gives them.

use super::{git, not_run};
use knotwright_workspace::{ReadError, read_from};
use std::io::{self, BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Stdio};
use std::sync::Arc;

/// A `git cat-file --batch`, which is asked for one after another.
#[derive(Debug)]
pub(super) struct Blobs {
    child: Child,
    questions: Option<ChildStdin>,
    answers: BufReader<ChildStdout>,
}

impl Blobs {
    /// The texts of the repository in `root`.
    ///
    /// # Errors
    /// In words: git is not there.
    pub(super) fn of(root: &Path) -> Result<Self, String> {
        let mut child = git(root)
            .args(["cat-file", "--batch"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .map_err(not_run)?;
        let questions = child.stdin.take();
        let answers = child.stdout.take().ok_or("git does not answer")?;
        Ok(Self { child, questions, answers: BufReader::with_capacity(64 * 1024, answers) })
    }

    /// The text of that name.
    ///
    /// # Errors
    /// There is none, or it is no text.
    pub(super) fn read(&mut self, name: &str) -> Result<Arc<str>, ReadError> {
        self.ask(name).unwrap_or_else(|error| Err(ReadError::from(error)))
    }

    /// The answer is `NAME blob SIZE`, the bytes and a line feed.
    fn ask(&mut self, name: &str) -> io::Result<Result<Arc<str>, ReadError>> {
        let Some(questions) = &mut self.questions else { return Ok(Err(ReadError::Missing)) };
        questions.write_all(format!("{name}\n").as_bytes())?;
        questions.flush()?;
        let mut head = String::new();
        self.answers.read_line(&mut head)?;
        let size = head.trim_end().rsplit(' ').next().and_then(|size| size.parse::<u64>().ok());
        let Some(size) = size else { return Ok(Err(ReadError::Missing)) };
        let mut content = self.answers.by_ref().take(size);
        let text = read_from(&mut content);
        io::copy(&mut content, &mut io::sink())?;
        self.answers.read_exact(&mut [0])?;
        Ok(text)
    }
}

impl Drop for Blobs {
    /// Without questions it ends.
    fn drop(&mut self) {
        drop(self.questions.take());
        let _ = self.child.wait();
    }
}
