//! The queries of `grammar/tree-sitter/queries` with the names that each editor has for their captures.

use crate::{Made, read};
use std::collections::BTreeMap;
use std::path::Path;

const SOURCE: &str = "grammar/tree-sitter/queries";

/// An editor: its column in the table, its folder, and the queries that it reads.
struct Dialect {
    column: usize,
    folder: &'static str,
    files: &'static [&'static str],
}

const DIALECTS: &[Dialect] = &[
    Dialect {
        column: 0,
        folder: "editors/neovim/queries/knotwright",
        files: &["folds", "highlights", "indents", "injections", "locals", "textobjects"],
    },
    Dialect {
        column: 1,
        folder: "editors/helix/queries/knotwright",
        files: &["highlights", "indents", "injections", "locals", "textobjects"],
    },
    Dialect {
        column: 2,
        folder: "editors/zed/languages/knotwright",
        files: &["highlights", "indents", "injections", "textobjects"],
    },
];

pub(crate) fn made() -> Vec<Made> {
    let table = read(&format!("{SOURCE}/dialects.txt"));
    DIALECTS.iter().flat_map(|dialect| queries(dialect, &names(&table, dialect.column))).collect()
}

/// The name of every capture in one editor; `None` where it has none.
fn names(table: &str, column: usize) -> BTreeMap<&str, Option<&str>> {
    let rows = table.lines().filter(|line| !line.starts_with('#')).map(|line| line.split_whitespace());
    rows.map(Iterator::collect::<Vec<_>>)
        .filter(|row| !row.is_empty())
        .map(|row| (row[0], Some(row[column]).filter(|name| *name != "-")))
        .collect()
}

fn queries(dialect: &Dialect, names: &BTreeMap<&str, Option<&str>>) -> Vec<Made> {
    let made = |file: &&str| Made {
        path: Path::new(dialect.folder).join(format!("{file}.scm")),
        text: format!(
            "; Made from {SOURCE}/{file}.scm by `cargo xtask bless`.\n{}",
            translated(&read(&format!("{SOURCE}/{file}.scm")), names)
        ),
    };
    dialect.files.iter().map(made).collect()
}

/// A query with every capture renamed. A `@` in a comment or a string would be renamed too; there is none.
fn translated(query: &str, names: &BTreeMap<&str, Option<&str>>) -> String {
    let mut parts = query.split('@');
    let mut text = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let end = part.find(|c: char| !c.is_ascii_alphanumeric() && c != '.' && c != '_');
        let (name, rest) = part.split_at(end.unwrap_or(part.len()));
        match names.get(name) {
            Some(Some(theirs)) => text.extend(["@", theirs, rest]),
            Some(None) => text = text.trim_end_matches(' ').to_owned() + rest,
            None => panic!("dialects.txt does not know @{name}"),
        }
    }
    text
}
