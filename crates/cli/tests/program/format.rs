//! `format`: files are written, named or shown.

use crate::stage::{GOOD, Stage};
use std::fs;

fn untidy() -> String {
    GOOD.replace("  take", "     take")
}

#[test]
fn files_are_written_the_usual_way_and_only_if_they_are_not() {
    let stage = Stage::with(&[("a.knot", &untidy()), ("b.knot", GOOD)]);
    let before = fs::metadata(stage.path("b.knot")).unwrap().modified().unwrap();
    let said = stage.run(&["format", "."]);
    assert_eq!((said.code, said.err.as_str()), (0, "1 of 2 files formatted\n"));
    assert_eq!(stage.read("a.knot"), GOOD);
    assert_eq!(fs::metadata(stage.path("b.knot")).unwrap().modified().unwrap(), before);
    assert_eq!(stage.names(), ["a.knot", "b.knot"], "nothing is left lying about");
}

#[test]
fn check_names_and_writes_nothing() {
    let stage = Stage::with(&[("a.knot", &untidy()), ("b.knot", GOOD)]);
    let said = stage.run(&["format", "--check", "."]);
    assert_eq!((said.code, said.out.as_str()), (1, "a.knot\n"), "{said:?}");
    assert_eq!(stage.read("a.knot"), untidy());
    assert_eq!(stage.run(&["format", "--check", "b.knot"]).code, 0);
}

#[test]
fn diff_shows_what_patch_could_apply() {
    let stage = Stage::with(&[("a.knot", &untidy())]);
    let said = stage.run(&["format", "--diff", "a.knot"]);
    assert_eq!(said.code, 1);
    assert!(said.out.starts_with("--- a.knot\n+++ a.knot\n@@ -"), "{}", said.out);
    assert!(said.out.contains("\n-     take left 1: forward 3\n"), "{}", said.out);
    assert!(said.out.contains("\n+  take left 1: forward 3\n"), "{}", said.out);
    assert_eq!(stage.read("a.knot"), untidy());
}

#[test]
fn line_ends_and_the_byte_order_mark_are_kept() {
    let windows = |text: &str| format!("\u{feff}{}", text.replace('\n', "\r\n"));
    let stage = Stage::with(&[("a.knot", &windows(&untidy()))]);
    assert_eq!(stage.run(&["format", "a.knot"]).code, 0);
    assert_eq!(stage.read("a.knot"), windows(GOOD));
}

#[test]
fn what_cannot_be_read_stays_and_ends_with_1() {
    let broken = untidy().replace("expect start", "expect   @@  start");
    let stage = Stage::with(&[("a.knot", &broken)]);
    let said = stage.run(&["format", "a.knot"]);
    assert_eq!(said.code, 1, "{said:?}");
    assert_eq!(stage.read("a.knot"), GOOD.replace("expect start", "expect   @@  start"));
    assert!(said.err.contains("a.knot: one place could not be read"), "{}", said.err);
}

#[cfg(unix)]
#[test]
fn permissions_and_links_are_kept_and_a_protected_file_is_left_alone() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let stage = Stage::with(&[("a.knot", &untidy()), ("locked.knot", &untidy())]);
    fs::set_permissions(stage.path("a.knot"), fs::Permissions::from_mode(0o750)).unwrap();
    fs::set_permissions(stage.path("locked.knot"), fs::Permissions::from_mode(0o444)).unwrap();
    symlink("a.knot", stage.path("link.knot")).unwrap();
    assert_eq!(stage.run(&["format", "link.knot"]).code, 0);
    assert_eq!(stage.read("a.knot"), GOOD);
    assert_eq!(fs::metadata(stage.path("a.knot")).unwrap().permissions().mode() & 0o777, 0o750);
    assert!(fs::symlink_metadata(stage.path("link.knot")).unwrap().is_symlink());
    let said = stage.run(&["format", "locked.knot"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("locked.knot: it is write-protected"), "{}", said.err);
    assert_eq!(stage.read("locked.knot"), untidy());
}

#[test]
fn markdown_is_not_formatted() {
    let stage = Stage::with(&[("a.md", "```knot\n```\n")]);
    assert_eq!(stage.run(&["format", "a.md"]).code, 2);
}

#[cfg(unix)]
#[test]
fn a_name_neither_moves_the_cursor_nor_commands_a_workflow() {
    let names = ["::error::owned.knot", "a\n::error::owned.knot", "b\u{1b}[2J.knot", "c\u{202e}tonk.knot"];
    for text in [untidy(), "pattern\0".to_owned(), "knot\n".to_owned()] {
        let files: Vec<(&str, &str)> = names.iter().map(|name| (*name, text.as_str())).collect();
        let stage = Stage::with(&files);
        for arguments in [
            &["format", "--check", "."][..],
            &["format", "--diff", "."],
            &["check", "--format", "short", "."],
            &["format", "."],
        ] {
            let said = stage.run(arguments);
            for line in said.out.lines().chain(said.err.lines()) {
                assert!(!line.trim_start().starts_with("::"), "{arguments:?}: {line}");
            }
            // A difference is for `patch`, byte for byte.
            let shown =
                if arguments.contains(&"--diff") { &said.err } else { &format!("{}{}", said.out, said.err) };
            assert!(!shown.contains(['\u{1b}', '\u{202e}']), "{arguments:?}: {shown:?}");
        }
    }
    let stage = Stage::with(&[("::error::owned.knot", &untidy())]);
    assert_eq!(
        stage.run(&["format", "--check", "."]).out,
        "./::error::owned.knot\n",
        "it is found by that name"
    );
}
