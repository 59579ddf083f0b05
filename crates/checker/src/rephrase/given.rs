//! The names that a file gives, whatever they reach over.

use crate::Source;
use knotwright_grammar::tree::{Child, Due, Gives, Tree};
use rustc_hash::FxHashSet as HashSet;
use smol_str::SmolStr;
use std::cell::OnceCell;

/// Each with what it is the name of.
type Names = HashSet<(Gives, SmolStr)>;

/// Those of a file, which is looked through once, as soon as somebody asks: thousands of its lines may not read.
pub(crate) struct GivenNames<'s> {
    source: &'s Source,
    names: OnceCell<Names>,
}

impl<'s> GivenNames<'s> {
    pub(crate) fn of(source: &'s Source) -> Self {
        Self { source, names: OnceCell::new() }
    }

    pub(crate) fn source(&self) -> &'s Source {
        self.source
    }

    fn names(&self) -> &Names {
        self.names.get_or_init(|| given(&self.source.parsed.tree))
    }

    /// Whether a name may be called there.
    pub(super) fn has(&self, due: Due, name: &str) -> bool {
        has(self.names(), due, name)
    }

    /// Whether a statement that stands by itself calls none but these and its own.
    pub(super) fn are_all_of(&self, statement: &Tree) -> bool {
        let own = given(statement);
        let mut are_all = true;
        for statement in statement.walk() {
            statement.node.children(&mut |child| {
                if let Child::Calls(due, name) = child {
                    are_all &= has(&own, due, &name.text) || self.has(due, &name.text);
                }
            });
        }
        are_all
    }
}

fn has(names: &Names, due: Due, name: &str) -> bool {
    let given: &[Gives] = match due {
        // Of a parameter, only the tie knows what it stands for.
        Due::Thread | Due::Number | Due::Argument => &[Gives::Thread, Gives::Parameter, Gives::Counter],
        Due::Label => &[Gives::Label],
        Due::Bead => &[Gives::Bead],
        Due::Motif => &[Gives::Motif, Gives::Import],
    };
    given.iter().any(|&given| names.contains(&(given, SmolStr::new(name))))
}

fn given(tree: &Tree) -> Names {
    let mut names = Names::default();
    for statement in tree.walk() {
        statement.node.children(&mut |child| {
            if let Child::Gives(what, name) = child {
                names.insert((what, name.text.clone()));
            }
        });
    }
    names
}
