//! Names are looked up: files, threads, motifs, and all that the head says.
//!
//! The result, a [`Script`], owns its sources and can be tied as often as wanted without reading text again.
//! Whatever is wrong here is said once, here; the tie stays silent about names.

pub(crate) mod beads;
mod cycles;
mod ends;
mod files;
mod head;
mod known;
mod lists;
mod measures;
mod names;
mod nearest;
mod rings;
mod salvage;
mod shades;
mod start;
#[cfg(test)]
mod tests;
mod threads;
mod uncalled;
mod unknown;

pub use beads::BeadInTheWay;
pub(crate) use files::{File, MotifRef, Slot};
pub(crate) use head::Head;
pub(crate) use known::Known;
pub(crate) use lists::{Spread, is_uneven, spread_list};
pub(crate) use names::check_part as names_in;
pub(crate) use nearest::nearest_word;
pub(crate) use salvage::salvage_names_in;

use crate::facts::Facts;
use crate::{FileId, Library, PatternThread, Place, Source};
use knotwright_color::Seen;
use knotwright_grammar::tree::{Motif, Statement};
use knotwright_numbers::ToNumber;
use smol_str::SmolStr;
use std::fmt;
use std::sync::{Arc, OnceLock};

/// A thread by its number: first those of the checked file, then those of the files it uses.
pub(crate) type ThreadId = u16;

/// A thread whose name says nothing; it is taken for whatever is promised.
pub(crate) const UNKNOWN_THREAD: ThreadId = ThreadId::MAX;

/// A file whose names are looked up, with the files it uses.
#[derive(Clone, PartialEq)]
pub struct Script {
    pub(crate) files: Vec<File>,
    pub(crate) head: Head,
    /// The names of all threads, those of used files too.
    pub(crate) thread_names: Vec<SmolStr>,
    /// The motifs of other files that are worked, directly or not.
    pub(crate) worked: Vec<MotifRef>,
    seen: SeenThreads,
}

/// How the threads of the checked file look, and those of each colorway, computed once: many bands are looked at in a search
/// for mends.
#[derive(Clone, Default)]
struct SeenThreads {
    threads: OnceLock<Vec<Seen>>,
    colorways: OnceLock<Vec<Vec<Seen>>>,
}

/// It follows from all the rest.
impl PartialEq for SeenThreads {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl fmt::Debug for Script {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_list().entries(self.files.iter().map(|file| &file.source.path)).finish()
    }
}

fn see(threads: &[PatternThread]) -> Vec<Seen> {
    threads.iter().map(|thread| Seen::by_all(thread.color)).collect()
}

impl Script {
    /// The checked file.
    pub fn source(&self) -> &Arc<Source> {
        &self.files[0].source
    }

    /// By thread of the checked file, how its color looks to all eyes.
    pub(crate) fn seen_threads(&self) -> &[Seen] {
        self.seen.threads.get_or_init(|| see(&self.head.threads))
    }

    /// By colorway, the same.
    pub(crate) fn seen_colorways(&self) -> &[Vec<Seen>] {
        let colorways = || self.head.colorways.iter().map(|colorway| see(&colorway.threads)).collect();
        self.seen.colorways.get_or_init(colorways)
    }

    /// The checked file first, then those it uses.
    pub fn sources(&self) -> impl Iterator<Item = &Arc<Source>> {
        self.files.iter().map(|file| &file.source)
    }

    /// The motif that `name` means in `file`, and the file it is in.
    pub fn motif(&self, file: FileId, name: &str) -> Option<(FileId, &Motif)> {
        match self.file(file)?.motifs.get(name)? {
            Slot::Known(motif) => Some((motif.file, self.motif_at(*motif)?)),
            Slot::Unknown => None,
        }
    }

    /// Where the motifs of other files stand that are worked.
    pub(crate) fn worked_places(&self) -> impl Iterator<Item = Place> + '_ {
        self.worked.iter().filter_map(|motif| {
            let statement = self.statement(motif.file, motif.index)?;
            Some(Place { file: motif.file, span: statement.span })
        })
    }

    pub(crate) fn file(&self, file: FileId) -> Option<&File> {
        self.files.get(file.0.to_usize())
    }

    pub(crate) fn motif_at(&self, motif: MotifRef) -> Option<&Motif> {
        self.statement_at(motif)?.get()
    }

    /// The statement of a motif.
    pub(crate) fn statement_at(&self, motif: MotifRef) -> Option<&Statement> {
        self.statement(motif.file, motif.index)
    }

    fn statement(&self, file: FileId, index: usize) -> Option<&Statement> {
        self.file(file)?.source.parsed.tree.statements.get(index)
    }

    pub(crate) fn thread(&self, file: FileId, name: &str) -> Option<ThreadId> {
        self.file(file)?.threads.get(name).copied()
    }

    /// The number of a bead of a file.
    pub(crate) fn bead(&self, file: FileId, name: &str) -> Option<u16> {
        self.file(file)?.beads.get(name).copied()
    }

    /// The beads of the checked file.
    pub(crate) fn beads(&self) -> beads::KnownBeads<'_> {
        beads::KnownBeads { beads: &self.head.beads, thickness: self.head.gauge.thickness }
    }

    pub(crate) fn thread_name(&self, thread: ThreadId) -> SmolStr {
        self.thread_names.get(usize::from(thread)).cloned().unwrap_or_default()
    }
}

/// Looks up all that `source` names.
pub(crate) fn resolve(source: Arc<Source>, library: &dyn Library, facts: &mut Facts) -> Script {
    let mut files = files::load_files(source, library, facts);
    let mut thread_names = Vec::new();
    let (mut own, mut own_beads) = (Vec::new(), Vec::new());
    for (number, file) in files.iter_mut().enumerate() {
        let (tree, id) = (&file.source.parsed.tree, FileId(number.to_u32()));
        let found = threads::read_threads(tree, id, facts);
        file.threads = threads::number_threads(&found, &mut thread_names);
        let beads = beads::read_beads(tree, id, facts);
        file.beads = beads::number_beads(&beads);
        if number == 0 {
            (own, own_beads) = (found, beads);
        }
    }
    let head = head::read_head(&files[0], own, own_beads, facts);
    let mut script = Script { files, head, thread_names, worked: Vec::new(), seen: SeenThreads::default() };
    script.worked = names::check_names(&script, facts);
    cycles::check_cycles(&script, facts);
    script
}
