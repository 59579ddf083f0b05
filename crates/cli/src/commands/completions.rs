//! `knotwright completions`

use crate::terminal::{CommandResult, Exit, Terminal};
use clap::Args;
use clap_complete::Shell;

/// Print completions for a shell: what it offers when you press the tab key
#[derive(Debug, Args)]
#[command(
    after_help = "Example:\n  knotwright completions fish > ~/.config/fish/completions/knotwright.fish"
)]
pub(crate) struct CompletionsArguments {
    /// The shell
    #[arg(value_enum)]
    shell: Shell,
}

pub(crate) fn run(typed: &CompletionsArguments, terminal: &Terminal) -> CommandResult {
    let mut text = Vec::new();
    clap_complete::generate(typed.shell, &mut crate::arguments::program(), "knotwright", &mut text);
    let mut out = terminal.out();
    out.write(&String::from_utf8_lossy(&text))?;
    out.flush()?;
    Ok(Exit::Clean)
}
