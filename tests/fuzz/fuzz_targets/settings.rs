//! Settings are read, or something is said about them in words.
#![no_main]

use libfuzzer_sys::fuzz_target;

#[allow(dead_code, reason = "each target uses one of its laws")]
#[path = "../../soak/texts.rs"]
mod texts;

fuzz_target!(|text: &str| texts::settings(text).unwrap());
