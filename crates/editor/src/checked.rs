//! A file as an editor has it open: its text, what the checker says of it, and indexes that are built when
//! somebody first asks.

use crate::hang::Orders;
use crate::moments::Moments;
use crate::names::Names;
use crate::reckoning::Reckoning;
use knotwright_checker::{
    Kept, Library, Part, Pattern, Report, Settings, Source, Spot, View, Which, recheck,
};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Node, Statement};
use smol_str::SmolStr;
use std::sync::{Arc, OnceLock};

/// A snapshot of one file and all that is known about it.
#[derive(Debug)]
pub struct Checked {
    source: Arc<Source>,
    report: Report,
    uses: Vec<Use>,
    names: OnceLock<Names>,
    moments: OnceLock<Moments>,
    orders: [OnceLock<Orders>; 3],
    reckoning: OnceLock<Option<Reckoning>>,
}

/// A `use` of the file and where it leads.
#[derive(Debug, Clone)]
pub struct Use {
    /// Where the path is written, quotes included.
    pub span: Span,
    /// The path as written.
    pub path: String,
    /// The motifs.
    pub names: Vec<SmolStr>,
    /// The file, if it can be had.
    pub source: Option<Arc<Source>>,
}

impl Checked {
    /// Checks `source` and keeps what came of it.
    pub fn new(source: Arc<Source>, library: &dyn Library, settings: &Settings) -> Self {
        Self::again(source, library, settings, None)
    }

    /// The same, with what was [kept](Self::keep) of an earlier version of the file.
    pub fn again(
        source: Arc<Source>,
        library: &dyn Library,
        settings: &Settings,
        kept: Option<Kept>,
    ) -> Self {
        let report = recheck(Arc::clone(&source), library, settings, kept);
        Self::of(source, report, library)
    }

    /// What helps to check the next version sooner. It holds no file.
    pub fn keep(self) -> Option<Kept> {
        self.report.keep()
    }

    /// The snapshot of a file that was checked already; `report` must be about `source`.
    pub fn of(source: Arc<Source>, report: Report, library: &dyn Library) -> Self {
        let uses = uses(&source, library);
        Self {
            source,
            report,
            uses,
            names: OnceLock::new(),
            moments: OnceLock::new(),
            orders: Default::default(),
            reckoning: OnceLock::new(),
        }
    }

    /// The file.
    pub fn source(&self) -> &Arc<Source> {
        &self.source
    }

    /// Its text.
    pub fn text(&self) -> &str {
        &self.source.text
    }

    /// What the checker says of it.
    pub fn report(&self) -> &Report {
        &self.report
    }

    /// The pattern as it was tied; `None` for a library, or if the head does not say enough to tie.
    pub fn pattern(&self) -> Option<&Pattern> {
        self.report.pattern.as_ref()
    }

    /// Its `use` statements.
    pub fn uses(&self) -> &[Use] {
        &self.uses
    }

    /// Its names: what gives them and where they stand.
    pub fn names(&self) -> &Names {
        self.names.get_or_init(|| Names::of(&self.source))
    }

    /// Which steps were tied from which statement.
    pub(crate) fn moments(&self) -> &Moments {
        self.moments.get_or_init(|| Moments::of(self.pattern()))
    }

    /// How often the set is tied, when it closes, how long all is.
    pub(crate) fn reckoning(&self) -> Option<&Reckoning> {
        self.reckoning.get_or_init(|| self.pattern().and_then(|pattern| Reckoning::of(pattern).ok())).as_ref()
    }

    /// A part of the pattern.
    pub(crate) fn part(&self, which: Which) -> Option<&Part> {
        let pattern = self.pattern()?;
        match which {
            Which::Opening => pattern.opening.as_ref(),
            Which::Set => pattern.set.as_ref(),
            Which::Closing => pattern.closing.as_ref(),
        }
    }

    /// The strands before knot `knot` of a part.
    pub(crate) fn order(&self, which: Which, knot: u32) -> Vec<u8> {
        let Some(part) = self.part(which) else { return Vec::new() };
        let orders = self.orders[which as usize].get_or_init(|| Orders::of(part));
        orders.before(part, knot)
    }

    /// The strands at a spot of this file; see [`Pattern::look`].
    pub(crate) fn look(&self, spot: Spot, more: &[Statement]) -> Option<View> {
        self.pattern()?.look(spot, more)
    }

    /// The statements at the top of the file.
    pub(crate) fn top(&self) -> &[Statement] {
        &self.source.parsed.tree.statements
    }
}

fn uses(source: &Source, library: &dyn Library) -> Vec<Use> {
    let used = |statement: &Statement| match &statement.node {
        Node::Use { names, path } => Some(Use {
            span: path.span,
            path: path.value.clone(),
            names: names.iter().map(|name| name.text.clone()).collect(),
            source: library.open(&source.path, &path.value).ok(),
        }),
        _ => None,
    };
    source.parsed.tree.statements.iter().filter_map(used).collect()
}
