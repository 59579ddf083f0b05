//! Twice is once, whatever the text.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let once = knotwright_formatter::formatted(text);
    assert_eq!(knotwright_formatter::formatted(&once), once);
});
