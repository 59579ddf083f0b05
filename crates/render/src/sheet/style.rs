//! The sheet's style and script, and the hashes by which its policy names them.

use crate::BandThread;
use base64::Engine as _;
use sha2::{Digest as _, Sha256};

/// What every sheet's script does. Its files share one scope, which nothing outside sees.
pub(super) const SCRIPT: &str = concat!(
    "\"use strict\";\n(() => {\n",
    include_str!("script/band.js"),
    include_str!("script/hands.js"),
    include_str!("script/strip.js"),
    include_str!("script/lost.js"),
    include_str!("script/awake.js"),
    include_str!("script/times.js"),
    include_str!("script/follow.js"),
    "})();\n"
);

/// The style: that of every sheet, and a class for every thread.
pub(super) fn write_style(threads: &[BandThread]) -> String {
    let mut style = include_str!("sheet.css").to_owned();
    for (number, thread) in threads.iter().enumerate() {
        let (color, ink) = (thread.color, thread.color.ink());
        let ground =
            stripes(thread).map_or_else(|| color.to_string(), |stripes| format!("{stripes},{color}"));
        style.push_str(&format!(".t{number}{{background:{ground};color:{ink}}}\n"));
    }
    style
}

/// The colors of a thread that changes color, side by side below its letter.
fn stripes(thread: &BandThread) -> Option<String> {
    let share = |number: usize| number * 100 / thread.shades.len();
    let stripe = |(number, shade): (usize, &crate::ThreadShade)| {
        format!("{} {}% {}%", shade.color, share(number), share(number + 1))
    };
    let stripes: Vec<String> = thread.shades.iter().enumerate().map(stripe).collect();
    let gradient = stripes.join(",");
    (!stripes.is_empty()).then(|| format!("linear-gradient(90deg,{gradient}) bottom/100% 22% no-repeat"))
}

/// How a content security policy names an inline script or style (CSP Level 3, section 2.3.1): base64 of its SHA-256.
pub(crate) fn hash_source(text: &str) -> String {
    let hash = base64::engine::general_purpose::STANDARD.encode(Sha256::digest(text));
    format!("'sha256-{hash}'")
}

/// A name for a band: the first half of its SHA-256 in hexadecimal digits.
pub(super) fn band_key(text: &str) -> String {
    Sha256::digest(text).iter().take(16).map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-4, SHA-256 of "abc" (from memory, and checked with `sha256sum`).
    #[test]
    fn the_hash_is_sha_256() {
        assert_eq!(band_key("abc"), "ba7816bf8f01cfea414140de5dae2223");
        assert_eq!(hash_source("abc"), "'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='");
    }
}
