//! The other files of a workspace, as far as names lead there.

use crate::Checked;
use crate::names::{NameIndex, NameSort};
use knotwright_checker::{Library, Source};
use knotwright_grammar::Span;
use knotwright_grammar::tree::Import;
use std::sync::Arc;

/// All files of a workspace that are known, and how paths in them are followed.
#[derive(Clone, Copy)]
pub struct World<'a> {
    /// The files; the one that is asked about may be among them.
    pub files: &'a [Arc<Source>],
    /// Where paths in `use` lead.
    pub library: &'a dyn Library,
    /// Whether somebody still waits for the answer. If nobody does, whatever is answered is thrown away: long work stops.
    pub is_wanted: &'a dyn Fn() -> bool,
    /// Who looks on while something is searched for.
    pub onlooker: &'a dyn Onlooker,
}

/// Somebody who looks on while something is searched for, or nobody.
pub trait Onlooker {
    /// Whether it was asked for, so that it may take longer than what is looked up wherever the cursor goes.
    fn is_patient(&self) -> bool;
    /// Whether what was found so far is enough.
    fn is_content(&self) -> bool;
    /// What was found so far, in words.
    fn see(&self, found: &str);
}

/// Nobody looks on.
#[derive(Debug, Clone, Copy, Default)]
pub struct Nobody;

impl Onlooker for Nobody {
    fn is_patient(&self) -> bool {
        false
    }

    fn is_content(&self) -> bool {
        false
    }

    fn see(&self, _: &str) {}
}

/// A place in some file.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct FilePlace {
    /// The file's path, as its source has it.
    pub path: String,
    /// Where.
    pub span: Span,
}

/// A replacement in some file.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct FileEdit {
    /// The file's path, as its source has it.
    pub path: String,
    /// What is replaced.
    pub span: Span,
    /// What is there instead.
    pub text: String,
}

/// A name, and where it is in one file.
pub(crate) struct NameStands {
    pub(crate) source: Arc<Source>,
    /// Where, and whether it is given there.
    pub(crate) spans: Vec<(Span, bool)>,
}

/// Where the symbol under the cursor stands, in this file and, for a motif, in all others.
pub(crate) fn everywhere(checked: &Checked, world: &World, symbol: usize) -> Vec<NameStands> {
    let names = checked.names();
    let found = &names.symbols()[symbol];
    if found.sort != NameSort::Motif {
        return vec![stands(checked.source(), names, symbol)];
    }
    let Some(home) = home(checked, symbol) else { return vec![stands(checked.source(), names, symbol)] };
    let mut all: Vec<Arc<Source>> = vec![Arc::clone(checked.source())];
    for file in std::iter::once(&home).chain(world.files) {
        if !all.iter().any(|known| known.path == file.path) {
            all.push(Arc::clone(file));
        }
    }
    let wanted = all.iter().take_while(|_| (world.is_wanted)());
    wanted.filter_map(|file| in_file(file, &home, &found.name, world)).collect()
}

/// The file in which a motif stands.
fn home(checked: &Checked, symbol: usize) -> Option<Arc<Source>> {
    match checked.names().symbols()[symbol].from {
        None => Some(Arc::clone(checked.source())),
        Some(number) => checked.uses().get(number)?.source.clone(),
    }
}

/// Where a motif of `home` is in another file.
fn in_file(file: &Arc<Source>, home: &Source, name: &str, world: &World) -> Option<NameStands> {
    if file.path != home.path && !uses(file, home, name, world) {
        return None;
    }
    let names = NameIndex::of(file);
    let symbol = names.motif(name)?;
    Some(stands(file, &names, symbol))
}

/// Whether `file` has a `use` that brings this motif of `home`.
fn uses(file: &Source, home: &Source, name: &str, world: &World) -> bool {
    let mut uses = file.parsed.tree.statements.iter().filter_map(|statement| statement.get());
    uses.any(|Import { names, path }| {
        names.iter().any(|used| used.text == name)
            && world.library.open(&file.path, &path.value).is_ok_and(|opened| opened.path == home.path)
    })
}

fn stands(source: &Arc<Source>, names: &NameIndex, symbol: usize) -> NameStands {
    let spans = names.mentions_of(symbol).map(|mention| (mention.span, mention.gives)).collect();
    NameStands { source: Arc::clone(source), spans }
}
