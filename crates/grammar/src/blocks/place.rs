//! Which statements may stand where.

use crate::near::near;
use crate::words::{self, Role, Word};

/// What a block may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Place {
    /// The top of the file.
    Top,
    /// `opening`, `set`, `closing`, motifs and all blocks in them.
    Body,
    /// `colorway`: threads.
    Colorway,
    /// `gauge`: its three lines.
    Gauge,
    /// The block of a statement that is not known: anything, and unknown lines are not told again.
    Any,
    /// `rows`
    Rows,
    /// `leader`
    Leader,
}

impl Place {
    pub(crate) fn is_chart(self) -> bool {
        matches!(self, Self::Rows | Self::Leader)
    }

    /// Whether a statement with this first word may stand here.
    pub(crate) fn admits(self, word: &Word) -> bool {
        match self {
            Self::Top => word.role == Role::Head,
            Self::Body => word.role == Role::Body,
            Self::Colorway => word.text == "thread",
            Self::Any => true,
            Self::Gauge | Self::Rows | Self::Leader => false,
        }
    }

    /// What the block of a statement with this first word holds, if the statement stands here.
    pub(crate) fn within(self, word: Option<&str>) -> Self {
        match word {
            Some("colorway") => Self::Colorway,
            Some("gauge") => Self::Gauge,
            Some("rows") => Self::Rows,
            Some("leader") => Self::Leader,
            Some(word) if opens_body(word) => Self::Body,
            Some(_) if self == Self::Body => Self::Body,
            _ => Self::Any,
        }
    }

    /// The statement word most like an unknown one, among those that may stand here.
    pub(crate) fn nearest(self, unknown: &str) -> Option<&'static str> {
        let candidates = words::statements().filter(|word| self.admits(word)).map(|word| word.text);
        let candidates = candidates.chain((self == Self::Gauge).then_some("thickness"));
        near(unknown, candidates).first().map(|&(_, word)| word)
    }
}

fn opens_body(word: &str) -> bool {
    let blocks = ["motif", "opening", "set", "closing", "on", "both", "mirrored", "repeat", "for", "section"];
    blocks.contains(&word)
}

/// Where a statement belongs that stands elsewhere.
pub(crate) fn belongs(word: &Word) -> &'static str {
    match word.role {
        Role::Head => "at the top of the file",
        _ => "in `opening`, `set`, `closing` or a motif",
    }
}
