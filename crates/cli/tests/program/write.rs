//! `write`

use crate::follow::{Follower, Tied, exported, exported_beads, times};
use crate::stage::{GOOD, Stage};
use knotwright_checker::{NoLibrary, Settings, Severity, Source, check};
use knotwright_maker::passage_of;
use knotwright_numbers::ToNumber;
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::sync::Arc;

fn shared() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../shared/patterns");
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "knot"));
    files.sort();
    files
}

fn section<'a>(text: &'a str, title: &str) -> Option<&'a str> {
    let rest = text.split_once(&format!("\n## {title}\n"))?.1;
    Some(rest.split("\n## ").next().unwrap_or(rest))
}

/// The same knots in a mirror: left is right, and forward is backward.
fn mirrored(knots: &mut [Tied], strands: usize) {
    for (gap, kind, _) in knots {
        *gap = strands - *gap;
        let other = match kind.as_str() {
            "forward" => "backward",
            "backward" => "forward",
            "forward-backward" => "backward-forward",
            _ => "forward-backward",
        };
        other.clone_into(kind);
    }
}

/// Follows the instructions of a pattern through opening and one set, and compares with what `export` says. A mirrored
/// band with a leader is told in another way, and left out.
fn followed(path: &Path, by: &str, mirror: Option<&str>) -> usize {
    let stage = Stage::with(&[]);
    let name = path.to_str().unwrap();
    let export = stage.run(&["export", name]);
    if export.out.is_empty() {
        return 0;
    }
    let band: Value = serde_json::from_str(&export.out).unwrap();
    let shown = |name: &str| {
        let beads = band["beads"].as_array().into_iter().flatten();
        let mut all = band["threads"].as_array().unwrap().iter().chain(beads);
        all.find(|thread| thread["name"] == name).unwrap()["label"].as_str().unwrap_or(name).to_owned()
    };
    let mirror_option = mirror.map(|mirror| format!("--mirrored={mirror}"));
    let options: Vec<&str> = mirror_option.iter().map(String::as_str).collect();
    let said = stage.run(&[&["write", name, "--by", by], options.as_slice()].concat());
    if mirror.is_some()
        && (said.err.contains("leader") || std::fs::read_to_string(path).unwrap().contains("leader "))
    {
        return 0;
    }
    assert_eq!(said.code, 0, "{}", said.err);
    let mut hang: Vec<String> =
        band["strands"].as_array().unwrap().iter().map(|name| shown(name.as_str().unwrap())).collect();
    let (strands, is_image) = (hang.len(), mirror == Some("image"));
    if is_image {
        hang.reverse();
    }
    let mut follower = Follower::new(hang, &said.out);
    let mut parts = vec![];
    if let Some(opening) = section(&said.out, "The opening") {
        follower.follow(opening);
        let beads = std::mem::take(&mut follower.beads);
        parts.push(("opening", std::mem::take(&mut follower.knots), beads));
    }
    follower.follow(section(&said.out, "The set").unwrap());
    parts.push(("set", std::mem::take(&mut follower.knots), std::mem::take(&mut follower.beads)));
    for (part, mut knots, mut beads) in parts {
        let told = if part == "set" { &band } else { &band[part] };
        let mut wanted = exported_beads(told, &shown);
        if is_image {
            let mirrored = |at: &usize| strands + 1 - at;
            wanted.iter_mut().for_each(|(_, at, _)| *at = at.iter().rev().map(mirrored).collect());
        }
        beads.sort();
        wanted.sort();
        assert_eq!(beads, wanted, "{name}: the beads of the {part}");
        let mut expected = exported(&told["knots"], &shown);
        if is_image {
            mirrored(&mut expected, strands);
        }
        if by == "rows" || mirror.is_some() {
            // Another order of the same knots: in every gap they are tied one after another as before.
            knots.sort_by_key(|knot| knot.0);
            expected.sort_by_key(|knot| knot.0);
        }
        assert_eq!(knots, expected, "{name}: {part}");
    }
    1
}

#[test]
fn who_follows_the_words_ties_the_band() {
    let followed: usize = shared().iter().map(|path| followed(path, "steps", None)).sum();
    assert!(followed > 15, "{followed} patterns were followed");
}

#[test]
fn who_follows_the_rows_ties_the_band() {
    let followed: usize = shared().iter().map(|path| followed(path, "rows", None)).sum();
    assert!(followed > 15, "{followed} patterns were followed");
}

#[test]
fn who_follows_a_mirrored_telling_ties_the_same_band_in_that_mirror() {
    for (mirror, by) in [("image", "steps"), ("image", "rows"), ("picture", "steps"), ("picture", "rows")] {
        let followed: usize = shared().iter().map(|path| followed(path, by, Some(mirror))).sum();
        assert!(followed > 15, "{mirror}, {by}: {followed} patterns were followed");
    }
}

/// Where a line of the instructions is done: the numbers down to it, and which time it is of how many.
type Written = (String, Vec<(u64, u64)>);

/// Does all that a section of Markdown says, and notes where each step is written.
fn done(lines: &[(usize, &str)], above: &Written, all: &mut Vec<Written>) {
    let mut at = 0;
    while let Some((depth, line)) = lines.get(at) {
        at += 1;
        let Some((number, text)) = line.split_once(". ").filter(|(number, _)| number.parse::<u64>().is_ok())
        else {
            continue;
        };
        let below = lines[at..].iter().take_while(|(below, _)| below > depth).count();
        let path = if above.0.is_empty() { number.to_owned() } else { format!("{}.{number}", above.0) };
        let often = text.strip_prefix("Do this ").or(text.split_once(", take ").map(|(often, _)| often));
        let times = often.map_or(1, |often| times(often).unwrap().0.to_u64());
        for time in 1..=times {
            let mut turns = above.1.clone();
            turns.extend((times > 1).then_some((time, times)));
            match below {
                0 => all.push((path.clone(), turns)),
                _ => done(&lines[at..at + below], &(path.clone(), turns), all),
            }
        }
        at += below;
    }
}

/// `locate` names a step by the number that stands before it in the instructions.
#[test]
fn every_step_has_the_number_that_is_written_before_it() {
    let mut compared = 0;
    for path in shared() {
        let name = path.to_str().unwrap();
        let source = Source::new(name, std::fs::read_to_string(&path).unwrap());
        let report = check(Arc::new(source), &NoLibrary, &Settings::default());
        let is_whole = !report.findings.iter().any(|finding| finding.severity == Severity::Error);
        let Some(set) = report.pattern.filter(|_| is_whole).and_then(|pattern| pattern.set) else { continue };
        let said = Stage::with(&[]).run(&["write", name]);
        let Some(written) = section(&said.out, "The set").filter(|text| !text.contains("### Set 1")) else {
            continue;
        };
        let lines: Vec<(usize, &str)> = written
            .lines()
            // A join has a number, and ties nothing.
            .filter(|line| !line.trim().is_empty() && !line.contains("Join the "))
            .map(|line| ((line.len() - line.trim_start().len()) / 3, line.trim()))
            .collect();
        let mut written_steps = Vec::new();
        done(&lines, &(String::new(), Vec::new()), &mut written_steps);
        let numbers = passage_of(&set, None).step_numbers().into_iter().flatten();
        let found: Vec<Written> = numbers.map(|step| (step.number, step.times)).collect();
        assert_eq!(found, written_steps, "{name}");
        compared += found.len();
    }
    assert!(compared > 400, "{compared} steps");
}

/// A pass that ties nothing is no pass: `to edge` where the strand is at the edge already.
#[test]
fn a_pass_that_ties_nothing_is_not_told() {
    let stage = Stage::with(&[(
        "a.knot",
        "pattern \"Slipway\"\nthread kelp #1f5d50\nthread sand #e3c888\nstrands kelp sand sand\nsets 1\nset {\n  \
         repeat 3 {\n    take kelp 1 from left: forward to edge\n  }\n}\n",
    )]);
    let said = stage.run(&["write", "a.knot"]);
    let steps = section(&said.out, "The set").unwrap();
    assert!(steps.contains("1. Take the first strand from the left (kelp)"), "{steps}");
}

#[test]
fn a_repeat_is_reported_once() {
    let stage = Stage::with(&[(
        "low-tide.knot",
        &GOOD
            .replace("  take left 1: forward 3\n", "")
            .replace("set {\n", "set {\n  repeat 4 {\n    take left 1: forward 3\n  }\n"),
    )]);
    let said = stage.run(&["write", "low-tide.knot", "--sets", "2"]);
    assert!(said.out.contains("Tie the set twice, one below the other."), "{}", said.out);
    let steps: Vec<&str> =
        section(&said.out, "The set").unwrap().lines().filter(|line| line.contains(". Four")).collect();
    assert_eq!(
        steps,
        [
            "1. Four times, take the first strand from the left (in turn 2 kelp, 2 sand): tie a forward knot on each of the \
          next three strands to the right; it is now at the right edge."
        ]
    );
}

#[test]
fn colors_of_sets_that_do_not_close_are_reported_in_turn() {
    let stage = Stage::with(&[(
        "a.knot",
        "pattern \"Ripple\"\nthread kelp #1f5d50\nthread sand #e3c888\nthread foam #fff\n\
                                          strands kelp sand foam\nsets 7\nset {\n  take left 1: forward to edge\n}\n",
    )]);
    let said = stage.run(&["write", "a.knot"]);
    assert!(
        said.out.contains("(in turn kelp, sand, foam): tie a forward knot on each of the next two"),
        "{}",
        said.out
    );
    assert!(said.out.contains("After set 1: sand, foam, kelp."), "{}", said.out);
    assert!(said.out.contains("Tie the set seven times"), "{}", said.out);
}

#[test]
fn sets_that_pick_by_color_and_differ_are_told_apart() {
    let stage = Stage::with(&[(
        "a.knot",
        "pattern \"Drift\"\nthread kelp #1f5d50\nthread sand #e3c888\n\
                                          strands 2 kelp 2 sand\nsets 9\nset {\n  take kelp 1 from left: forward to edge\n}\n",
    )]);
    let said = stage.run(&["write", "a.knot"]);
    assert_eq!(said.code, 0, "{}", said.err);
    assert!(said.out.contains("### Set 1\n") && said.out.contains("### Set 2\n"), "{}", said.out);
    assert!(!said.out.contains("### Set 9\n"), "{}", said.out);
    assert!(said.out.contains("The sets after these are like sets"), "{}", said.out);
}

/// Set up by hand: strands 1, 2 sand, 3 kelp from the left, the first tied over the other two.
const TURN: &str = "pattern \"Turn\"\nthread kelp #1f5d50\nthread sand #e3c888\nstrands kelp 2 sand\nsets 2\nset {\n  \
                    take left 1: forward 2\n  take right 1: backward 2\n}\n";

#[test]
fn the_mirror_image_begins_at_the_right() {
    let stage = Stage::with(&[("a.knot", TURN)]);
    let said = stage.run(&["write", "a.knot", "--mirrored"]);
    assert!(said.out.contains("| 3 | 1 | kelp |"), "{}", said.out);
    assert!(
        said.out.contains("1. Take the first strand from the right (kelp): tie a backward knot on each of the next two strands"),
        "{}",
        said.out
    );
    let picture = stage.run(&["write", "a.knot", "--mirrored=picture"]);
    assert!(picture.out.contains("| 1 | 3 | kelp |"), "{}", picture.out);
    assert!(
        picture.out.contains("1. Take the third strand from the right (kelp): tie a forward knot"),
        "{}",
        picture.out
    );
}

#[test]
fn letters_are_never_mirrored() {
    let letters = "pattern \"L\"\nthread night #1b2a49\nthread coral #ee6f57\nstrands night 3 coral\nsets 2\nset {\n  \
                   leader left 1 (night) {\n    # . .\n    # # .\n  }\n}\n";
    let stage = Stage::with(&[("a.knot", letters)]);
    let said = stage.run(&["write", "a.knot", "--mirrored=image"]);
    assert_eq!((said.code, said.out.as_str()), (2, ""));
    assert!(said.err.contains("--mirrored=picture"), "{}", said.err);
    // The leader hangs at the right and begins there; the column that shows coral is still the first from the left.
    let said = stage.run(&["write", "a.knot", "--mirrored"]);
    assert!(said.out.contains("| 4 | 1 | night |"), "{}", said.out);
    assert!(
        said.out.contains(
            "1. Take the leader (night) at the right edge, all the way to the left: it ties a backward knot on each of \
             the next two; the next strand ties a forward knot on it."
        ),
        "{}",
        said.out
    );
}

/// A face may be a word as well as an anchor: it is mirrored, and that is said. In one that is its own mirror image, no
/// letter reads otherwise.
#[test]
fn that_a_face_is_mirrored_is_said() {
    let face = |marks: &str, strands: &str| {
        format!(
            "pattern \"Pier\"\nthread night #1b2a49\nthread foam #eef3ea\nstrands {strands}\nset {{\n  \
             face n night, f foam {{\n    {marks}\n  }}\n  rows {{\n    > >\n  }}\n}}\n"
        )
    };
    let (word, even) = (face("n f", "2 night 2 foam"), face("f f", "foam night foam night"));
    let stage = Stage::with(&[("word.knot", &word), ("even.knot", &even)]);
    for command in ["write", "sheet"] {
        let said = stage.run(&[command, "word.knot", "--mirrored"]);
        assert_eq!(said.code, 0, "{}", said.err);
        assert_eq!(
            said.err,
            "word.knot: in this mirror image, letters in the face of its set read backward; `--mirrored=picture` ties \
             the same picture from the right\n"
        );
        for other in [
            &[command, "word.knot", "--mirrored=picture"][..],
            &[command, "word.knot"],
            &[command, "even.knot", "--mirrored"],
        ] {
            let said = stage.run(other);
            assert_eq!((said.code, said.err.as_str()), (0, ""), "{other:?}");
        }
    }
}

#[test]
fn other_languages_say_the_same() {
    let stage = Stage::with(&[("a.knot", TURN)]);
    let german = stage.run(&["write", "a.knot", "--language", "de"]).out;
    assert!(german.contains(
        "1. Nimm den ersten Faden von links (kelp): Knüpfe je einen Vorwärtsknoten um die nächsten zwei Fäden"
    ));
    assert!(german.contains("Nicht für Kinder unter drei Jahren"));
    let spanish = stage.run(&["write", "a.knot", "--language", "es"]).out;
    assert!(spanish.contains("1. Toma la primera hebra desde la izquierda (kelp): haz un nudo hacia delante sobre cada una de las dos"));
    let english = stage.run(&["write", "a.knot"]).out;
    for text in [&german, &spanish] {
        assert!(text.contains("\u{a0}cm") && text.contains("\u{a0}%"), "{text}");
        assert!(!text.contains(" cm") && !text.contains(" mm") && !text.contains(" %"), "{text}");
        assert_eq!(text.lines().count(), english.lines().count());
        assert!(!text.contains('{') && !text.contains('}'), "{text}");
    }
    assert!(english.contains("about 15") || english.contains(" long and "), "{english}");
}

#[test]
fn cautions_and_cut_list_are_there_also_without_a_length() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let said = stage.run(&["write", "a.knot", "--format", "plain"]);
    for text in
        ["in all: two threads of", "children under three", "Never around a neck", "does not say how long"]
    {
        assert!(said.out.contains(text), "{text}: {}", said.out);
    }
    assert!(said.out.lines().all(|line| line.chars().count() <= 80), "{}", said.out);
}

#[test]
fn what_a_pattern_says_is_no_markup_and_steers_no_terminal() {
    let nasty = GOOD.replace("Low tide", "<script>*x*\u{1b}[2J");
    let stage = Stage::with(&[("a.knot", &nasty)]);
    let said = stage.run(&["write", "a.knot"]);
    assert!(said.out.starts_with("# \\<script\\>\\*x\\* \\[2J\n"), "{}", said.out);
}

#[test]
fn a_file_is_written_whole_and_a_pattern_never_replaced() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    let said = stage.run(&["write", "a.knot", "-o", "a.txt"]);
    assert_eq!((said.code, said.out.as_str()), (0, ""), "{}", said.err);
    assert!(stage.read("a.txt").starts_with("Low tide\n========\n"));
    let said = stage.run(&["write", "a.knot", "-o", "a.knot"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("not written over"), "{}", said.err);
    assert_eq!(stage.read("a.knot"), GOOD);
}

/// Strands of cycles of 3, 5, 7 and 2 places come back after 210 sets (their least common multiple), and all colors differ.
#[test]
fn sets_that_differ_in_too_many_ways_are_refused() {
    let colors: String = (0..17).map(|at| format!("thread c{at} #{:02x}4060\n", at * 15)).collect();
    let strands: Vec<String> = (0..17).map(|at| format!("c{at}")).collect();
    let ring = |from: usize, to: usize| format!("  on {from} to {to} {{ take left 1: forward to edge }}\n");
    let set = [ring(1, 3), ring(4, 8), ring(9, 15), ring(16, 17)].concat();
    let text = format!("pattern \"Rings\"\n{colors}strands {}\nset {{\n{set}}}\n", strands.join(" "));
    let stage = Stage::with(&[("a.knot", &text)]);
    for command in ["write", "sheet"] {
        let said = stage.run(&[command, "a.knot", "--sets", "500"]);
        assert_eq!((said.code, said.out.as_str()), (2, ""));
        assert!(said.err.contains("more than a hundred ways"), "{}", said.err);
        assert_eq!(stage.run(&[command, "a.knot", "--sets", "50"]).code, 0);
    }
}

#[test]
fn drawings_of_the_knots_are_beside_the_text_and_the_text_shows_them() {
    let stage = Stage::with(&[("a.knot", GOOD)]);
    assert_eq!(stage.run(&["write", "a.knot", "-o", "my band.md", "--drawings"]).code, 0);
    let text = stage.read("my band.md");
    assert!(text.contains("](my%20band-forward.svg)"), "{text}");
    assert!(stage.read("my band-forward.svg").starts_with("<svg "));
    assert_eq!(stage.run(&["write", "a.knot", "-o", "plain.md"]).code, 0);
    assert!(!stage.read("plain.md").contains(".svg"));
    assert_eq!(stage.run(&["write", "a.knot", "-o", "a.txt", "--drawings"]).code, 2);
}
