//! The checked file and the files it uses, each read once, with the motifs that each knows by name.

use super::{ThreadId, nearest::nearest, salvage};
use crate::facts::Facts;
use crate::{FactKind, FileId, Library, OpenError, Place, Source};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Name, Node, Text};
use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};
use smol_str::SmolStr;
use std::sync::Arc;

/// A file with its names.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct File {
    pub(crate) source: Arc<Source>,
    pub(crate) threads: HashMap<SmolStr, ThreadId>,
    pub(crate) motifs: HashMap<SmolStr, Slot>,
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
pub(super) fn load(root: Arc<Source>, library: &dyn Library, facts: &mut Facts) -> Vec<File> {
    let mut loader = Loader { files: vec![file(root)], links: Vec::new(), library, facts };
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
    let loose = salvage::names(&source);
    File { source, threads: HashMap::default(), motifs: HashMap::default(), loose }
}

struct Loader<'a> {
    files: Vec<File>,
    links: Vec<Link>,
    library: &'a dyn Library,
    facts: &'a mut Facts,
}

fn place(file: usize, span: Span) -> Place {
    Place { file: FileId(file as u32), span }
}

impl Loader<'_> {
    fn own_motifs(&mut self, at: usize) {
        let source = self.files[at].source.clone();
        for (index, statement) in source.parsed.tree.statements.iter().enumerate() {
            if let Node::Motif(motif) = &statement.node {
                let slot = Slot::Known(MotifRef { file: FileId(at as u32), index });
                self.name_motif(at, &motif.name, slot);
            }
        }
    }

    /// Gives a motif its name in file `at`, unless the name is taken.
    fn name_motif(&mut self, at: usize, name: &Name, slot: Slot) {
        if let Some(&taken) = self.files[at].motifs.get(&name.text) {
            // Of another file its own check tells.
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
            && file.0 as usize == at
            && let Some(Node::Motif(motif)) = statements.get(index).map(|statement| &statement.node)
        {
            return place(at, motif.name.span);
        }
        let used = statements.iter().find_map(|statement| match &statement.node {
            Node::Use { names, .. } => names.iter().find(|used| used.text == *name),
            _ => None,
        });
        place(at, used.map(|name| name.span).unwrap_or_default())
    }

    /// Opens what file `at` uses.
    fn follow(&mut self, at: usize) {
        let source = self.files[at].source.clone();
        for statement in &source.parsed.tree.statements {
            let Node::Use { names, path } = &statement.node else { continue };
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
        if let Some(known) = self.files.iter().position(|file| file.source.path == opened.path) {
            return known;
        }
        self.files.push(file(opened));
        self.files.len() - 1
    }

    /// Hands the motifs over; only those that stand in the used file itself.
    fn join(&mut self) {
        for link in std::mem::take(&mut self.links) {
            for name in &link.names {
                // A file that uses itself is told of as a circle.
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
        matches!(slot, Slot::Known(motif) if motif.file.0 as usize == at).then_some(slot)
    }

    fn lacks(&mut self, link: &Link, name: &Name) {
        let used = &self.files[link.to];
        if used.loose.contains(&name.text) {
            return;
        }
        let near = nearest(&name.text, used.motifs.keys());
        let (path, motif) = (link.path.value.clone(), name.text.clone());
        self.facts.say(place(link.from, name.span), FactKind::ImportLacks { path, motif, nearest: near });
    }

    /// A circle is told at the `use` of the checked file, if it leads back there; else where it closes.
    fn circles(&mut self) {
        let mut next = vec![Vec::new(); self.files.len()];
        for link in &self.links {
            next[link.from].push(link.to);
        }
        let mut known: HashMap<usize, HashSet<usize>> = HashMap::default();
        for link in &self.links {
            let reached = known.entry(link.to).or_insert_with(|| reached(link.to, &next));
            if reached.contains(&link.from) && (link.from == 0 || !reached.contains(&0)) {
                let path = link.path.value.clone();
                self.facts.say(place(link.from, link.path.span), FactKind::ImportCircular { path });
            }
        }
    }
}

fn reached(start: usize, next: &[Vec<usize>]) -> HashSet<usize> {
    let mut reached = HashSet::from_iter([start]);
    let mut open = vec![start];
    while let Some(at) = open.pop() {
        for &to in &next[at] {
            if reached.insert(to) {
                open.push(to);
            }
        }
    }
    reached
}

fn missing(path: String, error: OpenError) -> FactKind {
    match error {
        OpenError::Missing => FactKind::ImportMissing { path },
        OpenError::Outside => FactKind::ImportOutside { path },
        OpenError::Unreadable(reason) => FactKind::ImportUnreadable { path, reason },
    }
}
