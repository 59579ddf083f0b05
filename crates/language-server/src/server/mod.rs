//! The server: what it does when a message comes.

mod capabilities;
mod methods;
mod pulling;
mod requests;
mod state;
mod watching;

pub(crate) use state::Server;
