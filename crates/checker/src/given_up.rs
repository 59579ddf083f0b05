//! Whether anybody still waits for an answer.

use std::fmt;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

type IsGivenUp = dyn Fn() -> bool + Send + Sync;

/// Tells whoever looks for an answer when nobody waits for it anymore. Then the search ends soon, and what it found so far
/// is of no use. Clones are of one search: once it was given up, it stays so.
#[derive(Clone, Default)]
pub struct GivenUp(Option<Search>);

#[derive(Clone)]
struct Search {
    is_given_up: Arc<IsGivenUp>,
    is_over: Arc<AtomicBool>,
}

impl GivenUp {
    /// Somebody waits to the end.
    pub const NEVER: Self = Self(None);

    /// Given up as soon as that is so. It is asked often, and must answer at once.
    pub fn when(is_given_up: impl Fn() -> bool + Send + Sync + 'static) -> Self {
        Self(Some(Search { is_given_up: Arc::new(is_given_up), is_over: Arc::default() }))
    }

    /// The question whether somebody waits, for another search: it was not given up yet.
    pub fn again(&self) -> Self {
        Self(self.0.as_ref().map(|search| Search { is_over: Arc::default(), ..search.clone() }))
    }

    /// Whether this search was given up.
    pub fn is_so(&self) -> bool {
        self.0.as_ref().is_some_and(|search| {
            let is_over = search.is_over.load(Ordering::Relaxed) || (search.is_given_up)();
            if is_over {
                search.is_over.store(true, Ordering::Relaxed);
            }
            is_over
        })
    }
}

impl fmt::Debug for GivenUp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("GivenUp").field(&self.is_so()).finish()
    }
}
