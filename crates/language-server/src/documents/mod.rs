//! The documents a client has open, and the files around them.

mod document;
mod fenced;
mod index;
mod library;
mod paths;
mod snapshot;
mod text;

pub(crate) use document::Documents;
pub(crate) use index::Index;
pub(crate) use library::{Around, Everywhere, Open};
pub(crate) use paths::{file_of, path_of, uri_of};
pub(crate) use snapshot::{Known, Setting, Snapshot};
pub(crate) use text::Text;
