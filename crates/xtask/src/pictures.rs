//! The pictures of the documentation, drawn by the program itself.

use crate::run::{build, program, run, run_with, top};

/// Draws every picture that `docs/pictures/list.txt` names, and those of the guide by doing what the guide says.
pub(crate) fn pictures() -> Result<(), String> {
    let list = std::fs::read_to_string(top().join("docs/pictures/list.txt"))
        .map_err(|error| format!("the list of pictures: {error}"))?;
    build()?;
    for DocsPicture { to, from, options } in pictures_of(&list) {
        run(&[&[&*program(), "draw", &from, "--output", &to], options.as_slice()].concat())?;
    }
    knots()?;
    let follow = ["cargo", "test", "--package", "knotwright-cli", "--test", "program", "guide"];
    run_with(&follow, &[("KNOTWRIGHT_KEEP_PICTURES", "1")])
}

/// Draws how each kind of knot is tied: the drawings that go with the words of a pattern that has all four.
fn knots() -> Result<(), String> {
    let words = top().join("target/knots/knot.md");
    let folder = top().join("docs/pictures/knots");
    let error = |error: std::io::Error| format!("the drawings of the knots: {error}");
    std::fs::create_dir_all(top().join("target/knots")).map_err(error)?;
    std::fs::create_dir_all(&folder).map_err(error)?;
    let to = words.display().to_string();
    run(&[&*program(), "write", "shared/patterns/lamp-moth.knot", "--output", &to, "--drawings"])?;
    for kind in ["forward", "backward", "forward-backward", "backward-forward"] {
        let name = format!("knot-{kind}.svg");
        std::fs::copy(words.with_file_name(&name), folder.join(&name)).map_err(error)?;
    }
    Ok(())
}

/// A picture to draw.
struct DocsPicture<'a> {
    to: String,
    from: String,
    /// The other arguments of `draw`.
    options: Vec<&'a str>,
}

/// Of every line that is no comment: the name of the picture, the name of the sample, options.
fn pictures_of(list: &str) -> impl Iterator<Item = DocsPicture<'_>> {
    list.lines().filter(|line| !line.starts_with('#')).filter_map(|line| {
        let mut words = line.split_whitespace();
        Some(DocsPicture {
            to: format!("docs/pictures/{}", words.next()?),
            from: format!("shared/patterns/{}.knot", words.next()?),
            options: words.collect(),
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_names_picture_sample_and_options() {
        let list = "# name sample options\n\ngulls.svg gulls --sets 2\n";
        let pictures: Vec<_> = pictures_of(list).collect();
        assert_eq!(pictures.len(), 1);
        assert_eq!(pictures[0].to, "docs/pictures/gulls.svg");
        assert_eq!(pictures[0].from, "shared/patterns/gulls.knot");
        assert_eq!(pictures[0].options, ["--sets", "2"]);
    }

    #[test]
    fn every_picture_of_the_documentation_has_its_sample() {
        let list = std::fs::read_to_string(top().join("docs/pictures/list.txt")).expect("there is a list");
        let pictures: Vec<_> = pictures_of(&list).collect();
        assert!(!pictures.is_empty());
        for picture in pictures {
            assert!(top().join(&picture.from).is_file(), "{}", picture.from);
            assert!(top().join(&picture.to).is_file(), "{} is still to be drawn", picture.to);
        }
    }
}
