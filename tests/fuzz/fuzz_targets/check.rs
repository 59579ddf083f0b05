//! No text makes the checker panic or hang, and every finding has a place in the text.
#![no_main]

use knotwright_checker::{NoLibrary, Settings, Source, check};
use libfuzzer_sys::fuzz_target;
use std::sync::Arc;

fuzz_target!(|text: &str| {
    let report = check(Arc::new(Source::new("fuzz.knot", text)), &NoLibrary, &Settings::default());
    for finding in &report.findings {
        let span = finding.place.span;
        assert!(text.get(span.start as usize..span.end as usize).is_some());
        assert!(!finding.message.is_empty());
    }
});
