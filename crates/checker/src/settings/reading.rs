//! The text of a `knotwright.toml`.

use super::{FolderSettings, Level, Levels, SettingsFile};
use crate::resolve::nearest_word;
use crate::wording::quoted;
use crate::{Rule, Severity, rules};
use knotwright_grammar::Span;
use std::fmt;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeString, DeTable, DeValue};

const KEYS: [&str; 4] = ["exclude", "folder", "root", "rules"];

/// The keys of a `[[folder]]`.
const FOLDER_KEYS: [&str; 2] = ["paths", "rules"];

/// What is wrong with the settings, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SettingsError {
    /// The bytes of the text.
    pub span: Span,
    /// The line, counted from 1.
    pub line: usize,
    /// What is wrong.
    pub problem: SettingsProblem,
}

/// What is wrong with the settings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SettingsProblem {
    /// It is not TOML, for this reason.
    NotToml(String),
    /// A key that is none of the settings.
    UnknownKey {
        /// As written.
        key: String,
        /// The key most like it.
        nearest: Option<&'static str>,
    },
    /// A key that is none of a `[[folder]]`.
    UnknownFolderKey {
        /// As written.
        key: String,
        /// The key most like it.
        nearest: Option<&'static str>,
    },
    /// No rule of that name.
    UnknownRule {
        /// As written.
        rule: String,
        /// The rule most like it.
        nearest: Option<&'static str>,
    },
    /// A severity other than `"off"`, `"warning"` and `"error"`.
    UnknownLevel {
        /// The rule.
        rule: &'static str,
    },
    /// A rule of errors that is to be off, or a warning.
    StaysAnError {
        /// The rule.
        rule: &'static str,
    },
    /// `rules` is no table.
    RulesNoTable,
    /// `exclude` is no list of texts.
    ExcludeNoList,
    /// `root` is neither true nor false.
    RootNotBool,
    /// `folder` is no list of tables.
    FolderNoTables,
    /// A `[[folder]]` without `paths`, or whose `paths` are no list of texts, or an empty one.
    FolderWithoutPaths,
}

impl fmt::Display for SettingsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}: {}", self.line, self.problem)
    }
}

impl std::error::Error for SettingsError {}

impl fmt::Display for SettingsProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotToml(reason) => write!(f, "this is not TOML: {reason}"),
            Self::UnknownKey { key, nearest } => {
                write!(f, "no setting is called {}", quoted(key))?;
                suggest(f, *nearest, "there are `root`, `exclude`, `[rules]` and `[[folder]]`")
            }
            Self::UnknownFolderKey { key, nearest } => {
                write!(f, "no setting of a `[[folder]]` is called {}", quoted(key))?;
                suggest(f, *nearest, "there are `paths` and `rules`")
            }
            Self::UnknownRule { rule, nearest } => {
                write!(f, "no rule is called {}", quoted(rule))?;
                suggest(f, *nearest, "`knotwright explain` lists them")
            }
            Self::UnknownLevel { rule } => {
                write!(f, "`{rule}` can be \"off\", \"warning\" or \"error\", in quotation marks")
            }
            Self::StaysAnError { rule } => write!(
                f,
                "`{rule}` is an error and stays one: what cannot be tied, or was promised and is not so, must be mended"
            ),
            Self::RulesNoTable => f.write_str("`rules` is a table: write `[rules]` and the rules below it"),
            Self::ExcludeNoList => {
                f.write_str("`exclude` is a list of texts: write `exclude = [\"drafts/**\"]`")
            }
            Self::RootNotBool => f.write_str("`root` is `true` or `false`, without quotation marks"),
            Self::FolderNoTables => {
                f.write_str("`folder` is written `[[folder]]`, with its `paths` and `rules` below it")
            }
            Self::FolderWithoutPaths => {
                f.write_str("a `[[folder]]` says which files it is for: write `paths = [\"archive/\"]`")
            }
        }
    }
}

fn suggest(f: &mut fmt::Formatter<'_>, nearest: Option<&str>, otherwise: &str) -> fmt::Result {
    match nearest {
        Some(name) => write!(f, "; did you mean `{name}`?"),
        None => write!(f, "; {otherwise}"),
    }
}

/// A problem and its bytes.
type Trouble = (Range<usize>, SettingsProblem);

pub(super) fn read_settings(text: &str) -> Result<SettingsFile, SettingsError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    settings(text).map_err(|(bytes, problem)| SettingsError {
        span: Span::new(bytes.start, bytes.end),
        line: text.get(..bytes.start).unwrap_or(text).matches('\n').count() + 1,
        problem,
    })
}

fn settings(text: &str) -> Result<SettingsFile, Trouble> {
    let table = DeTable::parse(text).map_err(|error| {
        (
            error.span().unwrap_or(0..0),
            SettingsProblem::NotToml(error.message().trim_end_matches('.').to_owned()),
        )
    })?;
    let mut settings = SettingsFile::default();
    for (key, value) in table.get_ref() {
        match key.get_ref().as_ref() {
            "exclude" => settings.exclude = texts(value, SettingsProblem::ExcludeNoList)?,
            "folder" => settings.folders = folders(value)?,
            "root" => {
                let root = value.get_ref().as_bool();
                settings.root = root.ok_or_else(|| (value.span(), SettingsProblem::RootNotBool))?;
            }
            "rules" => settings.levels = levels(value)?,
            other => {
                let nearest = nearest_word(other, KEYS.into_iter());
                return Err((key.span(), SettingsProblem::UnknownKey { key: other.to_owned(), nearest }));
            }
        }
    }
    Ok(settings)
}

/// A list of texts; `otherwise` is said if it is none.
fn texts(value: &Spanned<DeValue>, otherwise: SettingsProblem) -> Result<Vec<String>, Trouble> {
    let no_list = |span| (span, otherwise.clone());
    let list = value.get_ref().as_array().ok_or_else(|| no_list(value.span()))?;
    let text = |item: &Spanned<DeValue>| {
        item.get_ref().as_str().map(str::to_owned).ok_or_else(|| no_list(item.span()))
    };
    list.iter().map(text).collect()
}

fn folders(value: &Spanned<DeValue>) -> Result<Vec<FolderSettings>, Trouble> {
    let no_tables = |span| (span, SettingsProblem::FolderNoTables);
    let list = value.get_ref().as_array().ok_or_else(|| no_tables(value.span()))?;
    list.iter()
        .map(|item| {
            let table = item.get_ref().as_table().ok_or_else(|| no_tables(item.span()))?;
            folder(item.span(), table)
        })
        .collect()
}

fn folder(span: Range<usize>, table: &DeTable) -> Result<FolderSettings, Trouble> {
    let mut folder = FolderSettings { paths: Vec::new(), levels: Levels::new() };
    for (key, value) in table {
        match key.get_ref().as_ref() {
            "paths" => folder.paths = texts(value, SettingsProblem::FolderWithoutPaths)?,
            "rules" => folder.levels = levels(value)?,
            other => {
                let nearest = nearest_word(other, FOLDER_KEYS.into_iter());
                let problem = SettingsProblem::UnknownFolderKey { key: other.to_owned(), nearest };
                return Err((key.span(), problem));
            }
        }
    }
    if folder.paths.is_empty() { Err((span, SettingsProblem::FolderWithoutPaths)) } else { Ok(folder) }
}

fn levels(value: &Spanned<DeValue>) -> Result<Levels, Trouble> {
    let table = value.get_ref().as_table().ok_or_else(|| (value.span(), SettingsProblem::RulesNoTable))?;
    let one = |(key, value): (&Spanned<DeString>, &Spanned<DeValue>)| {
        let written = key.get_ref().as_ref();
        let rule = rules::named(written).ok_or_else(|| {
            let nearest = nearest_word(written, rules::all().iter().map(|rule| rule.name));
            (key.span(), SettingsProblem::UnknownRule { rule: written.to_owned(), nearest })
        })?;
        let level = level(rule, value.get_ref().as_str()).map_err(|problem| (value.span(), problem))?;
        Ok((rule.name, level))
    };
    table.iter().map(one).collect()
}

fn level(rule: &'static Rule, written: Option<&str>) -> Result<Level, SettingsProblem> {
    let level = match written {
        Some("off") => Level::Off,
        Some("warning") => Level::Warning,
        Some("error") => Level::Error,
        _ => return Err(SettingsProblem::UnknownLevel { rule: rule.name }),
    };
    if rule.severity == Severity::Error && level != Level::Error {
        return Err(SettingsProblem::StaysAnError { rule: rule.name });
    }
    Ok(level)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(text: &str) -> String {
        read_settings(text).unwrap_err().to_string()
    }

    #[test]
    fn an_empty_file_changes_nothing() {
        assert_eq!(read_settings(""), Ok(SettingsFile::default()));
        assert_eq!(read_settings("\u{feff}# nothing yet\r\n"), Ok(SettingsFile::default()));
    }

    #[test]
    fn rules_and_excludes_are_read() {
        let settings =
            read_settings("exclude = ['drafts/**', \"old\"]\n[rules]\nmissing-brick = 'off'\n").unwrap();
        assert_eq!(settings.exclude, ["drafts/**", "old"]);
        assert_eq!(settings.levels["missing-brick"], Level::Off);
    }

    #[test]
    fn folders_have_rules_of_their_own() {
        let text = "root = true\n[[folder]]\npaths = ['archive/']\n[folder.rules]\nmissing-brick = 'off'\n\n\
                    [[folder]]\npaths = ['trials/**', 'old']\nrules = { missing-brick = 'error' }\n";
        let settings = read_settings(text).unwrap();
        assert!(settings.root);
        let folders: Vec<_> =
            settings.folders.iter().map(|of| (&*of.paths[0], of.levels["missing-brick"])).collect();
        assert_eq!(folders, [("archive/", Level::Off), ("trials/**", Level::Error)]);
        assert!(refused("[[folder]]\nrules = {}").starts_with("line 1: a `[[folder]]` says which files"));
        assert!(refused("[[folder]]\npaths = []").contains("says which files"));
        assert!(refused("[[folder]]\npaths = 'a'").starts_with("line 2: a `[[folder]]` says which files"));
        assert!(refused("[folder]\npaths = ['a']").contains("is written `[[folder]]`"));
        assert!(refused("[[folder]]\npath = ['a']").contains("did you mean `paths`?"));
        assert!(refused("root = 'yes'").contains("without quotation marks"));
    }

    #[test]
    fn what_is_not_known_is_reported_with_its_line_and_the_nearest_name() {
        let reported = refused("\n[rules]\nmising-brick = \"off\"\n");
        assert_eq!(reported, "line 3: no rule is called `mising-brick`; did you mean `missing-brick`?");
        assert_eq!(refused("exclud = []"), "line 1: no setting is called `exclud`; did you mean `exclude`?");
        assert_eq!(
            refused("gauge = 3"),
            "line 1: no setting is called `gauge`; there are `root`, `exclude`, `[rules]` and `[[folder]]`"
        );
    }

    #[test]
    fn the_place_covers_the_wrong_word() {
        let text = "[rules]\nmissing-brick = \"loud\"\n";
        let error = read_settings(text).unwrap_err();
        assert_eq!(error.span.of(text), "\"loud\"");
        assert_eq!(error.problem, SettingsProblem::UnknownLevel { rule: "missing-brick" });
    }

    #[test]
    fn an_error_stays_an_error() {
        assert!(refused("[rules]\npast-the-edge = \"off\"").contains("is an error and stays one"));
        assert!(refused("[rules]\npast-the-edge = \"warning\"").contains("is an error and stays one"));
        assert!(read_settings("[rules]\npast-the-edge = \"error\"").is_ok());
    }

    #[test]
    fn values_of_the_wrong_sort_are_reported() {
        assert!(refused("rules = 3").contains("`rules` is a table"));
        assert!(refused("exclude = 'drafts'").contains("`exclude` is a list of texts"));
        assert!(refused("exclude = [3]").contains("`exclude` is a list of texts"));
        assert!(refused("[rules]\nmissing-brick = true").contains("in quotation marks"));
        assert!(refused("[rules\n").starts_with("line 1: this is not TOML: "));
    }
}
