//! What is said to a person.

use crate::{Place, Rule};

/// One thing worth saying about a pattern.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The rule it falls under.
    pub rule: &'static Rule,
    /// How grave it is, settings reckoned in.
    pub severity: Severity,
    /// Where it is said.
    pub place: Place,
    /// What was found and what was promised, in one or two sentences.
    pub message: String,
    /// Other places that matter: where the strand was last moved, where the name was given first.
    pub notes: Vec<Note>,
    /// What to do.
    pub help: Option<String>,
    /// Edits that would mend it, the best first.
    pub mends: Vec<Mend>,
}

/// How grave a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// It ties, but surely was not meant so.
    Warning,
    /// It cannot be tied, or was promised and is not so.
    Error,
}

/// A place and what is to be said about it.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// Where.
    pub place: Place,
    /// What.
    pub text: String,
}

/// An edit that would mend a finding.
#[derive(Debug, Clone, PartialEq)]
pub struct Mend {
    /// What it does, in words: "write 4: the set closes then".
    pub title: String,
    /// What to replace; places do not overlap.
    pub edits: Vec<Edit>,
    /// Whether it is the only candidate and all the rest holds then; `check --mend` applies only such.
    pub certain: bool,
}

/// One replacement.
#[derive(Debug, Clone, PartialEq)]
pub struct Edit {
    /// What is replaced; an empty span inserts.
    pub place: Place,
    /// What stands there instead.
    pub text: String,
}
