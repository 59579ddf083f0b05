//! What the warnings look at.

use crate::{Fact, Pattern, Script, Source};

/// A file whose names were looked up and which was tied.
#[derive(Debug, Clone, Copy)]
pub struct Checked<'a> {
    /// The checked file.
    pub source: &'a Source,
    /// Its names.
    pub script: &'a Script,
    /// What was tied; `None` for a library, or if the head does not say enough to tie.
    pub pattern: Option<&'a Pattern>,
    /// What was found to be wrong.
    pub facts: &'a [Fact],
    /// Whether the colors hang after one set as before it; `None` if that is unknown or there is no set.
    pub closes: Option<bool>,
    /// Whether the band is the one that was meant, as far as errors show: there are none.
    pub sound: bool,
}
