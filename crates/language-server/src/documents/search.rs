//! What somebody sees of a search while it goes on, and how it is told that what it found is enough.

use knotwright_editor::Onlooker;
use std::sync::atomic::{AtomicBool, Ordering};
use tokio::sync::watch;

/// The view of one search.
#[derive(Debug, Default)]
pub(crate) struct SearchView {
    is_patient: bool,
    is_content: AtomicBool,
    /// What was found so far; `None` once nothing is searched for any more.
    found: watch::Sender<Option<String>>,
}

impl SearchView {
    /// `is_patient`: whether somebody asked for what is searched for.
    pub(crate) fn new(is_patient: bool) -> Self {
        Self {
            is_patient,
            is_content: AtomicBool::new(false),
            found: watch::Sender::new(Some(String::new())),
        }
    }

    /// From here on, what was found is enough.
    pub(crate) fn settle(&self) {
        self.is_content.store(true, Ordering::Relaxed);
    }

    /// Nothing is searched for any more.
    pub(crate) fn end(&self) {
        self.found.send_replace(None);
    }

    /// What is found, from now on.
    pub(crate) fn follow(&self) -> watch::Receiver<Option<String>> {
        self.found.subscribe()
    }
}

impl Onlooker for SearchView {
    fn is_patient(&self) -> bool {
        self.is_patient
    }

    fn is_content(&self) -> bool {
        self.is_content.load(Ordering::Relaxed)
    }

    fn see(&self, found: &str) {
        self.found.send_if_modified(|now| match now {
            Some(now) => {
                found.clone_into(now);
                true
            }
            None => false,
        });
    }
}
