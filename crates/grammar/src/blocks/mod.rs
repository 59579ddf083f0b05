//! The structure of a file: its lines, its blocks, and what to do where they are broken.

mod balance;
mod chart;
mod closing;
mod frame;
mod line;
mod part;
mod place;
mod reader;
mod statement;

pub(crate) use part::read_part;
pub(crate) use reader::{Read, read};
