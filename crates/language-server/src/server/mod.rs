//! The server: what it does when a message comes.

mod capabilities;
mod inking;
mod lifecycle;
mod methods;
mod pulling;
mod registering;
mod requests;
mod state;
mod surroundings;
mod watching;

pub(crate) use requests::saved;
pub(crate) use state::{Server, ServerRef};
