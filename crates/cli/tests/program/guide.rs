//! `docs/guide.md`, followed to the letter: what it says to save is saved, what it says to type is run, and what the
//! program answers, and draws, is what the guide shows.

use crate::stage::Stage;
use std::fs;
use std::path::{Path, PathBuf};

/// One thing that a reader of the guide does.
enum Deed {
    /// Saves a text under a name.
    Save { name: String, text: String },
    /// Adds a text to a file, above its set.
    Add { name: String, text: String },
    /// Types a line; the program is to answer with these lines.
    Type { line: String, answer: Vec<String> },
}

fn docs() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs")
}

/// What a reader does, in order.
///
/// A block of `knot` is saved under the name that the paragraph before it ends with, or added above the set of that file. A
/// block of `console` is typed.
fn deeds(guide: &str) -> Vec<Deed> {
    let mut deeds = Vec::new();
    let mut paragraph = String::new();
    let mut ended = true;
    let mut lines = guide.lines();
    while let Some(line) = lines.next() {
        let block = |lines: &mut std::str::Lines<'_>| -> Vec<String> {
            lines.take_while(|line| *line != "```").map(str::to_owned).collect()
        };
        match line.strip_prefix("```") {
            Some("console") => {
                for line in block(&mut lines) {
                    match (line.strip_prefix("$ "), deeds.last_mut()) {
                        (Some(line), _) => {
                            deeds.push(Deed::Type { line: line.to_owned(), answer: Vec::new() });
                        }
                        (None, Some(Deed::Type { answer, .. })) => answer.push(line),
                        (None, _) => panic!("an answer to nothing: {line}"),
                    }
                }
            }
            Some(_) => {
                let name = paragraph.strip_suffix("`:").and_then(|named| named.rsplit('`').next());
                let name = name.unwrap_or_else(|| panic!("no name before a block: {paragraph:?}")).to_owned();
                let text = block(&mut lines).join("\n") + "\n";
                let adds = paragraph.contains("Add this above the set");
                deeds.push(if adds { Deed::Add { name, text } } else { Deed::Save { name, text } });
            }
            None if line.is_empty() => ended = true,
            None => {
                if ended {
                    paragraph.clear();
                }
                ended = false;
                paragraph = format!("{paragraph} {line}");
            }
        }
    }
    deeds
}

/// Whether the program said what the guide shows. There, `...` at the end of a line is the rest of that line, and on a line of
/// its own any number of lines.
fn is_shown(said: &[&str], shown: &[String]) -> bool {
    match (said.split_first(), shown.split_first()) {
        (None, None) => true,
        (_, Some((first, rest))) if first == "..." => {
            is_shown(said, rest) || said.split_first().is_some_and(|(_, said)| is_shown(said, shown))
        }
        (Some((line, said)), Some((first, shown))) => {
            let fits = first
                .strip_suffix("...")
                .map_or_else(|| line.trim_end() == first, |begins| line.starts_with(begins));
            fits && is_shown(said, shown)
        }
        _ => false,
    }
}

/// The pictures that the guide shows, by their names in `docs/pictures/guide`.
fn pictures(guide: &str) -> Vec<&str> {
    guide
        .split("](pictures/guide/")
        .skip(1)
        .map(|rest| rest.split_once(')').expect("a picture's link ends").0)
        .collect()
}

#[test]
fn whoever_follows_the_guide_sees_what_it_shows() {
    let guide = fs::read_to_string(docs().join("guide.md")).unwrap();
    let stage = Stage::with(&[]);
    for deed in deeds(&guide) {
        match deed {
            Deed::Save { name, text } => stage.write(&name, &text),
            Deed::Add { name, text } => {
                stage.write(&name, stage.read(&name).replace("\nset {", &format!("\n{text}\nset {{")));
            }
            Deed::Type { line, answer } => {
                let words: Vec<&str> = line.split_whitespace().skip(1).collect();
                let said = stage.run(&words);
                let all = format!("{}{}", said.out, said.err);
                assert!(
                    is_shown(&all.lines().collect::<Vec<_>>(), &answer),
                    "`{line}` answered\n{all}\nand the guide shows\n{}",
                    answer.join("\n")
                );
            }
        }
    }
    let shown = pictures(&guide);
    assert!(!shown.is_empty());
    // Drawn by the commands that the reader typed. `cargo xtask pictures` sets this to keep them.
    let keeps = std::env::var_os("KNOTWRIGHT_KEEP_PICTURES").is_some();
    for name in &shown {
        let (drawn, kept) = (stage.read(name), docs().join("pictures/guide").join(name));
        if keeps {
            fs::write(&kept, &drawn).unwrap();
        }
        assert!(
            fs::read_to_string(&kept).unwrap_or_default() == drawn,
            "{name} is not what the guide's command draws: run `cargo xtask pictures`"
        );
    }
    let mut there: Vec<String> = fs::read_dir(docs().join("pictures/guide"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    there.sort();
    let mut linked = shown;
    linked.sort_unstable();
    assert_eq!(there, linked, "no picture is left over, and none is missing");
}
