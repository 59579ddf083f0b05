//! LocationFinder in files as locations.

use crate::documents::{DocumentText, Setting};
use knotwright_editor::FilePlace;
use knotwright_grammar::Span;
use std::collections::HashMap;
use std::sync::Arc;
use tower_lsp::ls_types::{Location, Range, Uri};

/// Turns places into locations; each file is looked up once.
pub(super) struct LocationFinder<'s> {
    setting: &'s Setting,
    files: HashMap<String, Option<Arc<DocumentText>>>,
}

impl<'s> LocationFinder<'s> {
    pub(super) fn new(setting: &'s Setting) -> Self {
        Self { setting, files: HashMap::new() }
    }

    /// A file by its path: what the client calls it, and the range of a span of it; the version if it is open.
    pub(super) fn range(&mut self, path: &str, span: Span) -> Option<(Uri, Option<i32>, Range)> {
        let file = self.files.entry(path.to_owned()).or_insert_with(|| self.setting.file(path));
        let text = file.as_ref()?;
        Some((text.uri.clone(), text.version, text.range(self.setting.facts.encoding, span)))
    }

    pub(super) fn location(&mut self, path: &str, span: Span) -> Option<Location> {
        let (uri, _, range) = self.range(path, span)?;
        Some(Location { uri, range })
    }

    pub(super) fn locations(&mut self, targets: &[FilePlace]) -> Vec<Location> {
        targets.iter().filter_map(|target| self.location(&target.path, target.span)).collect()
    }
}
