//! What is in `editors/`, in the editors themselves: their sessions with the server, and how they color the samples.

use crate::colors::inks;
use crate::pages::{EmptyHome, blocks};
use crate::run::{program, run, run_with, top};
use crate::tools;
use std::fs;
use std::path::Path;

/// Runs all of them; `home` is a folder for what they leave. Where the messages are that Kate and the server sent.
pub(crate) fn plugins(home: &Path) -> Result<String, String> {
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
    sessions(home)
}

/// Sessions with what the page of each editor says to write and to run, and nothing else.
fn sessions(home: &Path) -> Result<String, String> {
    let neovim = tools::neovim()?.display().to_string();
    for (name, program) in [("neovim-0.7", "nvim"), ("neovim-0.11", &*neovim)] {
        let page = followed(home, name)?;
        page.write(".config/nvim/init.lua", &blocks("neovim", "lua")?.concat())?;
        page.shell(&blocks("neovim", "sh")?[0])?;
        session(
            &page,
            &[program, "--headless", "-i", "NONE", "-c", "luafile tests/editors-real/neovim-plugin.lua"],
        )?;
    }
    let page = followed(home, "vim")?;
    let vimrc = page.write(".vimrc", &blocks("vim", "vim")?.concat())?;
    session(&page, &["vim", "-es", "-i", "NONE", "-Nu", &vimrc, "-S", "tests/editors-real/vim-plugin.vim"])?;
    let page = followed(home, "emacs")?;
    let init = page.write(".emacs.d/init.el", &blocks("emacs", "elisp")?.concat())?;
    let script = "tests/editors-real/emacs-plugin.el";
    session(&page, &["emacs", "--batch", "-f", "package-initialize", "-l", &init, "-l", script])?;
    let page = followed(home, "kate")?;
    blocks("kate", "sh")?.iter().try_for_each(|block| page.shell(block))?;
    session(&page, &["python3", "tests/editors-real/kate.py"])?;
    Ok(page.place("trace.jsonl").display().to_string())
}

/// An empty home for the page of an editor.
fn followed(home: &Path, name: &str) -> Result<EmptyHome, String> {
    EmptyHome::new(home.join("pages").join(name), Path::new(&program()))
}

/// Runs a session with a copy of the sample in the home.
fn session(page: &EmptyHome, line: &[&str]) -> Result<(), String> {
    let sample = fs::read_to_string(top().join("tests/editors-real/band.knot"));
    let band = page.write("bands/band.knot", &sample.map_err(|error| error.to_string())?)?;
    page.run(line, &[("BAND", &band)])
}
