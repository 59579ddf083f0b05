//! Something that is found out once, by whoever asks first.

use std::sync::{Mutex, OnceLock, PoisonError};

/// Found out by whoever asks first, while all others who ask wait for it. If they give it up, the next one finds it out.
#[derive(Debug)]
pub struct FoundOnce<T> {
    found: OnceLock<T>,
    finding: Mutex<()>,
}

impl<T> Default for FoundOnce<T> {
    fn default() -> Self {
        Self { found: OnceLock::new(), finding: Mutex::default() }
    }
}

impl<T> FoundOnce<T> {
    /// What was found, if anybody has found it yet.
    pub fn get(&self) -> Option<&T> {
        self.found.get()
    }

    /// What was found, or what is found now; `None` if that is given up.
    pub fn or_find(&self, find: impl FnOnce() -> Option<T>) -> Option<&T> {
        if let Some(found) = self.found.get() {
            return Some(found);
        }
        // A panic of who was at it before leaves nothing half done.
        let _finding = self.finding.lock().unwrap_or_else(PoisonError::into_inner);
        if self.found.get().is_none() {
            let found = find()?;
            return Some(self.found.get_or_init(|| found));
        }
        self.found.get()
    }

    /// What was found, by value.
    pub fn into_inner(self) -> Option<T> {
        self.found.into_inner()
    }
}
