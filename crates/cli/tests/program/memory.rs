//! How much memory a check takes, as the system counts it.

use crate::stage::{GOOD, Stage};
use std::fs;
use std::process::Stdio;
use std::time::Duration;

const TEN_MILLION: &str = "\
pattern \"Long pier\"
thread kelp #1f5d50
thread sand #e3c888
strands 2 kelp 2 sand

set {
  repeat 10000 { take left 1: forward-backward 1000 }
}
";

/// The most bytes that a command held at once; the system keeps count, and is asked until the program ends. What is given
/// back is given back at once, so that what counts is what the command needs, and not how soon the allocator returns it.
fn most_held(stage: &Stage, arguments: &[&str]) -> u64 {
    let mut command = stage.command(arguments);
    command.env("MIMALLOC_PURGE_DELAY", "0");
    let mut child = command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
    let mut most = 0;
    while child.try_wait().unwrap().is_none() {
        let status = fs::read_to_string(format!("/proc/{}/status", child.id())).unwrap_or_default();
        let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
        let kibibytes = line.and_then(|line| line.trim().trim_end_matches(" kB").parse::<u64>().ok());
        most = most.max(kibibytes.unwrap_or(0) * 1024);
        std::thread::sleep(Duration::from_millis(1));
    }
    most
}

#[test]
fn ten_million_knots_take_sixteen_bytes_each_and_of_several_such_files_one_at_a_time() {
    let stage = Stage::with(&[("good.knot", GOOD), ("a.knot", TEN_MILLION), ("b.knot", TEN_MILLION)]);
    let said = stage.run(&["check", "a.knot"]);
    assert_eq!(said.code, 0, "{said:?}");
    let little = most_held(&stage, &["check", "good.knot"]);
    // A chart of that many knots is refused before it is written.
    for arguments in [&["check", "a.knot"][..], &["check", "a.knot", "b.knot"], &["chart", "a.knot"]] {
        let bytes = most_held(&stage, arguments).saturating_sub(little);
        assert!((40_000_000..=160_000_000).contains(&bytes), "{arguments:?}: {bytes} bytes");
    }
    // Neither is planned, compared or put in a kit: each says that it would take too much memory. How much a refusal holds
    // depends on when it comes, so here the lower bound only shows that something was measured.
    let larger = [&["plan", "a.knot"][..], &["kit", "a.knot", "b.knot"], &["compare", "a.knot", "b.knot"]];
    for arguments in larger {
        let bytes = most_held(&stage, arguments).saturating_sub(little);
        assert!((1_000_000..=160_000_000).contains(&bytes), "{arguments:?}: {bytes} bytes");
        let said = stage.run(arguments);
        assert_ne!(said.code, 0, "{said:?}");
        assert!(said.err.contains("a.knot: its set has 10000000 knots; for more than a million"), "{said:?}");
    }
    let said = stage.run(&["chart", "a.knot"]);
    assert!(said.code == 1 && said.err.contains("larger than 16 MiB"), "{said:?}");
}
