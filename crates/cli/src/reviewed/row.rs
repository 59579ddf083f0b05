//! One pattern, before and after.

use crate::bands::BandFile;
use crate::compared::{Compared, Verdict};
use std::fmt;

/// What became of a pattern; the gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum ChangeKind {
    /// It has errors now.
    Broken,
    /// Its own text ties another band.
    Band,
    /// What it uses ties another band in it.
    Affected,
    /// It is gone.
    Deleted,
    /// It is new.
    Added,
    /// It had errors, and has none now.
    Mended,
    /// It is in another place, and otherwise the same.
    Moved,
    /// The same band, with other words about it.
    Words,
    /// The same band, written another way.
    Rewritten,
    /// The same steps, with other spaces and line ends.
    Formatting,
    /// Nothing: what it uses changed, and does not change it.
    Alike,
}

impl ChangeKind {
    /// All that are reported, in order.
    pub(crate) const TOLD: [Self; 10] = [
        Self::Broken,
        Self::Band,
        Self::Affected,
        Self::Deleted,
        Self::Added,
        Self::Mended,
        Self::Moved,
        Self::Words,
        Self::Rewritten,
        Self::Formatting,
    ];

    /// Its name for programs.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Broken => "broken",
            Self::Band => "band",
            Self::Affected => "affected",
            Self::Deleted => "deleted",
            Self::Added => "added",
            Self::Mended => "mended",
            Self::Moved => "moved",
            Self::Words => "words",
            Self::Rewritten => "rewritten",
            Self::Formatting => "formatting",
            Self::Alike => "alike",
        }
    }

    /// Whether a band that was there is another one now, or none.
    pub(crate) fn is_another_band(self) -> bool {
        matches!(self, Self::Broken | Self::Band | Self::Affected | Self::Deleted)
    }
}

/// Where a pattern stands.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct PatternPlace {
    /// The path of its file, from the root of the repository.
    pub(crate) path: String,
    /// In Markdown: the line that it begins on, from 1.
    pub(crate) line: Option<u32>,
}

impl fmt::Display for PatternPlace {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(&self.path)?;
        self.line.map_or(Ok(()), |line| write!(to, ":{line}"))
    }
}

/// An error.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct PatternError {
    /// Of which rule; none if the file cannot be read or its settings are not understood.
    pub(crate) rule: Option<&'static str>,
    /// The path of the file that it is in.
    pub(crate) path: String,
    /// From 1; none if it is about the whole file.
    pub(crate) place: Option<(u32, u32)>,
    /// In words.
    pub(crate) message: String,
}

/// What is known of both.
pub(crate) enum RowBands {
    /// Both tie.
    Both(Box<Compared>),
    /// Only one ties: the one before, or the one after.
    One(Box<BandFile>),
    /// There is no band: it is a library, or has errors.
    None,
}

/// One pattern, before and after.
pub(crate) struct ReviewRow {
    pub(crate) kind: ChangeKind,
    /// Where it stood and stands; not both none.
    pub(crate) spots: [Option<PatternPlace>; 2],
    /// The library or the settings that changed it, if its own text did not change.
    pub(crate) because: Option<String>,
    pub(crate) content: RowBands,
    /// Its errors now.
    pub(crate) wrong: Vec<PatternError>,
    /// Whether it had errors before.
    pub(crate) was_wrong: bool,
}

impl ReviewRow {
    /// Whether it is reported.
    pub(crate) fn is_change(&self) -> bool {
        self.kind != ChangeKind::Alike
    }

    /// Whether it is, or was, more than a library.
    pub(crate) fn is_pattern(&self) -> bool {
        !matches!(self.content, RowBands::None) || !self.wrong.is_empty()
    }

    /// Where it stands, or stood.
    pub(crate) fn place(&self) -> &PatternPlace {
        static NOWHERE: PatternPlace = PatternPlace { path: String::new(), line: None };
        let [before, after] = &self.spots;
        after.as_ref().or(before.as_ref()).unwrap_or(&NOWHERE)
    }

    /// Where it was, if that was another file.
    pub(crate) fn moved_from(&self) -> Option<&str> {
        let [Some(before), Some(after)] = &self.spots else { return None };
        (before.path != after.path).then_some(before.path.as_str())
    }

    /// The two bands, compared.
    pub(crate) fn compared(&self) -> Option<&Compared> {
        match &self.content {
            RowBands::Both(compared) => Some(compared),
            _ => None,
        }
    }

    /// The band before and the band after.
    pub(crate) fn bands(&self) -> [Option<&BandFile>; 2] {
        match &self.content {
            RowBands::Both(compared) => [Some(&compared.one), Some(&compared.other)],
            RowBands::One(band) if self.is_after() => [None, Some(band)],
            RowBands::One(band) => [Some(band), None],
            RowBands::None => [None, None],
        }
    }

    /// What it is called: its title now, or what it was called.
    pub(crate) fn title(&self) -> &str {
        let [before, after] = self.bands();
        after.or(before).map_or("", |band| &band.pattern.title.text)
    }

    /// Whether it looks as it did, though it is tied with other knots.
    pub(crate) fn looks_the_same(&self) -> bool {
        self.compared().is_some_and(|compared| compared.verdict == Verdict::SameLook)
    }

    /// Whether the only band is the one after the change.
    fn is_after(&self) -> bool {
        matches!(self.kind, ChangeKind::Added | ChangeKind::Mended)
    }
}
