//! The extension for VS Code: packed with the program in it, and gone through in VS Code itself, in a browser.

use crate::run::{build, program, target, top};
use crate::tools::{self, NodeJs};
use std::env::consts::{ARCH, EXE_SUFFIX, OS};
use std::fs;
use std::path::PathBuf;

/// Installs all that the sessions need.
pub(crate) fn install() -> Result<(), String> {
    let node = NodeJs::installed()?;
    tools::browser()?;
    tools::code_server(&node).map(|_| ())
}

/// Packs the extension with the program as it is now in it, and goes through it in VS Code.
pub(crate) fn vscode() -> Result<(), String> {
    build()?;
    let package = pack(&program())?;
    let (node, extension) = (NodeJs::installed()?, top().join("editors/vscode"));
    node.npm(&extension, &["run", "check"], &[])?;
    let run = target().join("vscode/run");
    let paths = [package, tools::code_server(&node)?, run, tools::browser()?];
    let [package, code_server, run, browser] = paths.map(|path| path.display().to_string());
    let variables =
        [("VSIX", &*package), ("CODE_SERVER", &code_server), ("FOLDER", &run), ("CHROMIUM", &browser)];
    node.npm(&extension, &["test"], &variables)
}

/// Packs the extension with a program in it; where the package is.
pub(crate) fn pack(program: &str) -> Result<PathBuf, String> {
    let (node, extension) = (NodeJs::installed()?, top().join("editors/vscode"));
    node.packages(&extension)?;
    let (home, bin) = (target().join("vscode"), extension.join("bin"));
    let copied = fs::create_dir_all(&home)
        .and_then(|()| fs::create_dir_all(&bin))
        .and_then(|()| fs::copy(program, bin.join(format!("knotwright{EXE_SUFFIX}"))));
    copied.map_err(|error| format!("{program}: {error}"))?;
    let path = home.join("knotwright.vsix");
    let (package, platform) = (path.display().to_string(), platform(OS, ARCH));
    node.npm(&extension, &["run", "package", "--", "--target", &platform, "--out", &package], &[])?;
    Ok(path)
}

/// A machine, in the words of VS Code.
fn platform(system: &str, machine: &str) -> String {
    let system = match system {
        "macos" => "darwin",
        "windows" => "win32",
        other => other,
    };
    let machine = match machine {
        "x86_64" => "x64",
        "aarch64" => "arm64",
        other => other,
    };
    format!("{system}-{machine}")
}

#[cfg(test)]
mod tests {
    /// The targets that VS Code's documentation lists for a package of one platform
    /// (<https://code.visualstudio.com/api/working-with-extensions/publishing-extension>).
    #[test]
    fn machines_have_the_names_that_vs_code_gives_them() {
        for (system, machine, name) in [
            ("linux", "x86_64", "linux-x64"),
            ("linux", "aarch64", "linux-arm64"),
            ("macos", "aarch64", "darwin-arm64"),
            ("windows", "x86_64", "win32-x64"),
        ] {
            assert_eq!(super::platform(system, machine), name);
        }
    }
}
