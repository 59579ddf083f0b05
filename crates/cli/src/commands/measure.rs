//! `knotwright measure`

use crate::bands::each;
use crate::inputs::InputArguments;
use crate::lengths::LengthArguments;
use crate::measures::{HEADER, MeasuredJson, csv, text};
use crate::terminal::{CommandResult, Exit, Terminal};
use clap::Args;
use knotwright_maker::{MeasureOptions, Measured, Typed};

/// Compute how much thread to cut, for each strand and color, and how long the band will be
///
/// The lengths are computed knot by knot over all sets, because strands change places from set to set. Without a
/// swatch in the pattern's gauge they are accurate to about 20%, and the output says so. The lengths to cut are as much
/// as a strand may need. A band whose length is not said is measured for 15 cm.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright measure tidepool.knot --length 15cm\n  \
                        knotwright measure tidepool.knot --wrist 16cm --skein 5m\n  \
                        knotwright measure tidepool.knot --sets 8 --unit in --fold\n  \
                        knotwright measure tidepool.knot --format csv > cut-list.csv")]
pub(crate) struct MeasureArguments {
    #[command(flatten)]
    inputs: InputArguments,

    #[command(flatten)]
    lengths: LengthArguments,

    /// Fold each thread in two, for two strands of one color that need about the same length
    #[arg(long)]
    fold: bool,

    /// The longest piece there is of a thread; a strand that needs more is reported: 8 m if not given (common practice,
    /// no source)
    #[arg(long, value_name = "LENGTH")]
    skein: Option<Typed>,

    /// The output: a table, JSON (one line for each pattern; the schema is `measure-1.schema.json`) or CSV
    #[arg(long, value_enum, default_value_t, value_name = "FORMAT")]
    format: MeasureFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, clap::ValueEnum)]
enum MeasureFormat {
    /// For people
    #[default]
    Text,
    /// For programs: lengths in millimeters
    Json,
    /// For spreadsheets: one line for each strand, lengths in millimeters
    Csv,
}

pub(crate) fn run(typed: MeasureArguments, terminal: &Terminal) -> CommandResult {
    let wish = MeasureOptions {
        extent: typed.lengths.extent(),
        wrist: typed.lengths.wrist(),
        thickness: typed.lengths.thickness(),
        ends: typed.lengths.ends(),
        fold: typed.fold,
        skein: typed.skein.map(|skein| skein.0),
        unit: typed.lengths.unit(),
    };
    let (format, unit) = (typed.format, wish.unit);
    let mut out = terminal.out();
    let mut first = true;
    let exit = each(typed.inputs, terminal, |band| match Measured::new(&band.pattern, wish) {
        Ok(measured) => {
            match (std::mem::take(&mut first), format) {
                (false, MeasureFormat::Text) => out.write("\n")?,
                (true, MeasureFormat::Csv) => out.write(HEADER)?,
                _ => {}
            }
            match format {
                MeasureFormat::Text => out.write(&text(&measured, unit))?,
                MeasureFormat::Json => out.write_json(&MeasuredJson::new(&band.file.shown, &measured))?,
                MeasureFormat::Csv => out.write_text(&csv(&band.file.shown, &measured))?,
            }
            Ok(Exit::Clean)
        }
        Err(reason) => {
            terminal.error(format_args!("{}: {}", band.file.shown, reason.said(unit)));
            // What was typed is at fault if it was typed; else the pattern is.
            let is_typed = wish.extent.is_some() || wish.wrist.is_some();
            Ok(if is_typed { Exit::Failed } else { Exit::Findings })
        }
    })?;
    out.flush()?;
    Ok(exit)
}
