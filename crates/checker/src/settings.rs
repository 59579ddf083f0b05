//! How grave the findings of a rule are, and what a `knotwright.toml` says of that.
//!
//! ```toml
//! exclude = ["drafts/**"]
//!
//! [rules]
//! uneven-use = "off"
//! set-does-not-close = "error"
//!
//! [[folder]]
//! paths = ["archive/"]
//! rules = { idle-strand = "off" }
//! ```
//!
//! A warning can be switched off or made an error. An error stays one: a band that cannot be tied is not made
//! tieable by a setting.

mod reading;

pub use reading::{SettingsError, SettingsProblem};

use crate::{Finding, Rule, Severity, Source, allow};
use std::collections::BTreeMap;
use std::sync::Arc;

/// By name of a rule, how grave its findings are.
pub type Levels = BTreeMap<&'static str, Level>;

/// The severities that hold for one file. By default every rule is as grave as its page says.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Settings {
    /// A rule that is not named is as grave as its page says.
    pub levels: Levels,
    /// How many mends of a finding are shown, if not all: more may be found, but need not be put in order, which takes the
    /// longest.
    pub shown_mends: Option<usize>,
}

/// The text of a `knotwright.toml`, understood. Its paths are in the manner of .gitignore, from its folder.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SettingsFile {
    /// Whether the workspace begins at its folder, so that nothing above it counts.
    pub root: bool,
    /// Files and folders that are left alone.
    pub exclude: Vec<String>,
    /// For all files from its folder down.
    pub levels: Levels,
    /// For some of them, in the order in which they are written; a later one goes before an earlier one.
    pub folders: Vec<FolderSettings>,
}

/// A `[[folder]]` of the settings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FolderSettings {
    /// Which files and folders are meant; never none.
    pub paths: Vec<String>,
    /// How grave rules are there.
    pub levels: Levels,
}

/// How grave the findings of a rule are to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Level {
    /// They are not shown.
    Off,
    /// They are warnings.
    Warning,
    /// They are errors.
    Error,
}

impl SettingsFile {
    /// Reads the text of a `knotwright.toml`.
    ///
    /// # Errors
    /// The first thing that is wrong with it.
    pub fn parse(text: &str) -> Result<Self, SettingsError> {
        reading::read_settings(text)
    }
}

impl Settings {
    /// Adds what is said nearer to the file, which goes before what was said so far.
    pub fn add(&mut self, levels: &Levels) {
        self.levels.extend(levels);
    }

    /// How grave the findings of a rule are.
    pub fn level(&self, rule: &Rule) -> Level {
        let own = match rule.severity {
            Severity::Warning => Level::Warning,
            Severity::Error => Level::Error,
        };
        self.levels.get(rule.name).copied().unwrap_or(own)
    }

    /// The findings as they are to be shown: severities set, those that a comment allows left out.
    pub(crate) fn settle(&self, findings: Vec<Finding>, files: &[Arc<Source>]) -> Vec<Finding> {
        let settled = |finding: Finding| {
            let severity = match self.level(finding.rule) {
                Level::Off => return None,
                Level::Warning => Severity::Warning,
                Level::Error => Severity::Error,
            };
            Some(Finding { severity, ..finding })
        };
        allow::apply_allowances(findings, files).into_iter().filter_map(settled).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{NoLibrary, check};

    const UNUSED: &str = "pattern \"Slack tide\"\nthread kelp #1f5d50\nthread foam white\nstrands 4 kelp\nset { take left 1: forward 3 }\n";

    fn severities(settings: &str, text: &str) -> Vec<(&'static str, Severity)> {
        let levels = SettingsFile::parse(settings).unwrap().levels;
        let settings = Settings { levels, ..Settings::default() };
        let report = check(Arc::new(Source::new("band.knot", text)), &NoLibrary, &settings);
        report.findings.iter().map(|finding| (finding.rule.name, finding.severity)).collect()
    }

    #[test]
    fn a_warning_can_be_switched_off_or_made_an_error() {
        assert_eq!(severities("", UNUSED), [("unused-thread", Severity::Warning)]);
        assert_eq!(severities("[rules]\nunused-thread = \"off\"", UNUSED), []);
        let error = severities("rules.unused-thread = 'error'", UNUSED);
        assert_eq!(error, [("unused-thread", Severity::Error)]);
    }

    #[test]
    fn a_warning_made_an_error_can_still_be_allowed() {
        let text = UNUSED.replace("white", "white -- allow unused-thread: for winter");
        assert_eq!(severities("[rules]\nunused-thread = \"error\"", &text), []);
    }

    #[test]
    fn an_allowance_for_a_rule_that_is_off_is_no_finding() {
        let text = UNUSED.replace("white", "white -- allow unused-thread: for winter");
        assert_eq!(severities("[rules]\nunused-thread = \"off\"", &text), []);
    }
}
