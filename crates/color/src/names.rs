//! The color names of CSS Color 4.

use palette::named;

use crate::Rgb;

/// The color of a CSS name; ASCII letters may be of either case.
pub(crate) fn named(name: &str) -> Option<Rgb> {
    // The tables hold lower case only, and no name is longer than `lightgoldenrodyellow`.
    if name.len() > 20 {
        return None;
    }
    let found = named::from_str(&name.to_ascii_lowercase())?;
    Some(Rgb::new(found.red, found.green, found.blue))
}

/// The 148 names of CSS Color 4, lower case, in alphabetical order: for completion and for "did you mean".
pub fn color_names() -> Vec<&'static str> {
    let mut names: Vec<_> = named::names().collect();
    names.sort_unstable();
    names
}
