//! The colors of the words of a text, handed on from version to version: after an edit only those in the lines that were
//! read again are looked up.

use knotwright_grammar::Splice;
use std::sync::{Arc, OnceLock};
use tower_lsp::ls_types::SemanticToken;

/// The colors of the words of a text.
#[derive(Debug, Clone)]
pub(crate) struct WordColors {
    /// Each token, counted from where the one before begins.
    pub(crate) tokens: Arc<Vec<SemanticToken>>,
    /// How many lines the text has.
    pub(crate) lines: u32,
}

/// Those of an earlier version.
#[derive(Debug, Clone)]
pub(crate) struct EarlierColors {
    pub(crate) colors: WordColors,
    /// The lines that were read again since, as bytes of the text then and now; all others have the colors that they had.
    pub(crate) read: Splice,
}

/// What is known of the colors of one version.
#[derive(Debug, Default)]
pub(super) struct KnownColors {
    now: OnceLock<WordColors>,
    earlier: OnceLock<EarlierColors>,
}

impl KnownColors {
    /// What is known, for the next version.
    pub(super) fn hand_on(&self) -> Option<EarlierColors> {
        let now = self.now.get().map(|colors| EarlierColors { colors: colors.clone(), read: Splice::NONE });
        now.or_else(|| self.earlier.get().cloned())
    }

    /// Takes over what was known of the version before; since then these lines were read again.
    pub(super) fn take_over(&self, before: Option<EarlierColors>, lines: Splice) {
        if let Some(EarlierColors { colors, read }) = before {
            let _ = self.earlier.set(EarlierColors { colors, read: read.then(lines) });
        }
    }

    /// The colors, found if nobody has asked for them yet.
    pub(super) fn get_or_find(&self, find: impl FnOnce(Option<&EarlierColors>) -> WordColors) -> &WordColors {
        self.now.get_or_init(|| find(self.earlier.get()))
    }
}
