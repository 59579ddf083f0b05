//! What a source ties, and no more: for those who prove something by tying it.

use crate::facts::Facts;
use crate::report::{is_whole, problems};
use crate::resolve::resolve;
use crate::tie::{self, Limits};
use crate::{FileId, Finding, Library, Pattern, Severity, Source, rules};
use std::sync::Arc;

/// A source that was tied.
#[derive(Debug, Clone)]
pub struct Tied {
    /// The tied pattern; `None` for a library, or if the head does not say enough to tie.
    pub pattern: Option<Pattern>,
    /// All errors, without mends.
    pub errors: Vec<Finding>,
}

/// Ties `source` as [`check`](crate::check) does, and tests every promise in it; but warnings are not looked for, nor
/// mends. The errors are the same, said one by one, and so is the pattern.
pub fn tie(source: Arc<Source>, library: &dyn Library) -> Tied {
    if let Some(problem) = source.parsed.problems.iter().find(|problem| is_whole(problem)) {
        return Tied { pattern: None, errors: vec![rules::problem(problem, FileId(0), &source)] };
    }
    let mut facts = Facts::default();
    let script = Arc::new(resolve(source, library, &mut facts));
    let tied = tie::tie(&script, None, Limits::WHOLE, &mut facts).unwrap_or_default();
    let mut errors = problems(&script);
    errors.extend(facts.into_list().iter().map(rules::words));
    errors.retain(|finding| finding.severity == Severity::Error);
    Tied { pattern: Pattern::new(script, tied), errors }
}
