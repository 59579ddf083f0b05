//! What no kept file may say.

use crate::files;
use std::path::Path;

/// A spelling or a path that is not wanted, put together here so that this file does not hold it.
fn unwanted() -> [(String, &'static str); 4] {
    [
        (format!("/{}/", "work"), "a path of one machine"),
        (format!("/{}/", "root"), "a path of one machine"),
        (format!("/{}/", "tmp"), "a path of one machine"),
        (format!("registry.{}", "npmjs"), "a registry's host"),
    ]
}

/// Machine-made files that no person writes.
fn made(path: &Path) -> bool {
    path.ends_with("Cargo.lock") || path.ends_with("package-lock.json") || path.ends_with("parser.c")
}

#[test]
fn no_file_knows_one_machine() {
    let found: Vec<_> = files::kept("")
        .into_iter()
        .filter(|path| !made(path))
        .flat_map(|path| {
            let text = files::text(&path).unwrap_or_default();
            unwanted()
                .into_iter()
                .filter(|(word, _)| text.contains(word.as_str()))
                .map(|(word, why)| format!("{}: {word} ({why})", path.display()))
                .collect::<Vec<_>>()
        })
        .collect();
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn identifiers_are_american() {
    let british = format!("col{}", "our");
    let found: Vec<_> = files::kept(".rs")
        .into_iter()
        .filter(|path| {
            let text = files::text(path).unwrap_or_default();
            text.lines().any(|line| {
                let code = line.split("//").next().unwrap_or_default();
                code.contains(&format!("{british}_")) || code.contains(&format!("_{british}"))
            })
        })
        .collect();
    assert!(found.is_empty(), "identifiers write `color`: {found:?}");
}
