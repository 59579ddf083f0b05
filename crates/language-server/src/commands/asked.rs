//! From the arguments of a command to the band it is about.

use crate::documents::Snapshot;
use crate::server::Server;
use knotwright_checker::{Pattern, Severity};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::ls_types::{Position, Uri};

/// The request is well formed, and cannot be answered.
const REQUEST_FAILED: i64 = -32803;

/// Of which moment an answer is to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum AnswerMoment {
    /// When it was asked for: a picture is worth seeing also if somebody types meanwhile.
    Asked,
    /// The present: it would mislead if the text is another by now.
    Present,
}

/// The one argument of every command: which band, and what more the command wants to know.
#[derive(Debug, Deserialize)]
struct Asked<T> {
    uri: Uri,
    #[serde(flatten)]
    which: Which,
    #[serde(flatten)]
    more: T,
}

/// Which of several patterns; none said, the first.
#[derive(Debug, Deserialize)]
struct Which {
    position: Option<Position>,
    /// Its name.
    pattern: Option<String>,
}

/// How a command answers: with something to send, or in words why not.
type CommandAnswer<T, A> = fn(&Snapshot, &Pattern, T) -> std::result::Result<A, String>;

impl Server {
    /// Answers a command about a band.
    pub(super) async fn command<T, A>(
        &self,
        arguments: Vec<Value>,
        moment: AnswerMoment,
        answer: CommandAnswer<T, A>,
    ) -> Result<Value>
    where
        T: DeserializeOwned + Send + 'static,
        A: Serialize + Send + 'static,
    {
        let Asked { uri, which, more } = read::<Asked<T>>(arguments)?;
        let answer = move |snapshot: &Snapshot| {
            let snapshot = which.of(snapshot)?;
            let answer = answer(&snapshot, band(&snapshot)?, more).map_err(|why| sentence(&why))?;
            serde_json::to_value(answer).map_err(|error| error.to_string())
        };
        let answered = match moment {
            AnswerMoment::Asked => self.ask_snapshot(&uri, answer).await?,
            AnswerMoment::Present => self.ask(&uri, answer).await?,
        };
        let nowhere = || failed("This document is not open, and not in an open folder.");
        answered.ok_or_else(nowhere)?.map_err(failed)
    }
}

/// Answers a command that is about no band.
pub(super) fn without_band<T: DeserializeOwned, A: Serialize>(
    arguments: Vec<Value>,
    answer: fn(T) -> std::result::Result<A, String>,
) -> Result<Value> {
    let answer = answer(read(arguments)?).map_err(failed)?;
    serde_json::to_value(answer).map_err(|error| failed(error.to_string()))
}

/// Reads the one argument of a command.
pub(super) fn read<T: DeserializeOwned>(arguments: Vec<Value>) -> Result<T> {
    let mut arguments = arguments.into_iter();
    let (Some(first), None) = (arguments.next(), arguments.next()) else {
        return Err(Error::invalid_params("A command takes one argument, an object."));
    };
    serde_json::from_value(first).map_err(|error| {
        Error::invalid_params(format!("The argument of the command is not understood: {error}."))
    })
}

impl Which {
    /// The pattern that is meant; in words why there is none.
    fn of(&self, document: &Snapshot) -> std::result::Result<Snapshot, String> {
        if let Some(position) = self.position {
            return document.at(position).ok_or_else(|| "There is no pattern at this place.".to_owned());
        }
        let title =
            |snapshot: &Snapshot| snapshot.checked().pattern().map(|pattern| pattern.title.text.clone());
        let mut patterns = document.patterns();
        let Some(name) = &self.pattern else {
            return patterns
                .into_iter()
                .next()
                .ok_or_else(|| "There is no pattern in this document.".to_owned());
        };
        match patterns.iter().position(|pattern| title(pattern).as_ref() == Some(name)) {
            Some(found) => Ok(patterns.swap_remove(found)),
            None => Err(format!("No pattern here is called \"{name}\".")),
        }
    }
}

/// The band of a pattern; in words why there is none.
fn band(snapshot: &Snapshot) -> std::result::Result<&Pattern, String> {
    let mut errors = snapshot.findings().iter().filter(|finding| finding.severity == Severity::Error);
    if let Some(first) = errors.next() {
        let line = snapshot.position(first.place.span.start).line + 1;
        let place = if first.place.file.0 == 0 { format!("Line {line}: ") } else { String::new() };
        let more = match errors.count() {
            0 => String::new(),
            1 => " There is one more error.".to_owned(),
            more => format!(" There are {more} more errors."),
        };
        return Err(format!("This does not tie yet. {place}{}{more}", first.message));
    }
    let none = "There is no band in this file: it is a library, whose motifs other files use.";
    snapshot.checked().pattern().ok_or_else(|| none.to_owned())
}

/// An answer for people: what was asked cannot be done.
pub(super) fn failed(message: impl Into<String>) -> Error {
    let message = message.into().into();
    Error { code: ErrorCode::ServerError(REQUEST_FAILED), message, data: None }
}

/// Reasons are parts of sentences elsewhere; here each stands alone.
fn sentence(why: &str) -> String {
    format!("{}.", knotwright_wording::sentence(why).trim_end_matches('.'))
}
