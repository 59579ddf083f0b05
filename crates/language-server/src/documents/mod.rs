//! The documents a client has open.

mod document;
mod library;
mod paths;
mod snapshot;
mod text;

pub(crate) use document::Documents;
pub(crate) use library::{Around, Open};
pub(crate) use paths::{path_of, uri_of};
pub(crate) use snapshot::Snapshot;
pub(crate) use text::Text;
