//! What files stay when they are rewritten, whatever command does it.
#![cfg(unix)]

use crate::stage::{GOOD, Stage};
use rustix::process::Signal;
use std::fs;
use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};
use std::process::Stdio;
use std::time::Duration;

/// A number that is wrong, with one cure.
const MENDABLE: &str = "\
pattern \"High tide\"
thread kelp #1f5d50
thread sand #f3e3b8
thread coral #e2725b
thread night #0b1030
strands kelp coral sand night

set {
  take left 1: forwrad 3
  take left 1: forward 3
  take left 1: forward 3
  take left 1: forward 3
  expect start
}
";

const STALE: &str = "# Low tide\n\n<!-- knotwright write a.knot -->\n\nold\n\n<!-- /knotwright -->\n";

/// Each command that rewrites a file, the file, and its text before.
fn rewriters() -> [(&'static [&'static str], &'static str, String); 4] {
    [
        (&["format", "f.knot"], "f.knot", GOOD.replace("  take", "     take")),
        (&["check", "--mend", "f.knot"], "f.knot", MENDABLE.to_owned()),
        (&["refresh", "f.md"], "f.md", STALE.to_owned()),
        (&["draw", "a.knot", "-o", "f.svg"], "f.svg", "old".to_owned()),
    ]
}

fn stage(file: &str, text: &str) -> Stage {
    Stage::with(&[("a.knot", GOOD), (file, text), ("knotwright.toml", "")])
}

#[test]
fn permissions_and_owner_stay() {
    for (command, file, text) in rewriters() {
        let stage = stage(file, &text);
        fs::set_permissions(stage.path(file), fs::Permissions::from_mode(0o640)).unwrap();
        // Only those who may give files away can try the rest.
        let _ = std::os::unix::fs::chown(stage.path(file), Some(12_345), Some(54_321));
        let before = fs::metadata(stage.path(file)).unwrap();
        let said = stage.run(command);
        assert_ne!(stage.read(file), text, "{command:?}: {said:?}");
        let after = fs::metadata(stage.path(file)).unwrap();
        let kept = |about: &fs::Metadata| (about.mode(), about.uid(), about.gid());
        assert_eq!(kept(&after), kept(&before), "{command:?}");
        assert_ne!(after.ino(), before.ino(), "whole: another file takes its place");
        assert_eq!(stage.names().len(), 3, "{:?}", stage.names());
    }
}

#[test]
fn a_file_of_two_names_is_left_alone_and_that_is_reported() {
    for (command, file, text) in rewriters() {
        let stage = stage(file, &text);
        fs::hard_link(stage.path(file), stage.path("other")).unwrap();
        let said = stage.run(command);
        assert_eq!((said.code, stage.read(file)), (2, text), "{command:?}: {said:?}");
        assert!(said.err.contains("2 names (hard links)"), "{said:?}");
    }
}

#[test]
fn a_link_stays_one_and_out_of_the_workspace_none_is_followed() {
    for (command, file, text) in rewriters() {
        let stage = stage("inner", &text);
        symlink("inner", stage.path(file)).unwrap();
        let said = stage.run(command);
        assert_ne!(stage.read("inner"), text, "{command:?}: {said:?}");
        assert!(fs::symlink_metadata(stage.path(file)).unwrap().is_symlink());

        let outside = Stage::with(&[("theirs", &text)]);
        fs::remove_file(stage.path(file)).unwrap();
        symlink(outside.path("theirs"), stage.path(file)).unwrap();
        let said = stage.run(command);
        assert_eq!((said.code, outside.read("theirs")), (2, text), "{command:?}: {said:?}");
        assert!(said.err.contains("symbolic link out of its workspace"), "{said:?}");
    }
}

#[test]
fn a_new_picture_does_not_replace_a_link_that_leads_nowhere() {
    let stage = stage("f", "");
    symlink("nowhere.svg", stage.path("f.svg")).unwrap();
    let said = stage.run(&["draw", "a.knot", "-o", "f.svg"]);
    assert!(said.code == 2 && said.err.contains("leads to no file"), "{said:?}");
    assert!(!stage.path("nowhere.svg").exists());
}

/// Many files take a while; the signal comes in the middle.
#[test]
fn an_interrupted_run_leaves_nothing_behind() {
    let text = GOOD.replace("  take", "     take");
    let names: Vec<String> = (0..3000).map(|number| format!("{number:04}.knot")).collect();
    for signal in [Signal::INT, Signal::TERM] {
        let stage = Stage::with(&names.iter().map(|name| (name.as_str(), text.as_str())).collect::<Vec<_>>());
        let mut child = stage.command(&["format", "."]).stderr(Stdio::null()).spawn().unwrap();
        while stage.read("0000.knot") == text {
            std::thread::sleep(Duration::from_millis(1));
        }
        rustix::process::kill_process(rustix::process::Pid::from_child(&child), signal).unwrap();
        let status = child.wait().unwrap();
        let left: Vec<String> = stage.names().into_iter().filter(|name| !names.contains(name)).collect();
        assert!(left.is_empty(), "{signal:?}: {left:?}");
        let half = names.iter().find(|name| stage.read(name) != text && stage.read(name) != GOOD);
        assert_eq!(half, None, "each is whole");
        let number = std::os::unix::process::ExitStatusExt::signal(&status);
        assert_eq!(number, Some(signal.as_raw()), "whoever started it sees why it ended");
    }
}

#[test]
fn what_a_killed_run_left_behind_is_swept_by_the_next() {
    let stage = stage("f.knot", &GOOD.replace("  take", "     take"));
    stage.write(".knotwright-a1B2c3", "half a patte");
    stage.write(".knotwright-of-mine", "");
    assert_eq!(stage.run(&["format", "f.knot"]).code, 0);
    assert_eq!(stage.names(), [".knotwright-of-mine", "a.knot", "f.knot", "knotwright.toml"]);
}

#[cfg(target_os = "linux")]
#[test]
fn what_is_no_file_is_written_to_or_left_alone() {
    let stage = stage("f", "");
    let out = fs::File::create(stage.path("f")).unwrap();
    let mut draw = stage.command(&["draw", "a.knot", "--format", "svg", "-o", "/dev/stdout"]);
    assert!(draw.stdout(out).status().unwrap().success());
    assert!(stage.read("f").ends_with("</svg>\n"));
    stage.pipe("p.knot");
    let mut format = stage.command(&["format", "p.knot"]).stderr(Stdio::piped()).spawn().unwrap();
    fs::write(stage.path("p.knot"), GOOD.replace("  take", "     take")).unwrap();
    assert_eq!(format.wait().unwrap().code(), Some(2));
    let kind = fs::symlink_metadata(stage.path("p.knot")).unwrap().file_type();
    assert!(std::os::unix::fs::FileTypeExt::is_fifo(&kind), "it is still a pipe");
}

#[cfg(target_os = "linux")]
#[test]
fn a_pipe_is_not_followed_by_a_picture() {
    let stage = stage("f", "");
    stage.pipe("p.knot");
    let said = stage.run(&["preview", "--no-open", "p.knot"]);
    assert!(said.code == 2 && said.err.contains("neither a file nor a folder"), "{said:?}");
}
