//! What was looked up, without the file it was read from.

use super::{File, Head, Script, SeenThreads, Slot, ThreadId};
use crate::Source;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};
use smol_str::SmolStr;
use std::sync::Arc;

/// The names of a file that uses no other and in which nothing is wrong.
#[derive(Debug, Clone)]
pub(crate) struct Known {
    head: Head,
    threads: HashMap<SmolStr, ThreadId>,
    motifs: HashMap<SmolStr, Slot>,
    beads: HashMap<SmolStr, u16>,
    thread_names: Vec<SmolStr>,
}

impl Known {
    /// `None` if the file uses others: they may have changed.
    pub(crate) fn of(script: &Script) -> Option<Self> {
        let [File { threads, motifs, beads, .. }] = script.files.as_slice() else { return None };
        let (head, thread_names) = (script.head.clone(), script.thread_names.clone());
        Some(Self {
            head,
            threads: threads.clone(),
            motifs: motifs.clone(),
            beads: beads.clone(),
            thread_names,
        })
    }

    /// These names for the file after an edit that left all that gives them as it was.
    pub(crate) fn script(&self, source: Arc<Source>) -> Script {
        self.script_with(source, HashSet::default())
    }

    /// These names for the file after such an edit, with names that broken statements seem to give.
    pub(crate) fn script_with(&self, source: Arc<Source>, loose: HashSet<SmolStr>) -> Script {
        let Self { head, threads, motifs, beads, thread_names } = self.clone();
        let file = File { source, threads, motifs, beads, loose };
        Script { files: vec![file], head, thread_names, worked: Vec::new(), seen: SeenThreads::default() }
    }
}
