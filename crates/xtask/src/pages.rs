//! The pages of the editors, followed to the letter: what they say to write and to run, from a home where there is nothing
//! but the clone. Whatever a session needs beyond that, a reader of the page would need too.

use crate::run::{copy, run_with_in, top};
use std::fs;
use std::path::{Path, PathBuf};

/// The clone, as the pages name it.
const CLONE: &str = "knotwright";
/// What of the clone the pages speak of.
const COPIED: [&str; 5] =
    ["editors/emacs", "editors/kate", "editors/neovim", "editors/vim", "grammar/tree-sitter/src"];

/// A home where nobody has been before.
pub(crate) struct EmptyHome {
    folder: PathBuf,
    path: String,
}

impl EmptyHome {
    /// Makes one in a folder; `program` is the only thing of ours on its path.
    pub(crate) fn new(folder: PathBuf, program: &Path) -> Result<Self, String> {
        let _ = fs::remove_dir_all(&folder);
        for part in COPIED {
            let to = folder.join(CLONE).join(part);
            copy(&top().join(part), &to).map_err(|error| format!("{}: {error}", to.display()))?;
        }
        let here = program.parent().unwrap_or(Path::new("."));
        let path = format!("{}:{}", here.display(), std::env::var("PATH").unwrap_or_default());
        Ok(Self { folder, path })
    }

    /// A place in it.
    pub(crate) fn place(&self, path: &str) -> PathBuf {
        self.folder.join(path)
    }

    /// Writes a file, as a page says.
    pub(crate) fn write(&self, path: &str, text: &str) -> Result<String, String> {
        let place = self.place(path);
        let parent = place.parent().unwrap_or(&self.folder);
        let written = fs::create_dir_all(parent).and_then(|()| fs::write(&place, text));
        written.map_err(|error| format!("{}: {error}", place.display()))?;
        Ok(place.display().to_string())
    }

    /// Runs in the clone what a page says to run there.
    pub(crate) fn shell(&self, text: &str) -> Result<(), String> {
        self.run_in(&self.place(CLONE), &["sh", "-ec", text], &[])
    }

    /// Runs a program from the top folder, at home here.
    pub(crate) fn run(&self, line: &[&str], variables: &[(&str, &str)]) -> Result<(), String> {
        self.run_in(&top(), line, variables)
    }

    fn run_in(&self, folder: &Path, line: &[&str], variables: &[(&str, &str)]) -> Result<(), String> {
        let at = |path: &str| self.place(path).display().to_string();
        let (home, config, data, state, cache) =
            (at(""), at(".config"), at(".local/share"), at(".local/state"), at(".cache"));
        let own = [
            ("HOME", &*home),
            ("XDG_CONFIG_HOME", &config),
            ("XDG_DATA_HOME", &data),
            ("XDG_STATE_HOME", &state),
            ("XDG_CACHE_HOME", &cache),
            ("PATH", &self.path),
        ];
        run_with_in(folder, line, &[&own[..], variables].concat())
    }
}

/// What a page has fenced as `language`, without the indentation; the page is that of an editor.
pub(crate) fn blocks(editor: &str, language: &str) -> Result<Vec<String>, String> {
    let page = top().join("editors").join(editor).join("README.md");
    let text = fs::read_to_string(&page).map_err(|error| format!("{}: {error}", page.display()))?;
    let found = fenced(&text, language);
    if found.is_empty() {
        Err(format!("{}: nothing is fenced as {language}", page.display()))
    } else {
        Ok(found)
    }
}

fn fenced(text: &str, language: &str) -> Vec<String> {
    let mut blocks = Vec::new();
    let mut open: Option<(usize, String)> = None;
    for line in text.lines() {
        let indent = line.len() - line.trim_start().len();
        match &mut open {
            None if line.trim() == format!("```{language}") => open = Some((indent, String::new())),
            None => {}
            Some(_) if line.trim() == "```" => blocks.extend(open.take().map(|(_, block)| block)),
            Some((indent, block)) => {
                block.push_str(line.get(*indent..).unwrap_or_default());
                block.push('\n');
            }
        }
    }
    blocks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_block_is_found_by_its_language_and_loses_its_indentation() {
        let page = "1. Write:\n\n   ```lua\n   if it then\n     go()\n   end\n   ```\n\n```sh\nls\n```\n";
        assert_eq!(fenced(page, "lua"), ["if it then\n  go()\nend\n"]);
        assert_eq!(fenced(page, "sh"), ["ls\n"]);
        assert!(fenced(page, "elisp").is_empty());
    }

    #[test]
    fn every_page_that_is_followed_says_what_to_write() {
        for (editor, language) in
            [("emacs", "elisp"), ("kate", "sh"), ("neovim", "lua"), ("neovim", "sh"), ("vim", "vim")]
        {
            assert!(!blocks(editor, language).expect("the page").is_empty());
        }
    }
}
