//! Names that can be searched: a type's name is defined once in the whole workspace.

use crate::files;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// The most type names that may be defined more than once, of a hundred. Other workspaces of this size have 1 to 6.
const MOST_PERCENT: usize = 6;

/// By name, the files that define it.
fn defined() -> BTreeMap<String, Vec<PathBuf>> {
    let mut defined: BTreeMap<String, Vec<PathBuf>> = BTreeMap::new();
    for (path, code) in files::sources() {
        for name in code.lines().filter_map(type_name) {
            defined.entry(name.to_owned()).or_default().push(path.clone());
        }
    }
    defined
}

/// The type that a line defines. A name that a trait asks for, as `type Item`, is no choice of ours and stands further in.
fn type_name(line: &str) -> Option<&str> {
    let item = line.trim_start().strip_prefix("pub").map_or(line.trim_start(), |rest| {
        let rest =
            rest.strip_prefix('(').and_then(|rest| rest.split_once(')')).map_or(rest, |(_, rest)| rest);
        rest.trim_start()
    });
    let (kind, rest) = item.split_once(' ')?;
    let is_alias = kind == "type" && !line.starts_with(' ');
    if !is_alias && !matches!(kind, "struct" | "enum" | "trait" | "union") {
        return None;
    }
    let end = rest.find(|letter: char| !letter.is_alphanumeric() && letter != '_').unwrap_or(rest.len());
    Some(&rest[..end]).filter(|name| name.starts_with(char::is_uppercase))
}

#[test]
fn a_type_name_is_defined_once() {
    let defined = defined();
    assert!(defined.len() > 100, "only {} types were found", defined.len());
    let twice: Vec<_> = defined.iter().filter(|(_, places)| places.len() > 1).collect();
    let most = defined.len() * MOST_PERCENT / 100;
    println!("{} of {} type names are defined more than once", twice.len(), defined.len());
    assert!(
        twice.len() <= most,
        "{} of {} type names are defined more than once, at most {most} may be: {twice:#?}",
        twice.len(),
        defined.len()
    );
}

#[test]
fn a_definition_is_known_whatever_stands_before_it() {
    for (line, name) in [
        ("pub struct Knot {", Some("Knot")),
        ("pub(crate) enum Head<'a> {", Some("Head")),
        ("    pub(super) struct Step(u8);", Some("Step")),
        ("trait Owner: Send {", Some("Owner")),
        ("type Arrows = BTreeMap<String, u8>;", Some("Arrows")),
        ("    type Item = u8;", None),
        ("// struct Knot is no more", None),
        ("pub fn structure() {}", None),
    ] {
        assert_eq!(type_name(line), name, "{line}");
    }
}
