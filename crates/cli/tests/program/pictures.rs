//! The pictures of the documentation are those that the program draws.

use crate::stage::Stage;
use std::fs;
use std::path::Path;

#[test]
fn the_pictures_of_the_documentation_are_up_to_date() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let folder = top.join("docs/pictures");
    let list = fs::read_to_string(folder.join("list.txt")).unwrap();
    let stage = Stage::with(&[]);
    let mut listed = vec!["list.txt".to_owned()];
    for line in list.lines().filter(|line| !line.starts_with('#')) {
        let words: Vec<&str> = line.split_whitespace().collect();
        let (picture, pattern, options) = (words[0], words[1], &words[2..]);
        let from = top.join(format!("shared/patterns/{pattern}.knot"));
        let drawn = stage.run(&[&["draw", from.to_str().unwrap(), "--format", "svg"], options].concat());
        let kept = fs::read_to_string(folder.join(picture)).unwrap_or_default();
        assert!(drawn.out == kept, "{picture} is not what `draw` draws: run `cargo xtask pictures`");
        listed.push(picture.to_owned());
    }
    let mut there: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap())
        // Those of the guide have a folder, and a test, of their own.
        .filter(|entry| entry.path().is_file())
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    there.sort();
    listed.sort();
    assert_eq!(there, listed, "no picture is left over");
}

#[test]
fn the_drawings_of_the_knots_are_up_to_date() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let (folder, stage) = (top.join("docs/pictures/knots"), Stage::with(&[]));
    let pattern = top.join("shared/patterns/lamp-moth.knot");
    let said = stage.run(&["write", pattern.to_str().unwrap(), "-o", "knot.md", "--drawings"]);
    assert_eq!(said.code, 0, "{said:?}");
    let mut compared = 0;
    for entry in fs::read_dir(&folder).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        let kept = fs::read_to_string(folder.join(&name)).unwrap();
        assert!(stage.read(&name) == kept, "{name} is not what `write` draws: run `cargo xtask pictures`");
        compared += 1;
    }
    assert_eq!(compared, 4);
}
