//! Documents, and the language server protocol.
//!
//! The only room with protocol types and async code. What is asked is answered elsewhere, in plain data; here documents
//! are kept as their editor has them, messages are run in their order, and answers are put into the protocol's words.
//!
//! What holds:
//! - Notifications and cancellations run to their end as they arrive. Their handlers wait for nothing.
//! - A request works on a snapshot, while everything else goes on; if its document changes meanwhile, that is the answer. Only
//!   what helps while somebody types is answered all the same: editors fit it to what was typed since.
//! - How a version ties and what is found in it, is found out once for all who ask about it, and no longer than one of them
//!   waits: half of it is kept for nobody.
//! - Findings are sent of the newest version only, with its number, and never of one that has passed.
//! - Nothing that a client sends ends the session but `exit` and the end of its messages.

mod answers;
mod client;
mod commands;
mod documents;
mod encoding;
mod preview;
mod serve;
mod server;
mod streams;
mod wire;

pub use serve::{serve, serve_standard_streams};
pub use wire::SessionEnd;

use tower_lsp::jsonrpc::Error;

/// A mistake of ours.
fn failed() -> Error {
    let message = "Something went wrong in Knotwright here; everything else keeps working.".into();
    Error { message, ..Error::internal_error() }
}
