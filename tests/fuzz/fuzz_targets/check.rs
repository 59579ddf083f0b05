//! No text makes the checker panic or hang, and what it says is within the text.
#![no_main]

use libfuzzer_sys::fuzz_target;

#[allow(dead_code, reason = "each target uses one of its laws")]
#[path = "../../soak/texts.rs"]
mod texts;

fuzz_target!(|text: &str| drop(texts::checked(text).unwrap()));
