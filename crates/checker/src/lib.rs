//! A parsed pattern is looked up, tied knot for knot, and every promise in it tested.
//!
//! No file is read and nothing is printed here: other files come through a [`Library`], findings leave in a
//! [`Report`].

mod allow;
mod checked;
mod contents;
mod fact;
mod facts;
mod finding;
mod kept;
mod mend;
mod page;
mod pattern;
mod reading;
mod reflection;
mod report;
mod resolve;
mod rule;
pub mod rules;
mod settings;
mod source;
#[cfg(test)]
mod testing;
mod tie;
mod tied;
#[cfg(test)]
mod trial;
mod unrepeated;
mod wording;
mod woven;

pub use checked::Checked;
pub use fact::{Fact, FactKind, Side, Sighting};
pub use finding::{Edit, Finding, Mend, Note, Severity};
pub use kept::Kept;
pub use pattern::{Colorway, Event, Extent, Gauge, Named, Part, Pattern, PatternThread, StartForm, Step};
pub use report::{Report, check, recheck};
pub use resolve::Script;
pub use rule::Rule;
pub use settings::{Level, Settings, SettingsError, SettingsProblem};
pub use source::{FileId, Library, NoLibrary, OpenError, Place, Source};
pub use tie::{Known, Spot, View, Which};
pub use tied::{Tied, tie};
