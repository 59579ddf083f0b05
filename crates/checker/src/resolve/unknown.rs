//! Names that stand for nothing. Each is told once, however often it is called.

use super::Script;
use super::nearest::names_alike;
use super::uncalled::{MeantNames, find_uncalled};
use crate::facts::Facts;
use crate::reading::is_library;
use crate::{FactKind, FileId, Place, UnknownName};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Bead, Due, Import, Motif, Name, Thread};
use rustc_hash::FxHashMap as HashMap;
use smol_str::SmolStr;

/// The most that are told.
const MOST_FOUND: usize = 1000;

/// More names in scope than this, in all, are not compared with those that are not there.
const MOST_COMPARED: usize = 100_000;

/// A name that is given, and might have been meant.
#[derive(Debug, Clone, Copy)]
pub(super) struct GivenName<'a> {
    pub(super) name: &'a SmolStr,
    /// Where it is given; `None` if it is surely right as it stands there.
    pub(super) span: Option<Span>,
    /// Up to where it is known; `None`: in all of its file.
    pub(super) end: Option<u32>,
}

/// A call of a name that is not there.
pub(super) struct NameCall<'a> {
    /// What the name must stand for.
    pub(super) due: Due,
    pub(super) name: &'a Name,
    pub(super) file: FileId,
    /// Where the statement at the top of the file begins that it is in.
    pub(super) top: u32,
    /// What it surely says, if that is no name.
    pub(super) said: Option<SmolStr>,
}

/// All such names of the files that are looked through.
#[derive(Default)]
pub(super) struct Unknowns<'a> {
    found: Vec<UnknownCalls<'a>>,
    /// Their numbers.
    known: HashMap<UnknownKey<'a>, usize>,
    compared: usize,
}

struct UnknownCalls<'a> {
    first: NameCall<'a>,
    again: Vec<Place>,
    /// Names in scope that may stand there.
    scope: Vec<GivenName<'a>>,
}

/// Calls with the same key are of one thing.
#[derive(PartialEq, Eq, Hash)]
struct UnknownKey<'a> {
    file: FileId,
    space: NameSpace,
    name: &'a str,
    /// Where the name is given that was meant, or else where the statement begins in which it should be; `None` if that is
    /// the whole file.
    within: Option<u32>,
}

/// Threads, parameters, counting names and labels share one name space; motifs and beads have one each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum NameSpace {
    Strands,
    Beads,
    Motifs,
}

impl NameSpace {
    fn of(due: Due) -> Self {
        match due {
            Due::Thread | Due::Number | Due::Label | Due::Argument => Self::Strands,
            Due::Bead => Self::Beads,
            Due::Motif => Self::Motifs,
        }
    }
}

impl<'a> Unknowns<'a> {
    /// Notes a call; `scope`: the names in scope that may stand there.
    pub(super) fn add(&mut self, call: NameCall<'a>, scope: impl Iterator<Item = GivenName<'a>>) {
        let scope: Vec<GivenName> = if self.compared < MOST_COMPARED { scope.collect() } else { Vec::new() };
        self.compared += scope.len();
        let near = names_alike(&call.name.text, scope.iter().map(|given| given.name));
        let meant = near.first().and_then(|&(_, at)| scope[at].span);
        let key = |within| UnknownKey {
            file: call.file,
            space: NameSpace::of(call.due),
            name: &call.name.text,
            within,
        };
        let (own, of_file) = (key(Some(meant.map_or(call.top, |meant| meant.start))), key(None));
        // A thread is known in the whole file.
        let is_of_file = meant.is_none() && !matches!(call.due, Due::Number | Due::Label);
        let known = self.known.get(&own).or_else(|| self.known.get(&of_file).filter(|_| is_of_file));
        if let Some(&known) = known {
            let place = Place { file: call.file, span: call.name.span };
            return self.found[known].again.push(place);
        }
        if self.found.len() == MOST_FOUND {
            return;
        }
        self.known.insert(if is_of_file { of_file } else { own }, self.found.len());
        self.found.push(UnknownCalls { first: call, again: Vec::new(), scope });
    }

    /// Tells them all.
    pub(super) fn tell(self, script: &'a Script, facts: &mut Facts) {
        let mut of_files = HashMap::default();
        let meant = |unknown: &UnknownCalls<'a>| {
            let NameCall { due, file, .. } = unknown.first;
            let of_file = of_files.entry((file, NameSpace::of(due)));
            unknown.meant(of_file.or_insert_with_key(|&(file, space)| names_of(script, file, space)))
        };
        let mut meant: Vec<MeantNames> = self.found.iter().map(meant).collect();
        let uncalled = find_uncalled(&mut meant, script.source());
        for ((UnknownCalls { first, again, .. }, meant), uncalled) in
            self.found.into_iter().zip(meant).zip(uncalled)
        {
            let NameCall { due, name, file, said, .. } = first;
            let nearest = said.or_else(|| Some(meant.alike.first()?.1.name.clone()));
            let unknown = UnknownName { due, name: name.text.clone(), nearest, again, uncalled };
            facts.say(Place { file, span: name.span }, FactKind::UnknownName(unknown));
        }
    }
}

impl<'a> UnknownCalls<'a> {
    /// What may have been meant, in scope and of the names of the file.
    fn meant(&self, of_file: &[GivenName<'a>]) -> MeantNames<'a> {
        let NameCall { due, name, said, .. } = &self.first;
        if said.is_some() {
            return MeantNames::default();
        }
        let of_file = if matches!(due, Due::Number | Due::Label) { &[] } else { of_file };
        MeantNames::of(&name.text, self.scope.iter().chain(of_file).copied().collect())
    }
}

/// The names of that kind that are known in all of a file.
fn names_of(script: &Script, file: FileId, space: NameSpace) -> Vec<GivenName<'_>> {
    let Some(source) = script.file(file).map(|file| &file.source) else { return Vec::new() };
    // Only the checked file can be mended. What a library lends may be called elsewhere, and a motif that another file has
    // is called there as it is here.
    let is_own = file == FileId::CHECKED && !(space == NameSpace::Motifs && is_library(source));
    let mut names = Vec::new();
    for statement in &source.parsed.tree.statements {
        match space {
            NameSpace::Strands => {
                names.extend(statement.get().map(|Thread { name, .. }| given(name, is_own)))
            }
            NameSpace::Beads => names.extend(statement.get().map(|Bead { name, .. }| given(name, is_own))),
            NameSpace::Motifs => {
                names.extend(statement.get().map(|Motif { name, .. }| given(name, is_own)));
                let fetched = statement.get::<Import>().into_iter().flat_map(|import| &import.names);
                names.extend(fetched.map(|name| given(name, false)));
            }
        }
    }
    names
}

/// A name that is known in all of its file.
fn given(name: &Name, may_be_wrong: bool) -> GivenName<'_> {
    GivenName { name: &name.text, span: may_be_wrong.then_some(name.span), end: None }
}
