//! The pictures of the documentation, drawn by the program itself.

use crate::run::{run, top};

/// Draws every picture that `docs/pictures/list.txt` names.
pub(crate) fn pictures() -> Result<(), String> {
    let list = std::fs::read_to_string(top().join("docs/pictures/list.txt"))
        .map_err(|error| format!("the list of pictures: {error}"))?;
    for line in list.lines().filter(|line| !line.starts_with('#')) {
        let words: Vec<&str> = line.split_whitespace().collect();
        let [picture, pattern, options @ ..] = words.as_slice() else { continue };
        let (to, from) = (format!("docs/pictures/{picture}"), format!("shared/patterns/{pattern}.knot"));
        let program = ["cargo", "run", "--quiet", "--locked", "--package", "knotwright-cli", "--", "draw"];
        run(&[&program[..], &[&from, "--output", &to], options].concat())?;
    }
    Ok(())
}
