//! What is in `editors/`, in the editors themselves: their sessions with the server, and how they color the samples.

use crate::colors::inks;
use crate::run::{run, run_with, top};
use std::fs;
use std::path::Path;

/// Runs all of them; `home` has the newest Neovim, `program` is the one to serve.
pub(crate) fn plugins(home: &Path, program: &str) -> Result<(), String> {
    let plugins = top().join("editors");
    let folder = |name: &str| plugins.join(name).display().to_string();
    let answer = home.join("vim.txt").display().to_string();
    let colors = [("INKS", &*inks()?), ("ANSWER", &answer)];
    let vim = run_with(
        &["vim", "-es", "-Nu", "NONE", "-i", "NONE", "-S", "tests/colors/vim.vim"],
        &[&colors[..], &[("PLUGIN", &folder("vim"))]].concat(),
    );
    println!("{}", fs::read_to_string(&answer).unwrap_or_default());
    vim?;
    run_with(
        &["emacs", "--batch", "-Q", "-l", "tests/colors/emacs.el"],
        &[&colors[..], &[("PLUGIN", &folder("emacs"))]].concat(),
    )?;
    let (syntax, inks) = (folder("kate/knotwright.xml"), colors[0].1);
    let kate = home.join("kate").display().to_string();
    fs::create_dir_all(&kate).map_err(|error| error.to_string())?;
    run(&["python3", "tests/colors/kate.py", inks, &syntax, &kate])?;
    sessions(home, program, &plugins.display().to_string())
}

fn sessions(home: &Path, program: &str, plugins: &str) -> Result<(), String> {
    let parser = parser(home)?;
    let band = home.join("plugins.knot");
    let here = Path::new(program).parent().unwrap_or(Path::new("."));
    let path = format!("{}:{}", here.display(), std::env::var("PATH").unwrap_or_default());
    let neovim = home.join("neovim").display().to_string();
    let quiet =
        ["--headless", "-u", "NONE", "-i", "NONE", "-c", "luafile tests/editors-real/neovim-plugin.lua"];
    let emacs = ["emacs", "--batch", "-Q", "-l", "tests/editors-real/emacs-plugin.el"];
    let vim = ["vim", "-es", "-Nu", "NONE", "-i", "NONE", "-S", "tests/editors-real/vim-plugin.vim"];
    let neovims = [[&["nvim"], &quiet[..]].concat(), [&[&*neovim], &quiet[..]].concat()];
    for line in neovims.into_iter().chain([vim.to_vec(), emacs.to_vec()]) {
        fs::copy(top().join("tests/editors-real/band.knot"), &band).map_err(|error| error.to_string())?;
        let band = band.display().to_string();
        run_with(&line, &[("BAND", &band), ("EDITORS", plugins), ("PARSER", &parser), ("PATH", &path)])?;
    }
    Ok(())
}

/// Compiles the tree-sitter parser as the README of the Neovim plugin says; a folder for its `runtimepath`.
fn parser(home: &Path) -> Result<String, String> {
    let folder = home.join("parser");
    fs::create_dir_all(&folder).map_err(|error| error.to_string())?;
    let library = folder.join("knotwright.so").display().to_string();
    let source = "grammar/tree-sitter/src";
    let files = ["parser.c", "scanner.c"].map(|name| format!("{source}/{name}"));
    run(&["cc", "-shared", "-fPIC", "-O1", "-I", source, &files[0], &files[1], "-o", &library])?;
    Ok(home.display().to_string())
}
