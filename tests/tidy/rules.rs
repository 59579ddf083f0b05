//! A rule's name is written in its own file alone. Code that treats some rules differently asks for their tags, so that a
//! rule can be renamed, or another of its kind added, in one place.

use crate::files;
use std::path::PathBuf;

/// The name that the file of a rule gives it.
fn name(code: &str) -> Option<&str> {
    let (_, rule) = code.split_once("static RULE: Rule = Rule {")?;
    let (_, name) = rule.split_once("name: \"")?;
    name.split('"').next()
}

#[test]
fn a_rule_is_named_in_its_own_file_alone() {
    let sources: Vec<(PathBuf, String)> = files::sources().collect();
    let rules: Vec<(&PathBuf, String)> =
        sources.iter().filter_map(|(path, code)| Some((path, format!("\"{}\"", name(code)?)))).collect();
    assert!(rules.len() > 50, "the files of the rules were read");
    let mut found = Vec::new();
    for (path, code) in &sources {
        let foreign = rules.iter().filter(|(own, name)| *own != path && code.contains(name));
        found.extend(foreign.map(|(_, name)| format!("{}: {name}", path.display())));
    }
    assert!(found.is_empty(), "ask for a tag of the rule (`Rule::has`), not for its name: {found:#?}");
}
