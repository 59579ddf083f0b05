//! Files get other names: the paths in `use` follow.

use crate::{FileEdit, World};
use knotwright_checker::Source;
use knotwright_grammar::Span;
use knotwright_grammar::tree::{Import, Text};

/// The edits that keep every `use` leading where it leads, when files are renamed from the first path to the second.
/// Paths are those of the sources, with `/` between folders. The edits are for the files as they are now.
pub fn files_renamed(world: &World, renames: &[(String, String)]) -> Vec<FileEdit> {
    let mut edits = Vec::new();
    for file in world.files {
        for statement in &file.parsed.tree.statements {
            let Some(Import { path, .. }) = statement.get() else { continue };
            edits.extend(follow(world, renames, file, path));
        }
    }
    edits.sort();
    edits
}

fn follow(world: &World, renames: &[(String, String)], file: &Source, path: &Text) -> Option<FileEdit> {
    let target = world.library.open(&file.path, &path.value).ok()?;
    let (here, there) = (renamed(&file.path, renames), renamed(&target.path, renames));
    if here == file.path && there == target.path {
        return None;
    }
    let new = relative(here, there);
    let span = Span { start: path.span.start + 1, end: path.span.end - 1 };
    (new != path.value).then(|| FileEdit { path: file.path.clone(), span, text: escaped(&new) })
}

/// The path after the renames.
fn renamed<'p>(path: &'p str, renames: &'p [(String, String)]) -> &'p str {
    renames.iter().find(|(old, _)| old == path).map_or(path, |(_, new)| new)
}

/// The way from a file to another.
pub(crate) fn relative(from: &str, to: &str) -> String {
    let mut folders: Vec<&str> = from.split('/').collect();
    folders.pop();
    let parts: Vec<&str> = to.split('/').collect();
    let most = folders.len().min(parts.len().saturating_sub(1));
    let common = (0..most).take_while(|&at| folders[at] == parts[at]).count();
    let up = std::iter::repeat_n("..", folders.len() - common);
    up.chain(parts[common..].iter().copied()).collect::<Vec<_>>().join("/")
}

fn escaped(path: &str) -> String {
    path.replace('\\', "\\\\").replace('"', "\\\"")
}

#[cfg(test)]
mod tests {
    use super::relative;

    #[test]
    fn paths_go_up_and_down() {
        assert_eq!(relative("a/b/band.knot", "a/tiles.knot"), "../tiles.knot");
        assert_eq!(relative("band.knot", "lib/tiles.knot"), "lib/tiles.knot");
        assert_eq!(relative("/a/band.knot", "/a/b/tiles.knot"), "b/tiles.knot");
        assert_eq!(relative("a/band.knot", "a/tiles.knot"), "tiles.knot");
    }
}
