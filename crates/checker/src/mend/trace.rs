//! Which statements were tied before something went wrong, and in which order.

use rustc_hash::FxHashMap as HashMap;

/// Of each statement of the checked file, when it was last begun.
#[derive(Debug, Default)]
pub(crate) struct Trace {
    begun: HashMap<u32, u64>,
    clock: u64,
}

impl Trace {
    /// The statement that starts at this byte is begun.
    pub(crate) fn note(&mut self, start: u32) {
        self.clock += 1;
        self.begun.insert(start, self.clock);
    }

    /// How many statements were begun after the one at `start`; `None` if it never was.
    pub(crate) fn age(&self, start: u32) -> Option<u64> {
        self.begun.get(&start).map(|begun| self.clock - begun)
    }
}
