//! What goes over the wire: frames, messages in their order, and the end.
//!
//! The library behind this room knows the protocol's types and methods. Its own loop is not used: it lets four
//! requests hold up a cancellation, runs notifications at the same time, and ends with the first frame that is
//! none. The loop here runs notifications to their end as they arrive, answers what cannot be read, and goes on.

mod frames;
mod message;
mod outbox;
mod parent;
mod session;

pub(crate) use outbox::{Outbox, ReadyOutput};
pub(crate) use parent::Parent;
pub use session::SessionEnd;
pub(crate) use session::{Connection, session};
