//! From what is known to what the protocol wants to hear: one file a question. Nothing about patterns is decided here.

mod actions;
mod calls;
mod colors;
mod completion;
mod edits;
mod findings;
mod folding;
mod formatting;
mod hints;
mod hover;
mod names;
mod places;
mod symbols;
mod tokens;

pub(crate) use actions::{FIX_ALL, actions};
pub(crate) use calls::{call_item, incoming, outgoing};
pub(crate) use colors::{colors, presentations};
pub(crate) use completion::{completion, signature};
pub(crate) use findings::{diagnostics, fingerprint};
pub(crate) use folding::{folds, selections};
pub(crate) use formatting::{format_all, format_range, format_typed};
pub(crate) use hints::{hints, lenses};
pub(crate) use hover::hover;
pub(crate) use names::{
    definition, highlights, linked, links, prepare_rename, references, rename, renamed_files,
};
pub(crate) use symbols::{outline, workspace_symbols};
pub(crate) use tokens::{delta, encode, encode_within, legend};
