//! Who waits for what is being found out about a text.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError, Weak};

/// The questions about one version of a text. What it takes long to find out, one finds out for all, and ends as soon as
/// none of them waits.
#[derive(Debug, Default)]
pub(super) struct Askers(Mutex<Vec<Weak<AtomicBool>>>);

impl Askers {
    /// One more question is asked; `given_up` is set once nobody waits for its answer.
    pub(super) fn join(&self, given_up: &Arc<AtomicBool>) {
        let mut askers = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        askers
            .retain(|asker| asker.strong_count() > 0 && !std::ptr::eq(asker.as_ptr(), Arc::as_ptr(given_up)));
        askers.push(Arc::downgrade(given_up));
    }

    /// Whether nobody waits anymore.
    pub(super) fn are_gone(&self) -> bool {
        let askers = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let waits = |given_up: Arc<AtomicBool>| !given_up.load(Ordering::Relaxed);
        !askers.iter().filter_map(Weak::upgrade).any(waits)
    }
}
