//! Sessions of real editors with the server, without windows.

use crate::plugins::plugins;
use crate::run::{build, program, run, run_with, target, top};
use crate::tools;
use std::fs;

/// A session: its name, and the command with its script.
struct Editor {
    name: &'static str,
    line: Vec<String>,
}

/// Installs the editors, and what reads along.
pub(crate) fn install() -> Result<(), String> {
    tools::neovim()?;
    tools::protocol_types()?;
    let programs = ["nvim", "vim", "emacs", "kate", "dbus-run-session", "kate-syntax-highlighter", "cc"];
    let packages = [
        &["neovim", "vim", "emacs-nox", "kate", "dbus-daemon", "libkf5syntaxhighlighting-tools"][..],
        &["gcc", "libc6-dev"],
    ];
    tools::ask_for(&programs, &packages.concat())?;
    ["elpa-eglot", "elpa-markdown-mode", "vim-ale"].into_iter().try_for_each(tools::ask_for_package)
}

/// Runs every editor, and reads every message of the server with another party's types.
pub(crate) fn editors() -> Result<(), String> {
    build()?;
    let home = target().join("editors");
    let python = tools::protocol_types()?.display().to_string();
    let scripts = top().join("tests/editors-real");
    let script = |name: &str| scripts.join(name).display().to_string();
    let mut traces = Vec::new();
    for editor in all(&tools::neovim()?.display().to_string(), &script) {
        let folder = home.join(editor.name);
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).map_err(|error| error.to_string())?;
        let band = folder.join("band.knot");
        fs::copy(scripts.join("band.knot"), &band).map_err(|error| error.to_string())?;
        let trace = folder.join("trace.jsonl").display().to_string();
        let server = [&python, &script("record.py"), &trace, &program(), "serve"].map(quoted).join(",");
        let line: Vec<&str> = editor.line.iter().map(String::as_str).collect();
        let band = band.display().to_string();
        run_with(&line, &[("BAND", &band), ("SERVER", &format!("[{server}]"))])?;
        traces.push(trace);
    }
    traces.push(plugins(&home)?);
    let conformance = script("conformance.py");
    let line = [python, conformance].into_iter().chain(traces).collect::<Vec<_>>();
    run(&line.iter().map(String::as_str).collect::<Vec<_>>())
}

fn all(neovim: &str, script: &dyn Fn(&str) -> String) -> Vec<Editor> {
    let owned = |line: &[&str]| line.iter().map(|word| (*word).to_owned()).collect();
    let quiet = ["--headless", "-u", "NONE", "-i", "NONE"];
    let (lua, typing) = (script("neovim-0.11.lua"), script("neovim-0.11-typing.lua"));
    let old = format!("luafile {}", script("neovim-0.7.lua"));
    vec![
        Editor { name: "neovim-0.11", line: owned(&[&[neovim][..], &quiet, &["-l", &lua]].concat()) },
        Editor {
            name: "neovim-0.11-typing",
            line: owned(&[&[neovim][..], &quiet, &["-l", &typing]].concat()),
        },
        Editor { name: "neovim-0.7", line: owned(&[&["nvim"][..], &quiet, &["-c", &old]].concat()) },
        Editor { name: "eglot", line: owned(&["emacs", "--batch", "-Q", "-l", &script("eglot.el")]) },
    ]
}

/// A word as JSON has it.
fn quoted(word: &str) -> String {
    serde_json::Value::from(word).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_script_of_a_session_is_there() {
        let scripts = top().join("tests/editors-real");
        for editor in all("nvim", &|name| scripts.join(name).display().to_string()) {
            let last = editor.line.last().expect("an editor has a line");
            let script = last.strip_prefix("luafile ").unwrap_or(last);
            assert!(std::path::Path::new(script).is_file(), "{}: {script}", editor.name);
        }
    }

    #[test]
    fn a_command_is_passed_on_as_json_whatever_is_in_it() {
        assert_eq!(quoted(r#"C:\knots "new""#), r#""C:\\knots \"new\"""#);
    }
}
