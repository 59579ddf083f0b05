//! `knotwright sheet`

use crate::bands::OneArguments;
use crate::output::put;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use crate::tying::{TyingArguments, say_backward};
use clap::Args;
use knotwright_maker::MOST_KNOTS;
use knotwright_render::{Order, ProseOptions, write_sheet};
use std::path::PathBuf;

/// Write a sheet to print or to follow in a browser: one HTML file with everything in it
///
/// The sheet has the picture, the cut list, the cautions, and the steps one at a time in big type. The browser
/// remembers your place. The file loads nothing from a network and runs only its own script.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright sheet tidepool.knot -o tidepool.html\n  \
                        knotwright sheet tidepool.knot --sets 8 --language es > tidepool.html")]
pub(crate) struct SheetArguments {
    #[command(flatten)]
    one: OneArguments,

    /// The file to write; an existing file is replaced
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,

    #[command(flatten)]
    tying: TyingArguments,
}

pub(crate) fn run(typed: SheetArguments, terminal: &Terminal) -> CommandResult {
    let band = match typed.one.band(terminal)? {
        Ok(band) => band,
        Err(exit) => return Ok(exit),
    };
    let said = |reason: String| Failure::said(format_args!("{}: {reason}", band.file.shown));
    let instructed = typed.tying.tying().script(&band.pattern).map_err(said)?;
    if instructed.script.knots() > MOST_KNOTS || instructed.script.times > MOST_KNOTS {
        return Err(said(
            "that is more than a million knots or sets; use fewer, such as `--sets 8`".to_owned(),
        ));
    }
    let options =
        ProseOptions { language: typed.tying.language(), order: Order::Steps, mirrored: instructed.mirrored };
    say_backward(&band, instructed.mirrored, terminal);
    let page = write_sheet(&instructed.script, &options).map_err(|reason| said(reason.to_string()))?;
    put(typed.output.as_ref(), page.as_bytes(), terminal)?;
    Ok(Exit::Clean)
}
