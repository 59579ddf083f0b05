//! A motif that nothing in the file is called, and that another file of the workspace has: a `use` brings it.

use super::{Action, ActionKind};
use crate::files_renamed::relative;
use crate::motifs::in_file;
use crate::names::NameSort;
use crate::{Checked, FileEdit, World};
use knotwright_checker::{Finding, Severity, Source, check};
use knotwright_grammar::tree::{ClosingBlock, Import, Motif, OpeningBlock, SetBlock, Statement};
use knotwright_grammar::{Span, apply_edits};
use knotwright_rewriter::line_end;
use std::sync::Arc;

/// More files that have a motif of that name are not proposed.
const MOST: usize = 5;

/// For each file that has the unknown motif and is not used yet, the `use` that brings it, if fewer errors are left then.
pub(super) fn motif(checked: &Checked, world: &World, finding: &Finding, number: usize) -> Vec<Action> {
    let Some(name) = unknown_motif(checked, finding) else { return Vec::new() };
    let own = &checked.source().path;
    let is_used = |path: &str| {
        checked.uses().iter().filter_map(|used| used.source.as_ref()).any(|source| source.path == path)
    };
    let has_it = |file: &&Arc<Source>| in_file(file).any(|found| found.motif.name.text == name);
    let files = world.files.iter().filter(|file| file.path != *own && !is_used(&file.path)).filter(has_it);
    let action = |file: &Arc<Source>| {
        let path = relative(own, &file.path);
        let edit = edit(checked, &format!("use {name} from \"{path}\""));
        let mended = apply_edits(checked.text(), [(edit.span, edit.text.as_str())])?;
        let report = check(Arc::new(Source::new(own.clone(), mended)), world.library, checked.settings());
        let is_better = errors(&report.findings) < errors(checked.findings_with_mends(world.library));
        is_better.then(|| Action {
            title: format!("Use `{name}` from \"{path}\""),
            kind: ActionKind::Fix,
            edits: vec![edit],
            finding: Some(number),
            preferred: false,
            new_name: None,
        })
    };
    files.take(MOST).filter_map(action).collect()
}

fn unknown_motif(checked: &Checked, finding: &Finding) -> Option<String> {
    let mention = checked.names().exactly(finding.place.span)?;
    let symbol = checked.names().symbol(mention);
    let is_unknown = symbol.sort == NameSort::Motif && symbol.given.is_none();
    is_unknown.then(|| symbol.name.to_string())
}

/// A line below the last `use`; if there is none, below the head.
fn edit(checked: &Checked, line: &str) -> FileEdit {
    let (text, line_break) = (checked.text(), line_end(checked.text()));
    let after = |statement: &Statement| statement.span.whole_lines(text).end;
    let below = |at: u32, breaks: usize| (at, format!("{}{line}", line_break.repeat(breaks)));
    let head = || checked.top().iter().take_while(|statement| !is_body(statement)).last();
    let (at, text) = match checked.top().iter().rfind(|statement| statement.is::<Import>()) {
        Some(last) => below(after(last), 1),
        None => head().map_or((0, format!("{line}{}", line_break.repeat(2))), |last| below(after(last), 2)),
    };
    FileEdit { path: checked.source().path.clone(), span: Span { start: at, end: at }, text }
}

/// Whether it is a motif or a part of the band, which stand below the head.
fn is_body(statement: &Statement) -> bool {
    let is_part =
        statement.is::<OpeningBlock>() || statement.is::<SetBlock>() || statement.is::<ClosingBlock>();
    is_part || statement.is::<Motif>()
}

fn errors(findings: &[Finding]) -> usize {
    findings.iter().filter(|finding| finding.severity == Severity::Error).count()
}
