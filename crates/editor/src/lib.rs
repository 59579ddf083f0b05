//! What an editor may ask about a pattern, in plain data.
//!
//! Every question takes a [`Checked`], a snapshot of one file with all that the checker said of it, and byte
//! offsets; every answer is a plain struct. There is no protocol, no line and column, no file and no thread here.
//! Indexes are built when they are first asked for and kept with the snapshot.

mod actions;
mod band_picture;
mod calls;
mod checked;
mod colors;
mod completion;
mod docs;
mod exprs;
mod files_renamed;
mod folding;
mod found_once;
mod hang;
mod hints;
mod hover;
mod lens;
mod letters;
mod line;
mod links;
mod moments;
mod motifs;
mod names;
mod references;
mod rename;
mod selection;
mod signature;
mod site;
mod steps;
mod swatch;
mod symbols;
mod tokens;
mod views;
mod wording;
mod world;

pub use actions::{Action, ActionKind, code_actions, fix_all};
pub use calls::{Call, CallItem, call_item, incoming_calls, outgoing_calls};
pub use checked::{Checked, UsedFile, WaitedFor};
pub use colors::{WrittenColor, color_presentations, document_colors};
pub use completion::{Completion, CompletionKind, completion};
pub use files_renamed::files_renamed;
pub use folding::{Fold, FoldKind, folding_ranges};
pub use found_once::FoundOnce;
pub use hints::{Hint, HintKind, HintOptions, PaintedStrand, StrandOrder, inlay_hints, strand_orders};
pub use hover::{Hover, LARGEST_PICTURE, Picture, hover};
pub use knotwright_formatter::{Edit as TextEdit, apply_text_edits};
pub use lens::{Lens, code_lenses};
pub use links::{FileLink, document_links};
pub use names::{Mention, NameIndex, NameSort, NamedSymbol};
pub use references::{document_highlights, find_definition, find_references, linked_editing_ranges};
pub use rename::{Refusal, prepare_rename, rename};
pub use selection::selection_ranges;
pub use signature::{Signature, signature_help};
pub use symbols::{QueryFit, Symbol, SymbolKind, document_symbols, query_fit, workspace_symbols};
pub use tokens::{Ink, Inked, semantic_tokens, tokens_within};
pub use world::{FileEdit, FilePlace, Nobody, Onlooker, World};
