//! Files for editors that are made from others: the words of the notation in every grammar, the tree-sitter queries
//! in the dialect of every editor. After a change of what they are made from, rewrite them with `cargo xtask
//! bless`:
//!
//!     cargo test -p knotwright-tests --test made -- --ignored

#![allow(clippy::disallowed_methods, reason = "the tests compare files")]

mod compiled;
mod plist;
mod queries;
mod templates;

use std::path::PathBuf;

/// A file that is made: where it belongs, from the top of the checkout, and its text.
struct Made {
    path: PathBuf,
    text: String,
}

fn top() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
}

/// The text of a file, its path from the top.
fn read(path: &str) -> String {
    let text = std::fs::read_to_string(top().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"));
    text.replace("\r\n", "\n")
}

fn all() -> impl Iterator<Item = Made> {
    templates::made().into_iter().chain(queries::made())
}

#[test]
fn the_files_are_as_they_are_made() {
    for made in all() {
        let there = std::fs::read_to_string(top().join(&made.path)).unwrap_or_default().replace("\r\n", "\n");
        assert_eq!(there, made.text, "{}; rewrite it with `cargo xtask bless`", made.path.display());
    }
}

#[test]
#[ignore = "rewrites the files"]
fn bless() {
    for made in all() {
        let path = top().join(made.path);
        std::fs::create_dir_all(path.parent().expect("a file is in a folder")).expect("folders can be made");
        std::fs::write(path, made.text).expect("files can be written");
    }
}
