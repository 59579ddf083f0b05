//! `knotwright export`

use crate::bands::each;
use crate::exported::Exported;
use crate::inputs::InputArguments;
use crate::terminal::{Answer, Exit, Failure, Terminal};
use clap::Args;
use knotwright_maker::Reckoning;

/// Write all that is reckoned of a band as JSON: knots with their rows, orders, repeats, thread and lengths
///
/// One line of JSON for each pattern, in the form of the schema `band-1.schema.json`. A pattern with errors is told
/// about and left out. Libraries, which have no strands of their own, are left out of folders.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright export tidepool.knot > tidepool.json\n  \
                        knotwright export bands/ | jq -r '.title'")]
pub(crate) struct ExportArguments {
    #[command(flatten)]
    inputs: InputArguments,
}

pub(crate) fn run(typed: ExportArguments, terminal: &Terminal) -> Answer {
    let mut out = terminal.out();
    let exit = each(typed.inputs, terminal, |band| {
        let reckoning = Reckoning::of(&band.pattern).map_err(|error| {
            Failure::said(format_args!("{}: cannot be reckoned: {error:?}", band.file.shown))
        })?;
        out.write_json(&Exported::new(&band.files, &band.pattern, &reckoning))?;
        Ok(Exit::Clean)
    })?;
    out.flush()?;
    Ok(exit)
}
