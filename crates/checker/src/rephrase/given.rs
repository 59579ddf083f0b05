//! The names that a file gives, whatever they reach over.

use crate::Source;
use knotwright_grammar::tree::{Child, Due, Gives, Tree};

/// Each with what it is the name of.
pub(super) struct GivenNames<'s>(Vec<(Gives, &'s str)>);

impl<'s> GivenNames<'s> {
    pub(super) fn of(source: &'s Source) -> Self {
        Self(given(&source.parsed.tree))
    }

    /// With those of a statement that is written otherwise.
    pub(super) fn with<'t>(mut self, tree: &'t Tree) -> Self
    where
        't: 's,
    {
        self.0.extend(given(tree));
        self
    }

    /// Whether a name may be called there.
    pub(super) fn has(&self, due: Due, name: &str) -> bool {
        self.0.iter().any(|&(gives, own)| own == name && is_due(gives, due))
    }

    pub(super) fn has_motif(&self, name: &str) -> bool {
        self.has(Due::Motif, name)
    }
}

fn is_due(gives: Gives, due: Due) -> bool {
    match due {
        // Of a parameter, only the tie knows what it stands for.
        Due::Thread | Due::Number | Due::Argument => {
            matches!(gives, Gives::Thread | Gives::Parameter | Gives::Counter)
        }
        Due::Label => gives == Gives::Label,
        Due::Bead => gives == Gives::Bead,
        Due::Motif => matches!(gives, Gives::Motif | Gives::Import),
    }
}

fn given(tree: &Tree) -> Vec<(Gives, &str)> {
    let mut names = Vec::new();
    for statement in tree.walk() {
        statement.node.children(&mut |child| {
            if let Child::Gives(what, name) = child {
                names.push((what, name.text.as_str()));
            }
        });
    }
    names
}
