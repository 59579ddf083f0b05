//! The patterns of a page stand where they are said to stand, whatever the page.
#![no_main]

use libfuzzer_sys::fuzz_target;

#[allow(dead_code, reason = "each target uses one of its laws")]
#[path = "../../soak/texts.rs"]
mod texts;

fuzz_target!(|text: &str| texts::page(text).unwrap());
