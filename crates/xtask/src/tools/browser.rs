//! Chromium.

use super::{ask_for, found};
use std::path::PathBuf;

/// What it is called on one system or another.
const NAMES: [&str; 4] = ["chromium", "chromium-browser", "google-chrome", "chrome"];

/// The browser that the variable CHROMIUM names; else one on the path; else Debian's. Its path.
pub(crate) fn browser() -> Result<PathBuf, String> {
    if let Some(named) = std::env::var_os("CHROMIUM") {
        let named = PathBuf::from(named);
        let missing = || format!("CHROMIUM names {}, which is not there", named.display());
        return if named.is_file() { Ok(named) } else { Err(missing()) };
    }
    let there = || NAMES.iter().find_map(|name| found(name));
    if let Some(browser) = there() {
        return Ok(browser);
    }
    ask_for(&["chromium"], &["chromium"])?;
    there().ok_or_else(|| "chromium was installed, and is not on the path".to_owned())
}
