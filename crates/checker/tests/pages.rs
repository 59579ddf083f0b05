//! The pages in docs/rules are those that `explain` shows. After changing a rule, rewrite them:
//!
//!     cargo test -p knotwright-checker --test pages -- --ignored

#![allow(clippy::disallowed_methods, reason = "the test compares files")]

use knotwright_checker::rules;
use std::collections::BTreeMap;
use std::path::PathBuf;

fn folder() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/rules"))
}

/// By name of file, what should stand in it.
fn pages() -> BTreeMap<String, String> {
    let pages =
        rules::all().iter().map(|rule| (format!("{}.md", rule.name), wrapped(&rules::write_page(rule))));
    pages.chain([("README.md".to_owned(), rules::write_index())]).collect()
}

/// The page with its paragraphs in lines of at most this many columns; a terminal and an editor wrap them themselves.
const COLUMNS: usize = 110;

fn wrapped(page: &str) -> String {
    let mut is_example = false;
    let mut lines = Vec::new();
    for line in page.lines() {
        is_example ^= line.starts_with("```");
        if is_example || line.chars().count() <= COLUMNS {
            lines.push(line.to_owned());
            continue;
        }
        let mut filled = String::new();
        for word in line.split(' ') {
            if !filled.is_empty() && filled.chars().count() + 1 + word.chars().count() > COLUMNS {
                lines.push(std::mem::take(&mut filled));
            }
            if !filled.is_empty() {
                filled.push(' ');
            }
            filled.push_str(word);
        }
        lines.push(filled);
    }
    lines.join("\n") + "\n"
}

fn committed() -> BTreeMap<String, String> {
    let files = std::fs::read_dir(folder()).into_iter().flatten().map(|entry| entry.unwrap());
    files
        .map(|file| {
            let text = std::fs::read_to_string(file.path()).unwrap().replace("\r\n", "\n");
            (file.file_name().into_string().unwrap(), text)
        })
        .collect()
}

#[test]
fn the_pages_are_as_the_rules_say() {
    let (pages, committed) = (pages(), committed());
    assert_eq!(
        committed.keys().collect::<Vec<_>>(),
        pages.keys().collect::<Vec<_>>(),
        "see the head of this file"
    );
    for (name, page) in &pages {
        assert_eq!(&committed[name], page, "{name}; see the head of this file");
    }
}

#[test]
#[ignore = "rewrites docs/rules"]
fn bless() {
    let _ = std::fs::remove_dir_all(folder());
    std::fs::create_dir_all(folder()).unwrap();
    for (name, page) in pages() {
        std::fs::write(folder().join(name), page).unwrap();
    }
}
