//! The sheet: one HTML file to print or to follow along, with everything in it and nothing from elsewhere.
//!
//! Its script and its style are named in its policy by their hashes, so nothing else runs, also not by way of a pattern's
//! text. What the script is to know of the band stands in it as JSON.

mod data;
mod page;
mod passages;
mod rows;
mod style;
mod words;

use crate::{ProseOptions, TyingScript};
use data::Data;
use std::fmt;
pub(crate) use style::hash_source;

/// Why there is no sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoSheet {
    /// The sets that differ have more steps in all than one would go through one at a time.
    TooManySteps,
}

impl fmt::Display for NoSheet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("its different sets have too many steps for a sheet; ask for fewer sets, or use `write`")
    }
}

impl std::error::Error for NoSheet {}

/// Writes the sheet of a band. The same band gives the same bytes.
///
/// # Errors
/// [`NoSheet`].
pub fn write_sheet(script: &TyingScript, options: &ProseOptions) -> Result<String, NoSheet> {
    let data = Data::of(script, options)?;
    Ok(page::write_page(script, options, &data))
}
