//! `knotwright locate`

use crate::bands::OneArguments;
use crate::hang::hanging;
use crate::located::{LocatedJson, located, stretches, text};
use crate::outcome::Spots;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::{Args, ValueEnum};
use knotwright_maker::WholeBand;

/// Find your place: which steps fit the strands as they hang now, or what went wrong if none does
///
/// Exit code 0: a step fits; 1: no step fits, and the nearest ones are listed.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright locate tidepool.knot 2 foam kelp sand\n  \
                        knotwright locate tidepool.knot \"foam 2 kelp | mirror\"\n  \
                        knotwright locate tidepool.knot --format json 2 foam kelp sand | jq '.places[0].next.line'")]
pub(crate) struct LocateArguments {
    #[command(flatten)]
    input: OneArguments,

    /// How the strands hang now, from left to right, as in a `strands` line
    #[arg(required = true, value_name = "STRANDS")]
    strands: Vec<String>,

    /// The output: words or JSON (the schema is `place-1.schema.json`)
    #[arg(long, value_enum, default_value_t, value_name = "FORMAT")]
    format: LocateFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum LocateFormat {
    /// For people
    #[default]
    Text,
    /// For programs
    Json,
}

pub(crate) fn run(typed: LocateArguments, terminal: &Terminal) -> CommandResult {
    let band = match typed.input.band(terminal)? {
        Ok(band) => band,
        Err(exit) => return Ok(exit),
    };
    let hang = hanging(&band, &typed.strands.join(" ")).map_err(Failure::said)?;
    let whole = WholeBand::of(&band.pattern);
    let stretches = stretches(&band.pattern, &whole);
    let located = located(&stretches, &whole, &hang);
    let mut out = terminal.out();
    let spots = Spots::new(&band.files);
    match typed.format {
        LocateFormat::Text => out.write(&text(&located, &spots))?,
        LocateFormat::Json => out.write_json(&LocatedJson::new(&located, &band, &spots))?,
    }
    out.flush()?;
    Ok(if located.distance == 0 { Exit::Clean } else { Exit::Findings })
}
