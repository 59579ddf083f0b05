//! The checked file and the files it uses, each read once, with the motifs that each knows by name.

use super::{ThreadId, nearest::nearest_name, rings::find_rings, salvage};
use crate::facts::Facts;
use crate::{FactKind, FileId, Library, OpenError, Place, Source};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Import, Motif, Name, Text};
use knotwright_numbers::ToNumber;
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};
use smol_str::SmolStr;
use std::sync::Arc;

/// A file with its names.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct File {
    pub(crate) source: Arc<Source>,
    pub(crate) threads: HashMap<SmolStr, ThreadId>,
    pub(crate) motifs: HashMap<SmolStr, Slot>,
    /// By name, the number of a bead in its own file.
    pub(crate) beads: HashMap<SmolStr, u16>,
    /// Names that statements that do not parse seem to give.
    pub(crate) loose: HashSet<SmolStr>,
}

/// What the name of a motif means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Slot {
    /// This one.
    Known(MotifRef),
    /// One that cannot be had; its `use` said why.
    Unknown,
}

/// Where a motif stands: a statement of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) struct MotifRef {
    pub(crate) file: FileId,
    pub(crate) index: usize,
}

/// A `use` that found its file.
struct Link {
    from: usize,
    to: usize,
    path: Text,
    names: Vec<Name>,
}

/// Reads `root` and, by way of `library`, all files that it uses, directly or not.
pub(super) fn load_files(root: Arc<Source>, library: &dyn Library, facts: &mut Facts) -> Vec<File> {
    let numbers = HashMap::from_iter([(root.path.clone(), 0)]);
    let mut loader = Loader { files: vec![file(root)], numbers, links: Vec::new(), library, facts };
    let mut at = 0;
    while at < loader.files.len() {
        loader.own_motifs(at);
        loader.follow(at);
        at += 1;
    }
    loader.join();
    loader.circles();
    loader.files
}

fn file(source: Arc<Source>) -> File {
    let loose = salvage::salvage_names(&source);
    let (threads, motifs, beads) = (HashMap::default(), HashMap::default(), HashMap::default());
    File { source, threads, motifs, beads, loose }
}

/// Of a greater circle of files, no more of their `use` statements are shown.
const MOST_AROUND: usize = 8;

struct Loader<'a> {
    files: Vec<File>,
    /// By path, the number of its file.
    numbers: HashMap<String, usize>,
    links: Vec<Link>,
    library: &'a dyn Library,
    facts: &'a mut Facts,
}

fn place(file: usize, span: Span) -> Place {
    Place { file: FileId(file.to_u32()), span }
}

impl Loader<'_> {
    fn own_motifs(&mut self, at: usize) {
        let source = self.files[at].source.clone();
        for (index, statement) in source.parsed.tree.statements.iter().enumerate() {
            if let Some(motif) = statement.get::<Motif>() {
                let slot = Slot::Known(MotifRef { file: FileId(at.to_u32()), index });
                self.name_motif(at, &motif.name, slot);
            }
        }
    }

    /// Gives a motif its name in file `at`, unless the name is taken.
    fn name_motif(&mut self, at: usize, name: &Name, slot: Slot) {
        if let Some(&taken) = self.files[at].motifs.get(&name.text) {
            // The check of another file reports what is wrong there.
            if at == 0 {
                let first = self.named_at(at, &name.text, taken);
                self.facts.say(place(at, name.span), FactKind::NameTaken { name: name.text.clone(), first });
            }
        } else {
            self.files[at].motifs.insert(name.text.clone(), slot);
        }
    }

    /// Where file `at` gives the motif `name` its name.
    fn named_at(&self, at: usize, name: &SmolStr, slot: Slot) -> Place {
        let statements = &self.files[at].source.parsed.tree.statements;
        if let Slot::Known(MotifRef { file, index }) = slot
            && file.0.to_usize() == at
            && let Some(motif) = statements.get(index).and_then(|statement| statement.get::<Motif>())
        {
            return place(at, motif.name.span);
        }
        let used = statements.iter().filter_map(|statement| statement.get::<Import>());
        let used = used.flat_map(|import| &import.names).find(|used| used.text == *name);
        place(at, used.map(|name| name.span).unwrap_or_default())
    }

    /// Opens what file `at` uses.
    fn follow(&mut self, at: usize) {
        let source = self.files[at].source.clone();
        for statement in &source.parsed.tree.statements {
            let Some(Import { names, path }) = statement.get() else { continue };
            match self.library.open(&source.path, &path.value) {
                Ok(opened) => {
                    let to = self.number_of(opened);
                    self.links.push(Link { from: at, to, path: path.clone(), names: names.clone() });
                }
                Err(error) => {
                    self.facts.say(place(at, path.span), missing(path.value.clone(), error));
                    for name in names {
                        self.name_motif(at, name, Slot::Unknown);
                    }
                }
            }
        }
    }

    fn number_of(&mut self, opened: Arc<Source>) -> usize {
        if let Some(&known) = self.numbers.get(&opened.path) {
            return known;
        }
        let number = self.files.len();
        self.numbers.insert(opened.path.clone(), number);
        self.files.push(file(opened));
        number
    }

    /// Hands the motifs over; only those that are in the used file itself.
    fn join(&mut self) {
        for link in std::mem::take(&mut self.links) {
            for name in &link.names {
                // A file that uses itself is reported as a circle.
                if link.from == link.to {
                    continue;
                }
                let slot = self.own_motif(link.to, &name.text).unwrap_or_else(|| {
                    self.lacks(&link, name);
                    Slot::Unknown
                });
                self.name_motif(link.from, name, slot);
            }
            self.links.push(link);
        }
    }

    fn own_motif(&self, at: usize, name: &SmolStr) -> Option<Slot> {
        let slot = *self.files[at].motifs.get(name)?;
        matches!(slot, Slot::Known(motif) if motif.file.0.to_usize() == at).then_some(slot)
    }

    fn lacks(&mut self, link: &Link, name: &Name) {
        let used = &self.files[link.to];
        if used.loose.contains(&name.text) {
            return;
        }
        let near = nearest_name(&name.text, used.motifs.keys());
        let (path, motif) = (link.path.value.clone(), name.text.clone());
        self.facts.say(place(link.from, name.span), FactKind::ImportLacks { path, motif, nearest: near });
    }

    /// A circle is reported once: at the `use` of the checked file, if it leads back there; else where it closes.
    fn circles(&mut self) {
        let mut next = vec![Vec::new(); self.files.len()];
        for link in &self.links {
            next[link.from].push(link.to);
        }
        let circle = find_rings(&next);
        let mut reported: Vec<usize> = Vec::new();
        for (at, link) in self.links.iter().enumerate() {
            let own = circle[link.from];
            let is_first = circle[link.to] == own && !reported.contains(&own);
            if is_first && (link.from == 0 || own != circle[0]) {
                reported.push(own);
                let is_around = |link: &Link| circle[link.from] == own && circle[link.to] == own;
                let others =
                    self.links.iter().enumerate().filter(|(other, link)| *other != at && is_around(link));
                let others = others.map(|(_, other)| place(other.from, other.path.span)).take(MOST_AROUND);
                let (path, others) = (link.path.value.clone(), others.collect());
                self.facts.say(place(link.from, link.path.span), FactKind::ImportCircular { path, others });
            }
        }
    }
}

fn missing(path: String, error: OpenError) -> FactKind {
    match error {
        OpenError::Missing => FactKind::ImportMissing { path },
        OpenError::Outside => FactKind::ImportOutside { path },
        OpenError::Unreadable(reason) => FactKind::ImportUnreadable { path, reason },
    }
}
