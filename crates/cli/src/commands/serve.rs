//! `knotwright serve`

use crate::terminal::{CommandResult, Exit, Failure};
use clap::Args;
use knotwright_language_server::{SessionEnd, serve_standard_streams};
use knotwright_workspace::refusal;

/// Serve an editor: findings while you type, and answers to its requests
///
/// Editors start this command themselves and talk to it over the standard streams, in the Language Server Protocol.
/// It ends when the editor says so, closes the stream, or is gone.
#[derive(Debug, Args)]
#[command(after_help = "Example, as an editor runs it:\n  knotwright serve")]
pub(crate) struct ServeArguments {
    /// Use the standard streams; this is the only way, but some editors always add this option
    #[arg(long)]
    pub(crate) stdio: bool,
}

pub(crate) fn run(typed: &ServeArguments) -> CommandResult {
    let ServeArguments { stdio: _ } = typed;
    match serve_standard_streams() {
        Ok(SessionEnd::Orderly) => Ok(Exit::Clean),
        Ok(SessionEnd::Sudden) => Ok(Exit::Findings),
        Err(error) => Err(Failure::said(format_args!("the server cannot be started: {}", refusal(&error)))),
    }
}
