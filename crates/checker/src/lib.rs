//! A parsed pattern is looked up, tied knot for knot, and every promise in it tested.
//!
//! No file is read and nothing is printed here: other files come through a [`Library`], findings leave in a
//! [`Report`].

mod allow;
mod analysis;
mod checked;
mod contents;
mod draft;
mod ends_trouble;
mod expected_words;
mod faces;
mod fact;
mod facts;
mod finders;
mod finding;
mod given_up;
mod held;
mod joins;
mod kept;
mod language_codes;
mod listener;
mod marks;
mod mend;
mod name_stack;
mod neighbors;
mod once;
mod other_unit;
mod page;
mod part;
mod pattern;
mod phrase;
mod reading;
mod reflection;
mod rephrase;
mod report;
mod resolve;
mod rule;
pub mod rules;
mod said;
mod settings;
mod source;
#[cfg(test)]
mod testing;
mod tie;
#[cfg(test)]
mod trial;
mod uneven;
mod unread;
mod unrepeated;
mod wording;
mod worked_at;
mod woven;

pub use analysis::{Analysis, FirstFindings, analyze};
pub use checked::Checked;
pub use draft::Draft;
pub use ends_trouble::EndsTrouble;
pub use expected_words::expected_words;
pub use fact::{
    ColorLengthTrouble, Fact, FactKind, JoinSetTrouble, MoreKnots, Side, Sighting, ThreadOrders, Uncalled,
    UnknownName,
};
pub use finding::{Edit, Finding, Mend, Note, Severity};
pub use given_up::GivenUp;
pub use held::{Held, USUAL_ENDS, USUAL_LENGTH};
pub use listener::Listener;
pub use part::{Event, JoinedStrand, Named, Part, PartKind, Step};
pub use pattern::{Colorway, Extent, Pattern, PatternBead, PatternThread, Shade, StartForm};
pub use phrase::{Phrase, Translations, USUAL_LANGUAGE};
pub use report::{Report, analyze_small, check, check_small};
pub use resolve::{BeadInTheWay, Script};
pub use rule::{Rule, Tag};
pub use settings::{FolderSettings, Level, Levels, Settings, SettingsError, SettingsFile, SettingsProblem};
pub use source::{FileId, Library, NoLibrary, OpenError, Place, Source};
pub use tie::{Known, Spot, View};
