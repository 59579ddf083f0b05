//! A parsed pattern is looked up, tied knot for knot, and every promise in it tested.
//!
//! No file is read and nothing is printed here: other files come through a [`Library`], findings leave in a
//! [`Report`].

mod fact;
mod finding;
mod pattern;
mod rule;
pub mod rules;
mod source;
mod wording;

pub use fact::{Fact, FactKind, Side, Sighting};
pub use finding::{Edit, Finding, Mend, Note, Severity};
pub use pattern::{Colorway, Event, Extent, Gauge, Named, Part, Pattern, PatternThread, StartForm, Step};
pub use rule::Rule;
pub use source::{FileId, Library, NoLibrary, OpenError, Place, Source};

use std::sync::Arc;

/// All that is known about one file.
#[derive(Debug, Clone)]
pub struct Report {
    /// The checked file first, then those it uses.
    pub files: Vec<Arc<Source>>,
    /// In order of place.
    pub findings: Vec<Finding>,
    /// The tied pattern; `None` for a library, or if the head does not say enough to tie.
    pub pattern: Option<Pattern>,
}
