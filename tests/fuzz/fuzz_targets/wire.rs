//! Whatever reaches a language server, it answers nothing with a panic, and ends when its input does.
#![no_main]

use libfuzzer_sys::fuzz_target;

#[path = "../../soak/wire.rs"]
mod wire;

fuzz_target!(|bytes: &[u8]| wire::bytes(bytes).unwrap());
