//! What a rule is. Each stands in a file of its own in `rules/`; its name is its only identity.

use crate::Severity;

/// A rule: the page that `explain` shows, and the name under which settings and `-- allow` know it.
#[derive(Debug, PartialEq)]
pub struct Rule {
    /// Its stable kebab-case name.
    pub name: &'static str,
    /// How grave its findings are if the settings say nothing.
    pub severity: Severity,
    /// What it says, in one line.
    pub summary: &'static str,
    /// Why it matters to a person who ties the band.
    pub why: &'static str,
    /// A whole file in which it is found.
    pub example: &'static str,
    /// The same file, mended: the rule finds nothing in it.
    pub instead: &'static str,
}
