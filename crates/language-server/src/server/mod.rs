//! The server: what it does when a message comes.

mod capabilities;
mod diagnostics;
mod initializing;
mod methods;
mod publishing;
mod refreshing;
mod registering;
mod requests;
mod searching;
mod semantic_tokens;
mod state;
mod surroundings;

pub(crate) use requests::saved;
pub(crate) use state::{Server, ServerRef};
