//! `cargo test --workspace` needs nothing but Rust: a test that runs another program says so, and is passed over.

use crate::files;

/// What a test may start: cargo itself, and what every Unix has, for tests that are of Unix only.
const THERE: [&str; 3] = ["cargo", "rustc", "sleep"];

#[test]
fn a_test_that_runs_another_program_is_ignored_unless_that_is_asked_for() {
    let starts = format!("Command::{}(\"", "new");
    let mut undeclared = Vec::new();
    for path in files::kept(".rs") {
        let is_test = path.iter().any(|part| part == "tests");
        let is_declared = path.iter().any(|part| part == "with_git");
        let text = files::text(&path).expect("a source is text");
        let programs = text.split(&starts).skip(1).filter_map(|rest| rest.split('"').next());
        let undeclared_here = programs.filter(|program| !THERE.contains(program));
        if is_test && !is_declared {
            undeclared.extend(undeclared_here.map(|program| format!("{}: {program}", path.display())));
        }
    }
    assert!(undeclared.is_empty(), "put these into a tier of `cargo xtask test`: {undeclared:#?}");
}

#[test]
fn what_needs_git_is_ignored_unless_that_is_asked_for() {
    for path in files::kept(".rs").into_iter().filter(|path| path.iter().any(|part| part == "with_git")) {
        let text = files::text(&path).expect("a source is text");
        let (tests, ignored) =
            (text.matches("#[test]\n").count(), text.matches("#[test]\n#[ignore = ").count());
        assert_eq!(tests, ignored, "{}", path.display());
    }
}
