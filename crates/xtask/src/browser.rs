//! The sheet, the live picture and the gallery in a real browser.

use crate::run::{build, program, top};
use crate::tools::{self, NodeJs};

/// Runs `tests/browser` with the packages that its lock file names.
pub(crate) fn browser() -> Result<(), String> {
    let (node, folder) = (NodeJs::installed()?, top().join("tests/browser"));
    node.packages(&folder)?;
    build()?;
    let [browser, neovim] = [tools::browser()?, tools::neovim()?].map(|path| path.display().to_string());
    let variables = [("KNOTWRIGHT", program()), ("CHROMIUM", browser), ("NEOVIM", neovim)];
    node.npm(&folder, &["test"], &variables.each_ref().map(|(name, value)| (*name, value.as_str())))
}
