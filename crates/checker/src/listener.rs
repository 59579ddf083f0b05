//! The first thing that is wrong, told while all that comes after it is still being tied.

use crate::facts::Facts;
use crate::mend::may_be_a_word;
use crate::report::{report_problems, settle_findings};
use crate::resolve::Script;
use crate::said::said;
use crate::{Fact, Finding, Settings};
use std::fmt;
use std::sync::Arc;

/// Who hears of the first thing that is wrong as soon as it is found. It is told at most once, and only what is surely a
/// mistake of its own: all of it is among the [first findings](crate::FirstFindings).
#[derive(Clone, Copy)]
pub struct Listener<'a> {
    /// Those that hold for the file.
    pub settings: &'a Settings,
    /// Hears it. Nothing goes on before it returns.
    pub hear: &'a dyn Fn(Vec<Finding>),
}

impl Listener<'_> {
    /// All names were looked up, and nothing is tied yet.
    pub(crate) fn before_tie(&self, script: &Script, names: &Facts) {
        let mut findings = report_problems(script);
        findings.extend(names.list().iter().map(|fact| said(script, fact)));
        // Of several, one may be the cause of another; and a name that is a word of the notation is tried in other places.
        if findings.len() == 1 && !names.list().iter().any(may_be_a_word) {
            self.tell(script, findings);
        }
    }

    /// Something is wrong with the tie, for the first time.
    pub(crate) fn first_fault(&self, script: &Script, fact: &Fact) {
        if report_problems(script).is_empty() {
            self.tell(script, vec![said(script, fact)]);
        }
    }

    fn tell(&self, script: &Script, findings: Vec<Finding>) {
        let files: Vec<_> = script.sources().map(Arc::clone).collect();
        (self.hear)(settle_findings(findings, &files, self.settings));
    }
}

impl fmt::Debug for Listener<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Listener").finish_non_exhaustive()
    }
}
