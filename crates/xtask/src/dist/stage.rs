//! The folder that is packed, laid out as below `/usr` or `~/.local`.

use super::Dist;
use crate::run::{copy, run};
use std::fs;
use std::io;
use std::path::Path;
use std::process::{Command, Stdio};

/// For every shell, the folder and the name that it looks for.
const COMPLETIONS: [(&str, &str); 3] = [
    ("bash", "share/bash-completion/completions/knotwright"),
    ("zsh", "share/zsh/site-functions/_knotwright"),
    ("fish", "share/fish/vendor_completions.d/knotwright.fish"),
];

/// Files of the commit, and where they are put.
const FILES: [(&str, &str); 4] = [
    ("README.md", "README.md"),
    ("LICENSE-MIT", "LICENSE-MIT"),
    ("LICENSE-APACHE", "LICENSE-APACHE"),
    ("README.md", "share/doc/knotwright/README.md"),
];

/// Folders of the commit, and where they are put: what the README points to is where it says.
const FOLDERS: [(&str, &str); 3] = [
    ("docs", "share/doc/knotwright/docs"),
    ("shared/patterns", "share/doc/knotwright/shared/patterns"),
    ("grammar", "share/knotwright/grammars"),
];

pub(super) fn lay_out(dist: &Dist, program: &Path) -> Result<(), String> {
    let stage = dist.stage();
    // That it was not there is as good.
    let _ = fs::remove_dir_all(&stage);
    files(dist, program, &stage).map_err(|error| format!("{}: {error}", stage.display()))?;
    let man = stage.join("share/man/man1");
    run(&[&program.to_string_lossy(), "man", "--all", &man.to_string_lossy()])
}

fn files(dist: &Dist, program: &Path, stage: &Path) -> io::Result<()> {
    let place = |to: &str| -> io::Result<_> {
        let to = stage.join(to);
        fs::create_dir_all(to.parent().unwrap_or(stage))?;
        Ok(to)
    };
    fs::copy(program, place("bin/knotwright")?)?;
    fs::create_dir_all(stage.join("share/man/man1"))?;
    for (shell, to) in COMPLETIONS {
        let text = Command::new(program).args(["completions", shell]).stderr(Stdio::inherit()).output()?;
        fs::write(place(to)?, text.stdout)?;
    }
    for (from, to) in FILES {
        fs::copy(dist.source.join(from), place(to)?)?;
    }
    for (from, to) in FOLDERS {
        copy(&dist.source.join(from), &place(to)?)?;
    }
    Ok(())
}
