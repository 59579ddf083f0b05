//! What cannot be read or written: clear words, the right exit code, nothing lost.

use crate::stage::{BROKEN, GOOD, Stage};
use std::io::Read;
use std::process::Stdio;

#[test]
fn missing_files_are_reported_and_the_rest_is_done() {
    let stage = Stage::with(&[("a.knot", BROKEN)]);
    let said = stage.run(&["check", "--format", "short", "none.knot", "a.knot"]);
    assert_eq!(said.code, 2, "{said:?}");
    assert!(said.err.contains("error: none.knot: there is no such file or folder"), "{}", said.err);
    assert!(said.out.starts_with("a.knot:7:"), "{}", said.out);
    assert!(said.err.contains("2 files checked: 1 error, 1 unreadable file"), "{}", said.err);
}

#[test]
fn files_that_are_no_text_end_with_1() {
    let stage = Stage::with(&[]);
    stage.write("latin.knot", b"pattern \"\xe9t\xe9\"\n");
    stage.write("nul.knot", b"pattern\0\n");
    for command in ["check", "format"] {
        let said = stage.run(&[command, "latin.knot", "nul.knot"]);
        assert_eq!(said.code, 1, "{said:?}");
        assert!(
            said.err.contains("latin.knot: line 1, column 10: the byte 0xE9 is not UTF-8"),
            "{}",
            said.err
        );
        assert!(said.err.contains("nul.knot: line 1, column 8: a NUL byte"), "{}", said.err);
    }
}

#[test]
fn a_hundred_megabytes_are_refused_at_once() {
    let stage = Stage::with(&[]);
    let file = std::fs::File::create(stage.path("large.knot")).unwrap();
    file.set_len(100 * 1024 * 1024).unwrap();
    let begun = std::time::Instant::now();
    let said = stage.run(&["check", "large.knot"]);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.err.contains("large.knot: it is larger than 16 MiB"), "{}", said.err);
    assert!(begun.elapsed().as_secs() < 5);
}

#[cfg(unix)]
#[test]
fn a_name_that_is_not_utf8_is_reported() {
    use std::os::unix::ffi::OsStrExt;
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let name = std::ffi::OsStr::from_bytes(b"t\xeede.knot");
    std::fs::write(stage.path("").join(name), GOOD).unwrap();
    let said = stage.run(&["check", "."]);
    assert_eq!(said.code, 2, "{said:?}");
    assert!(said.err.contains("t\u{fffd}de.knot: the name of this file is not UTF-8"), "{}", said.err);
    assert!(said.err.contains("2 files checked"), "{}", said.err);
}

/// Whoever may read everything (root does) cannot be refused: then there is nothing to see.
#[cfg(unix)]
#[test]
fn files_and_folders_that_may_not_be_read_end_with_2() {
    use std::os::unix::fs::PermissionsExt;
    let stage = Stage::with(&[("a.knot", GOOD), ("shut/b.knot", GOOD)]);
    let shut = |path: &str, mode| {
        std::fs::set_permissions(stage.path(path), PermissionsExt::from_mode(mode)).unwrap()
    };
    shut("a.knot", 0o000);
    shut("shut", 0o000);
    if std::fs::read(stage.path("a.knot")).is_err() {
        let said = stage.run(&["check", "."]);
        assert_eq!(said.code, 2, "{said:?}");
        assert!(said.err.contains("a.knot: you have no right to read it"), "{}", said.err);
        assert!(said.err.contains("shut: you have no right to read it"), "{}", said.err);
    }
    shut("shut", 0o755);
}

#[test]
fn a_reader_that_goes_away_is_no_mistake_and_hides_none() {
    let names: Vec<String> = (0..3000).map(|number| format!("{number:04}.knot")).collect();
    let files: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), BROKEN)).collect();
    let stage = Stage::with(&files);
    let mut child =
        stage.command(&["check", "."]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut first = [0; 10];
    child.stdout.take().unwrap().read_exact(&mut first).unwrap();
    let output = child.wait_with_output().unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(said, "3000 files checked: 3000 errors\n", "nothing is said of the reader");
    assert_eq!(output.status.code(), Some(1), "a check that fails is not green for want of readers");
    let mut child = stage.command(&["explain"]).stdout(Stdio::piped()).spawn().unwrap();
    drop(child.stdout.take());
    assert_eq!(child.wait().unwrap().code(), Some(0));
}

/// That no number of an error is in it, every run of the program in these tests asserts.
#[cfg(unix)]
#[test]
fn what_the_system_refuses_is_told_in_words() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let long = format!("{}.svg", "a".repeat(300));
    let no_folder = "a part of its path is a file and no folder";
    let table: [(&[&str], &str); 6] = [
        (&["draw", "a.knot", "-o", "a.knot/x.svg"], no_folder),
        (&["draw", "a.knot", "-o", "none/x.svg"], "there is no such file or folder"),
        (&["draw", "a.knot", "-o", &long], "its name is too long"),
        (&["check", "a.knot/b.knot"], no_folder),
        (&["gallery", "a.knot", "-o", "a.knot"], "something of that name is there already"),
        (&["man", "--all", "a.knot/x"], no_folder),
    ];
    for (arguments, words) in table {
        let said = stage.run(arguments);
        assert_eq!(said.code, 2, "{arguments:?}: {said:?}");
        assert!(said.err.replace('\n', " ").contains(words), "{arguments:?}: {}", said.err);
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_reported() {
    let stage = Stage::with(&[("a.knot", BROKEN)]);
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let output = stage.command(&["check", "a.knot"]).stdout(full).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(
        String::from_utf8(output.stderr).unwrap().contains("the output cannot be written: the disk is full")
    );
}
