//! `knotwright export`

use crate::bands::each;
use crate::exported::Exported;
use crate::inputs::InputArguments;
use crate::terminal::{CommandResult, Exit, Terminal};
use clap::Args;
use knotwright_maker::WholeBand;

/// Write all numbers of a band as JSON: knots with their rows, orders, repeats, thread and lengths
///
/// One line of JSON for each pattern; the schema is `band-1.schema.json`. A pattern with errors is reported and
/// left out. In folders, libraries are left out, because they have no strands.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright export tidepool.knot > tidepool.json\n  \
                        knotwright export bands/ | jq -r '.title'")]
pub(crate) struct ExportArguments {
    #[command(flatten)]
    inputs: InputArguments,
}

pub(crate) fn run(typed: ExportArguments, terminal: &Terminal) -> CommandResult {
    let mut out = terminal.out();
    let exit = each(typed.inputs, terminal, |band| {
        out.write_json(&Exported::new(&band.files, &band.pattern, &WholeBand::of(&band.pattern)))?;
        Ok(Exit::Clean)
    })?;
    out.flush()?;
    Ok(exit)
}
