//! Whole sessions, in one process, over the protocol's own bytes. A client here minds every message: whoever leaves one
//! unread fails.

#![allow(clippy::disallowed_methods, reason = "tests read and write files")]

mod client;
mod commands;
mod findings;
mod looks;
mod markdown;
mod model;
mod names;
mod order;
mod preview;
mod searches;
mod stage;
mod trouble;
mod typing;
mod workspace;
mod writing;
