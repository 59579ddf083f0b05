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
mod edits;
mod exprs;
mod files_renamed;
mod folding;
mod hang;
mod hints;
mod hover;
mod lens;
mod line;
mod links;
mod moments;
mod motifs;
mod names;
mod reckoning;
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

pub use actions::{Action, ActionKind, actions, fix_all};
pub use calls::{Call, CallItem, call_item, incoming, outgoing};
pub use checked::{Checked, Use};
pub use colors::{WrittenColor, colors, presentations};
pub use completion::{Completion, CompletionKind, completion};
pub use edits::{TextEdit, edited};
pub use files_renamed::files_renamed;
pub use folding::{Fold, FoldKind, folds};
pub use hints::{Hint, HintKind, HintOptions, hints};
pub use hover::{Hover, LARGEST_PICTURE, Picture, hover};
pub use lens::{Lens, lenses};
pub use links::{Link, links};
pub use names::{Mention, Names, Sort, Symbol as NamedSymbol};
pub use references::{definition, highlights, linked, references};
pub use rename::{Refusal, prepare_rename, rename};
pub use selection::selections;
pub use signature::{Signature, signature};
pub use symbols::{Symbol, SymbolKind, matches, symbols, workspace_symbols};
pub use tokens::{Ink, Inked, tokens, tokens_within};
pub use world::{FileEdit, Target, World};
