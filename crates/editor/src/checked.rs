//! A file as an editor has it open: its text, what the checker says of it, and indexes that are built when
//! somebody first asks.

use crate::found_once::FoundOnce;
use crate::hang::Orders;
use crate::moments::Moments;
use crate::names::NameIndex;
use knotwright_band::Layout;
use knotwright_checker::{
    Analysis, Draft, Finding, FirstFindings, GivenUp, Library, Listener, NoLibrary, Part, PartKind, Pattern,
    Settings, Source, Spot, View,
};
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Import, Statement};
use knotwright_maker::WholeBand;
use smol_str::SmolStr;
use std::sync::{Arc, OnceLock};

/// A snapshot of one file and all that is known about it.
#[derive(Debug)]
pub struct Checked {
    analysis: Analysis,
    settings: Settings,
    files: Vec<Arc<Source>>,
    uses: Vec<UsedFile>,
    first: FoundOnce<FirstFindings>,
    later: OnceLock<Vec<Finding>>,
    mended: FoundOnce<Vec<Finding>>,
    waited_for: WaitedFor,
    names: OnceLock<NameIndex>,
    moments: OnceLock<Moments>,
    orders: [OnceLock<Orders>; 3],
    whole_band: OnceLock<Option<WholeBand>>,
}

/// Who still waits for what is being found out about a version of a file.
#[derive(Debug, Clone, Default)]
pub struct WaitedFor {
    /// Nobody waits for how it ties and what is found in it.
    pub given_up: GivenUp,
    /// Nobody waits for what would mend it.
    pub mends_given_up: GivenUp,
}

static NOTHING: FirstFindings = FirstFindings { findings: Vec::new(), is_all: true, doubtful: Vec::new() };

/// A `use` of the file and where it leads.
#[derive(Debug, Clone)]
pub struct UsedFile {
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
    /// Looks up and ties `source`, for which these settings hold.
    pub fn new(source: Arc<Source>, library: &dyn Library, settings: &Settings) -> Self {
        Self::of(&Draft::new(source), library, settings)
    }

    /// Looks up and ties a version of a file that is being edited.
    pub fn of(draft: &Draft, library: &dyn Library, settings: &Settings) -> Self {
        Self::from_analysis(draft.analyze(library), library, settings)
    }

    /// Looks up and ties such a version while somebody waits for it; `None` if nobody does anymore. `hear` hears at once what is
    /// wrong first.
    pub fn while_waited_for(
        waited_for: WaitedFor,
        draft: &Draft,
        library: &dyn Library,
        settings: &Settings,
        hear: Option<&dyn Fn(Vec<Finding>)>,
    ) -> Option<Self> {
        let listener = hear.map(|hear| Listener { settings, hear });
        let analysis = draft.analyze_unless(&waited_for.given_up, library, listener)?;
        Some(Self { waited_for, ..Self::from_analysis(analysis, library, settings) })
    }

    /// A version about which nothing is known: for those to whom nobody listens anymore.
    pub fn unread(draft: &Draft) -> Self {
        let analysis = Analysis::unread(Arc::clone(draft.source()));
        Self::from_analysis(analysis, &NoLibrary, &Settings::default())
    }

    fn from_analysis(analysis: Analysis, library: &dyn Library, settings: &Settings) -> Self {
        Self {
            settings: settings.clone(),
            files: analysis.files(),
            uses: uses(analysis.source(), library),
            first: FoundOnce::default(),
            later: OnceLock::new(),
            mended: FoundOnce::default(),
            waited_for: WaitedFor::default(),
            names: OnceLock::new(),
            moments: OnceLock::new(),
            orders: Default::default(),
            whole_band: OnceLock::new(),
            analysis,
        }
    }

    /// What the checker found out, for the next version.
    pub fn into_analysis(self) -> Analysis {
        self.analysis
    }

    /// What the checker found out, for whoever goes on while this is still read.
    pub fn analysis(&self) -> &Analysis {
        &self.analysis
    }

    /// The file.
    pub fn source(&self) -> &Arc<Source> {
        self.analysis.source()
    }

    /// The file, and then those that it uses: places count them.
    pub fn files(&self) -> &[Arc<Source>] {
        &self.files
    }

    /// The settings that hold for it.
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    /// Nothing, for those to whom nobody listens anymore.
    fn first_findings(&self) -> &FirstFindings {
        let find = || self.analysis.first_findings_unless(&self.waited_for.given_up, &self.settings);
        self.first.or_find(find).unwrap_or(&NOTHING)
    }

    /// What is known without a search for mends, or after one; whether that is all that is found. Each of it is among all.
    pub fn findings_so_far(&self) -> (&[Finding], bool) {
        let first = self.first_findings();
        match self.mended.get() {
            Some(all) if !first.is_all => (all, true),
            _ => (&first.findings, first.is_all),
        }
    }

    /// What is wrong besides, unless it follows from what is known: only a search for mends shows that.
    pub fn doubtful(&self) -> impl Iterator<Item = &Finding> {
        let later = || self.later.get_or_init(|| self.analysis.later_findings(&self.settings));
        let is_all = self.findings_so_far().1;
        (!is_all).then(|| self.first_findings().doubtful.iter().chain(later())).into_iter().flatten()
    }

    /// What was found, in order of place. Some mends may be missing, if they would have to be searched for. `library` has
    /// the files that this one uses.
    pub fn findings(&self, library: &dyn Library) -> &[Finding] {
        let first = self.first_findings();
        if first.is_all { &first.findings } else { self.findings_with_mends(library) }
    }

    /// The same findings with all mends. These may have to be searched for, which takes long if much is wrong. Of a
    /// version that was given up, what is found at once.
    pub fn findings_with_mends(&self, library: &dyn Library) -> &[Finding] {
        let find = || self.analysis.findings_unless(&self.waited_for.mends_given_up, library, &self.settings);
        self.mended.or_find(find).unwrap_or_else(|| &self.first_findings().findings)
    }

    /// Its text.
    pub fn text(&self) -> &str {
        &self.source().text
    }

    /// The pattern as it was tied; `None` for a library, or if the head does not say enough to tie.
    pub fn pattern(&self) -> Option<&Pattern> {
        self.analysis.pattern()
    }

    /// Its `use` statements.
    pub fn uses(&self) -> &[UsedFile] {
        &self.uses
    }

    /// Its names: what gives them and where they stand.
    pub fn names(&self) -> &NameIndex {
        self.names.get_or_init(|| NameIndex::of(self.source()))
    }

    /// Which steps were tied from which statement.
    pub(crate) fn moments(&self) -> &Moments {
        self.moments.get_or_init(|| Moments::of(self.pattern()))
    }

    /// How often the set is tied, when it closes, how long all is. `None` while errors hang strands otherwise.
    pub(crate) fn whole_band(&self) -> Option<&WholeBand> {
        let whole = || self.pattern().filter(|pattern| pattern.is_whole()).map(WholeBand::of);
        self.whole_band.get_or_init(whole).as_ref()
    }

    /// A part of the pattern.
    pub(crate) fn part(&self, kind: PartKind) -> Option<&Part> {
        self.pattern()?.part(kind)
    }

    /// How many rows a part has by itself; `None` while errors hang its strands otherwise.
    pub(crate) fn rows(&self, kind: PartKind) -> Option<u32> {
        let part = self.part(kind).filter(|part| !part.piece.is_rehung())?;
        Some(Layout::of(&part.piece).height)
    }

    /// The strands before knot `knot` of a part.
    pub(crate) fn order(&self, which: PartKind, knot: u32) -> Vec<u8> {
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
        &self.source().parsed.tree.statements
    }
}

fn uses(source: &Source, library: &dyn Library) -> Vec<UsedFile> {
    let used = |statement: &Statement| {
        let Import { names, path } = statement.get()?;
        Some(UsedFile {
            span: path.span,
            path: path.value.clone(),
            names: names.iter().map(|name| name.text.clone()).collect(),
            source: library.open(&source.path, &path.value).ok(),
        })
    };
    source.parsed.tree.statements.iter().filter_map(used).collect()
}
