//! A document at one moment, with all that can be asked about it.

use super::{Open, Text};
use crate::client::Facts;
use knotwright_checker::{Report, check};
use knotwright_workspace::Homes;
use std::sync::{Arc, OnceLock};
use tower_lsp::ls_types::Uri;

/// A document at one moment. Whoever holds one is not disturbed by what happens meanwhile.
#[derive(Debug)]
pub(crate) struct Snapshot {
    pub(crate) uri: Uri,
    /// The version as the client counts; none for a file that is not open.
    pub(crate) version: Option<i32>,
    pub(crate) text: Arc<Text>,
    pub(crate) facts: Arc<Facts>,
    pub(crate) known: Arc<Known>,
    pub(crate) homes: Arc<Homes>,
    pub(crate) open: Open,
}

/// What is known about a text; found out once, by whoever needs it first.
#[derive(Debug, Default)]
pub(crate) struct Known(OnceLock<Looked>);

/// A document after somebody looked at it.
#[derive(Debug)]
pub(crate) struct Looked {
    /// Why its settings do not hold, in words.
    pub(crate) trouble: Option<String>,
    /// What the checker says.
    pub(crate) report: Report,
}

impl Snapshot {
    /// What is known about the document.
    pub(crate) fn looked(&self) -> &Looked {
        self.known.0.get_or_init(|| {
            let (around, trouble) = self.look_around();
            let report = check(Arc::clone(self.text.source()), &around, around.settings());
            Looked { trouble, report }
        })
    }

    /// What the checker says of it.
    pub(crate) fn report(&self) -> &Report {
        &self.looked().report
    }
}
