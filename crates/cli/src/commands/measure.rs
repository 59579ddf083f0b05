//! `knotwright measure`

use crate::bands::{Band, each};
use crate::inputs::InputArguments;
use crate::lengths::LengthArguments;
use crate::measures::{HEADER, Json, csv, text};
use crate::terminal::{Answer, Exit, Failure, Out, Terminal};
use clap::Args;
use knotwright_maker::{Measured, NotMeasured, Unit, Wish};

/// Tell how much thread to cut, for each strand and color, and how long the band becomes
///
/// Reckoned knot by knot over all sets, as the strands change places from set to set. Without a swatch in the
/// pattern's gauge it is good to about a fifth, and says so. What to cut has a reserve.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright measure tidepool.knot --length 15cm\n  \
                        knotwright measure tidepool.knot --sets 8 --unit in --fold\n  \
                        knotwright measure tidepool.knot --format csv > cut-list.csv")]
pub(crate) struct MeasureArguments {
    #[command(flatten)]
    inputs: InputArguments,

    #[command(flatten)]
    lengths: LengthArguments,

    /// Fold threads in two, each for two strands of a color that need about the same
    #[arg(long)]
    fold: bool,

    /// What to write: a table, JSON (one line a pattern; the schema is `measure-1.schema.json`) or CSV
    #[arg(long, value_enum, default_value_t, value_name = "FORMAT")]
    format: Format,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, clap::ValueEnum)]
enum Format {
    /// For people
    #[default]
    Text,
    /// For programs: lengths in millimeters
    Json,
    /// For spreadsheets: a line a strand, lengths in millimeters
    Csv,
}

pub(crate) fn run(typed: MeasureArguments, terminal: &Terminal) -> Answer {
    let wish = Wish {
        extent: typed.lengths.extent(),
        thickness: typed.lengths.thickness(),
        ends: typed.lengths.ends(),
        fold: typed.fold,
    };
    let (format, unit) = (typed.format, typed.lengths.unit());
    let mut out = terminal.out();
    let mut first = true;
    let exit = each(typed.inputs, terminal, |band| match Measured::new(&band.pattern, wish) {
        Ok(measured) => {
            match (std::mem::take(&mut first), format) {
                (false, Format::Text) => out.write("\n")?,
                (true, Format::Csv) => out.write(HEADER)?,
                _ => {}
            }
            write(&mut out, &band, &measured, (format, unit))
        }
        Err(reason) => {
            terminal.error(format_args!("{}: {}", band.file.shown, reason.said(unit)));
            // What was typed is at fault if it was typed; else the pattern is.
            Ok(if wish.extent.is_some() || reason == NotMeasured::Endless {
                Exit::Failed
            } else {
                Exit::Findings
            })
        }
    })?;
    out.flush()?;
    Ok(exit)
}

fn write(out: &mut Out, band: &Band, measured: &Measured, how: (Format, Unit)) -> Result<Exit, Failure> {
    match how.0 {
        Format::Text => out.write(&text(measured, how.1))?,
        Format::Json => out.write_json(&Json::new(&band.file.shown, measured))?,
        Format::Csv => out.write_text(&csv(&band.file.shown, measured))?,
    }
    Ok(Exit::Clean)
}
