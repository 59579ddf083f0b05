//! `knotwright serve`

use crate::terminal::{Answer, Exit, Failure};
use clap::Args;
use knotwright_language_server::{End, serve_standard_streams};

/// Serve an editor: findings while you type, and answers to what it asks
///
/// Editors start this themselves and talk to it over the standard streams, in the Language Server Protocol. It ends
/// when the editor says so, closes the stream, or is gone.
#[derive(Debug, Args)]
#[command(after_help = "Example, as an editor runs it:\n  knotwright serve")]
pub(crate) struct ServeArguments {
    /// Talk over the standard streams; nothing else is possible, but some editors insist on saying it
    #[arg(long)]
    pub(crate) stdio: bool,
}

pub(crate) fn run(typed: &ServeArguments) -> Answer {
    let ServeArguments { stdio: _ } = typed;
    match serve_standard_streams() {
        Ok(End::Orderly) => Ok(Exit::Clean),
        Ok(End::Sudden) => Ok(Exit::Findings),
        Err(error) => Err(Failure::said(format_args!("the server cannot be started: {error}"))),
    }
}
