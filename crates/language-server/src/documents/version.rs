//! One version of a text, and all that is known of it: how it goes from version to version.
//!
//! Whoever asks first finds out, and all others wait for that or use it. A version that comes of an edit takes over what
//! the one before knows, moved by the edit; versions that nobody asked about are skipped, and their edits made one. What
//! is known is handed on as one value in one place, [`KnownText::draft`]: moved if nobody is at work with the version
//! before, copied if somebody is.

use super::askers::Askers;
use super::fenced::FencedPattern;
use super::word_colors::{EarlierColors, KnownColors, WordColors};
use super::{Around, DocumentText, Setting};
use knotwright_checker::{Draft, Finding, GivenUp, Source};
use knotwright_editor::{Checked, FoundOnce, WaitedFor};
use knotwright_grammar::Splice;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

/// A text at one time, and what is known of it.
#[derive(Debug, Clone)]
pub(crate) struct Version {
    pub(crate) text: Arc<DocumentText>,
    /// Another one whenever something changes around the text.
    pub(crate) known: Arc<KnownText>,
}

/// What is known of a text.
#[derive(Debug, Default)]
pub(crate) struct KnownText {
    /// Set when there is a newer version: nobody needs mends for this one. It is tied to its end all the same if somebody
    /// waits, as the next version goes on from there.
    outdated: Arc<AtomicBool>,
    pub(super) askers: Arc<Askers>,
    before: Mutex<Option<PreviousVersion>>,
    draft: OnceLock<Draft>,
    looked: FoundOnce<Looked>,
    /// What is answered to those to whom nobody listens anymore.
    unread: OnceLock<Looked>,
    colors: KnownColors,
    /// The patterns in it, if it is Markdown.
    pub(super) blocks: OnceLock<Vec<FencedPattern>>,
}

/// The version before, until somebody asks about this one.
#[derive(Debug, Clone)]
pub(super) struct PreviousVersion {
    pub(super) known: Arc<KnownText>,
    pub(super) change: VersionChange,
}

/// What leads from one version to the next.
#[derive(Debug, Clone, Copy)]
pub(crate) struct VersionChange {
    /// How the text was edited.
    pub(crate) edit: Option<Splice>,
    pub(crate) since: Since,
}

/// What has changed, each with all that stand above it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Since {
    /// The text.
    Text,
    /// Files that it may use.
    Files,
    /// The settings that hold.
    Settings,
}

/// A text after somebody asked how it ties.
#[derive(Debug)]
pub(crate) struct Looked {
    /// Why its settings cannot be used, in words.
    pub(crate) trouble: Option<String>,
    /// What the checker says, and what an editor may ask.
    pub(crate) checked: Checked,
}

impl VersionChange {
    /// The text was edited.
    pub(crate) fn edited(edit: Option<Splice>) -> Self {
        Self { edit, since: Since::Text }
    }

    /// Something around the text has changed.
    pub(crate) fn around(since: Since) -> Self {
        Self { edit: None, since }
    }

    fn then(self, next: Self) -> Self {
        let edit = match (self.edit, next.edit) {
            (Some(first), Some(second)) => Some(first.then(second)),
            (first, second) => first.or(second),
        };
        Self { edit, since: self.since.max(next.since) }
    }
}

impl Version {
    /// A text of which nothing is known.
    pub(crate) fn new(text: DocumentText) -> Self {
        Self { text: Arc::new(text), known: Arc::default() }
    }

    /// The next version, whose text this one leads to by an edit.
    pub(crate) fn edited(&self, text: DocumentText, edit: Option<Splice>) -> Self {
        Self {
            text: Arc::new(text),
            known: Arc::new(KnownText::after(&self.known, VersionChange::edited(edit))),
        }
    }

    /// This version after something around its text has changed.
    pub(crate) fn renewed(&self, since: Since) -> Self {
        let known = KnownText::after(&self.known, VersionChange::around(since));
        Self { text: Arc::clone(&self.text), known: Arc::new(known) }
    }

    /// The text, parsed; of Markdown there is nothing to parse but what is fenced in it.
    pub(crate) fn source(&self) -> &Arc<Source> {
        self.known.source(&self.text)
    }

    /// Whether what is said of it depends on other files.
    pub(super) fn depends(&self) -> bool {
        if self.text.is_page() { self.known.depends() } else { super::uses_others(self.source()) }
    }
}

impl KnownText {
    /// Of the version that comes of the one of which `known` is known.
    pub(super) fn after(known: &Arc<Self>, change: VersionChange) -> Self {
        known.outdated.store(true, Ordering::Relaxed);
        // If nobody has asked about it, both steps are one.
        let before = match known.before() {
            Some(before) => PreviousVersion { change: before.change.then(change), ..before },
            None => PreviousVersion { known: Arc::clone(known), change },
        };
        Self { before: Mutex::new(Some(before)), ..Self::default() }
    }

    fn before(&self) -> Option<PreviousVersion> {
        self.before.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    pub(super) fn take_before(&self) -> Option<PreviousVersion> {
        self.before.lock().unwrap_or_else(PoisonError::into_inner).take()
    }

    /// The text, read; with what the version before knew.
    fn draft(&self, text: &DocumentText) -> &Draft {
        self.draft.get_or_init(|| {
            let fresh = || Draft::new(Arc::new(Source::new(text.path.clone(), text.pattern())));
            if text.is_page() {
                return fresh();
            }
            let before = self.take_before().and_then(|PreviousVersion { known, change }| {
                let colors = known.colors.hand_on();
                let draft = Self::hand_on(known)?;
                let (draft, lines) = match change.edit {
                    Some(edit) => {
                        let text = text.pattern_after(&draft.source().text, edit);
                        draft.edited(edit, text)
                    }
                    None => (draft, Splice::NONE),
                };
                self.colors.take_over(colors, lines);
                Some(draft)
            });
            before.unwrap_or_else(fresh)
        })
    }

    /// What was known of a version, for the next one; `None` if nobody has read it.
    fn hand_on(known: Arc<Self>) -> Option<Draft> {
        match Arc::try_unwrap(known) {
            Ok(known) => {
                let draft = known.draft.into_inner()?;
                Some(match known.looked.into_inner() {
                    Some(looked) => draft.after(looked.checked.into_analysis()),
                    None => draft,
                })
            }
            // Somebody is at work with it; they keep it.
            Err(known) => {
                let draft = known.draft.get()?.clone();
                Some(match known.looked.get() {
                    Some(looked) => draft.after(looked.checked.analysis().clone()),
                    None => draft,
                })
            }
        }
    }

    /// How the text ties; `setting` is what was around it when it came to be.
    pub(super) fn looked(&self, text: &DocumentText, setting: &Setting) -> &Looked {
        self.looked_telling(text, setting, None)
    }

    /// How the text ties. If nobody has asked yet, `hear` hears at once what is wrong first.
    pub(super) fn looked_telling(
        &self,
        text: &DocumentText,
        setting: &Setting,
        hear: Option<&dyn Fn(Vec<Finding>)>,
    ) -> &Looked {
        let look = || {
            let (around, trouble) = Around::of(&text.path, &setting.homes, Arc::clone(&setting.open));
            let draft = self.draft(text);
            let checked =
                Checked::while_waited_for(self.waited_for(), draft, &around, around.settings(), hear)?;
            Some(Looked { trouble, checked })
        };
        let unread = || Looked { trouble: None, checked: Checked::unread(self.draft(text)) };
        self.looked.or_find(look).unwrap_or_else(|| self.unread.get_or_init(unread))
    }

    fn waited_for(&self) -> WaitedFor {
        let (askers, also, outdated) =
            (Arc::clone(&self.askers), Arc::clone(&self.askers), Arc::clone(&self.outdated));
        WaitedFor {
            given_up: GivenUp::when(move || askers.are_gone()),
            mends_given_up: GivenUp::when(move || outdated.load(Ordering::Relaxed) || also.are_gone()),
        }
    }

    /// The text, parsed.
    pub(super) fn source(&self, text: &DocumentText) -> &Arc<Source> {
        self.draft(text).source()
    }

    /// The colors of its words; if nobody has asked yet, `find` gets those of an earlier version, if there are any.
    pub(super) fn colors(
        &self,
        text: &DocumentText,
        find: impl FnOnce(Option<&EarlierColors>) -> WordColors,
    ) -> &WordColors {
        // What was read again since that version is known once this one is read.
        self.draft(text);
        self.colors.get_or_find(find)
    }

    /// The text, parsed, if somebody has read it.
    pub(super) fn parsed(&self) -> Option<&Arc<Source>> {
        self.draft.get().map(Draft::source)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::Snapshot;

    const TEXT: &str = "pattern \"Pier\"\nthread rope white\nstrands 4 rope\nset {\n  repeat 20000 {\n    \
                        take left 1: forward 2\n  }\n}\n";

    fn version() -> Version {
        Version::new(DocumentText::saved("/patterns/pier.knot", TEXT).unwrap())
    }

    fn asked(version: &Version) -> Snapshot {
        Snapshot::new(version.clone(), Setting::default())
    }

    fn give_up(snapshot: &Snapshot) {
        snapshot.setting.given_up.store(true, Ordering::Relaxed);
    }

    #[test]
    fn a_text_is_tied_only_while_somebody_waits_and_the_next_who_asks_learns_all() {
        let version = version();
        let gone = asked(&version);
        give_up(&gone);
        assert!(gone.checked().pattern().is_none() && gone.findings().is_empty());
        assert!(version.known.looked.get().is_none(), "nothing half known is kept");
        let waiting = asked(&version);
        assert!(waiting.checked().pattern().is_some());
        assert!(gone.checked().pattern().is_some(), "what is known, is known to all");
    }

    #[test]
    fn whoever_gives_up_takes_nothing_from_others_who_wait() {
        let version = version();
        let (gone, _waiting) = (asked(&version), asked(&version));
        give_up(&gone);
        assert!(gone.checked().pattern().is_some(), "found out for the other one");
    }

    #[test]
    fn an_answer_that_came_before_all_was_found_is_not_kept_as_the_whole_one() {
        let version = version();
        let first = asked(&version);
        assert!(first.checked().pattern().is_some());
        give_up(&first);
        assert!(first.findings().is_empty(), "the band is looked through for nobody");
        assert!(!asked(&version).findings().is_empty());
    }
}
