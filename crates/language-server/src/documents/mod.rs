//! The documents a client has open, and the files around them.

mod askers;
mod document;
mod fenced;
mod index;
mod library;
mod paths;
mod search;
mod snapshot;
mod text;
mod version;
mod word_colors;

use document::uses_others;
pub(crate) use document::{Documents, OpenDocument, is_about};
pub(crate) use index::Index;
pub(crate) use library::{Around, Everywhere, Open};
pub(crate) use paths::{file_of, path_of, uri_of};
pub(crate) use search::SearchView;
pub(crate) use snapshot::{Setting, Snapshot};
pub(crate) use text::DocumentText;
pub(crate) use version::{KnownText, Version};
pub(crate) use word_colors::{EarlierColors, WordColors};
