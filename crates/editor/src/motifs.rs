//! Motifs by name, those of other files too.

use crate::Checked;
use knotwright_checker::Source;
use knotwright_grammar::tree::{Motif, Statement};
use std::sync::Arc;

/// A motif and where it stands.
#[derive(Debug, Clone, Copy)]
pub(crate) struct FoundMotif<'c> {
    pub(crate) motif: &'c Motif,
    pub(crate) statement: &'c Statement,
    /// Its file.
    pub(crate) source: &'c Arc<Source>,
}

/// The motif that `name` means in the file.
pub(crate) fn find<'c>(checked: &'c Checked, name: &str) -> Option<FoundMotif<'c>> {
    own(checked.source(), name).or_else(|| {
        let used = checked.uses().iter().find(|used| used.names.iter().any(|known| known == name))?;
        own(used.source.as_ref()?, name)
    })
}

/// The motif of that name in one file.
pub(crate) fn own<'c>(source: &'c Arc<Source>, name: &str) -> Option<FoundMotif<'c>> {
    in_file(source).find(|found| found.motif.name.text == name)
}

/// The motifs of one file.
pub(crate) fn in_file(source: &Arc<Source>) -> impl Iterator<Item = FoundMotif<'_>> {
    let statements = source.parsed.tree.statements.iter();
    statements.filter_map(move |statement| Some(FoundMotif { motif: statement.get()?, statement, source }))
}

/// `fan(size, hue) on 5`
pub(crate) fn signature(motif: &Motif) -> String {
    let params: Vec<&str> = motif.params.iter().map(|param| param.text.as_str()).collect();
    let width = motif.width.map(|width| format!(" on {}", width.value)).unwrap_or_default();
    format!("{}({}){width}", motif.name.text, params.join(", "))
}

/// All motifs that the file may work.
pub(crate) fn all(checked: &Checked) -> Vec<FoundMotif<'_>> {
    let imported = checked.uses().iter().filter_map(|used| {
        let source = used.source.as_ref()?;
        Some(used.names.iter().filter_map(|name| own(source, name)).collect::<Vec<_>>())
    });
    in_file(checked.source()).chain(imported.flatten()).collect()
}
