//! A band is like itself, and what is said of two holds both ways. A zero byte stands between the two.
#![no_main]

use libfuzzer_sys::fuzz_target;

#[allow(dead_code, reason = "each target uses one of its laws")]
#[path = "../../soak/texts.rs"]
mod texts;

fuzz_target!(|text: &str| {
    let (one, other) = text.split_once('\0').unwrap_or((text, text));
    texts::compare(one, other).unwrap();
});
