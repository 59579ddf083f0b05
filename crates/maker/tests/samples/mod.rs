//! The sample patterns, checked.

#[path = "../folder/mod.rs"]
mod folder;

use folder::{SampleFolder, sample_sources};
use knotwright_checker::{Pattern, Settings, check};

pub(crate) fn samples() -> Vec<Pattern> {
    let checked = |source| check(source, &SampleFolder, &Settings::default()).pattern;
    sample_sources().into_iter().filter_map(checked).filter(Pattern::is_whole).collect()
}
