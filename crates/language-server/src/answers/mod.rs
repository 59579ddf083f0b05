//! From what is known to what the protocol wants to hear: one file a question. Nothing about patterns is decided here.

mod findings;

pub(crate) use findings::{diagnostics, fingerprint};
