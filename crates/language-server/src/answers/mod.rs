//! From what is known to what the protocol wants to hear: one file a question. Nothing about patterns is decided here.

mod actions;
mod call_hierarchy;
mod colors;
mod completion;
mod diagnostics;
mod edits;
mod formatting;
mod hints;
mod hover;
mod names;
mod places;
mod ranges;
mod semantic_tokens;
mod symbols;

pub(crate) use actions::{FIX_ALL, code_actions};
pub(crate) use call_hierarchy::{call_hierarchy_item, incoming_calls, outgoing_calls};
pub(crate) use colors::{color_presentations, document_colors};
pub(crate) use completion::{completion, signature_help};
pub(crate) use diagnostics::{
    DocumentFindings, diagnostics, diagnostics_while_tied, fingerprint, first_diagnostics,
};
pub(crate) use formatting::{format_document, format_on_type, format_range};
pub(crate) use hints::{code_lenses, inlay_hints};
pub(crate) use hover::hover;
pub(crate) use names::{
    definition, document_highlights, document_links, linked_editing_ranges, prepare_rename, references,
    rename, renamed_files,
};
pub(crate) use ranges::{folding_ranges, selection_ranges};
pub(crate) use semantic_tokens::{delta, legend, semantic_tokens, semantic_tokens_within};
pub(crate) use symbols::{document_symbols, workspace_symbols};
