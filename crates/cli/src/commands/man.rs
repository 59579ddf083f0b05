//! `knotwright man`

use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::Args;
use clap_mangen::Man;
use knotwright_workspace::{refusal, shown_path};
use std::path::PathBuf;

/// Print a manual page, for `man` to show
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  knotwright man | man -l -\n  knotwright man check > knotwright-check.1\n  \
                        knotwright man --all ~/.local/share/man/man1"
)]
pub(crate) struct ManArguments {
    /// The command whose page to print; without one, the page of the whole program
    command: Option<String>,

    /// Write all pages into this folder instead, for packagers
    #[arg(long, value_name = "FOLDER", conflicts_with = "command")]
    all: Option<PathBuf>,
}

pub(crate) fn run(typed: &ManArguments, terminal: &Terminal) -> CommandResult {
    let mut program = crate::arguments::program();
    if let Some(folder) = &typed.all {
        // Help for a command is on its page.
        let program = program.disable_help_subcommand(true);
        return clap_mangen::generate_to(program, folder).map(|()| Exit::Clean).map_err(|error| {
            Failure::said(format_args!(
                "{}: the pages cannot be written: {}",
                shown_path(folder),
                refusal(&error)
            ))
        });
    }
    program.build();
    let page = match &typed.command {
        None => program,
        Some(name) => match program.find_subcommand(name) {
            Some(command) => command.clone(),
            None => {
                return Err(Failure::said(format_args!(
                    "there is no command `{name}`; `knotwright --help` lists them"
                )));
            }
        },
    };
    let mut text = Vec::new();
    Man::new(page)
        .render(&mut text)
        .map_err(|error| Failure::said(format_args!("no page can be made: {}", refusal(&error))))?;
    let mut out = terminal.out();
    out.write(&String::from_utf8_lossy(&text))?;
    out.flush()?;
    Ok(Exit::Clean)
}
