//! `knotwright measure`

use crate::bands::{Band, each};
use crate::inputs::InputArguments;
use crate::lengths::UnitName;
use crate::measures::{HEADER, Json, csv, text};
use crate::terminal::{Answer, Exit, Failure, Out, Terminal};
use clap::Args;
use knotwright_checker::Extent;
use knotwright_maker::{Measured, NotMeasured, Typed, Unit, Wish};

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

    /// So long is the knotted part to be, to the nearest whole set: `15cm`
    #[arg(long, value_name = "LENGTH", conflicts_with = "sets")]
    length: Option<Typed>,

    /// So many times the set is tied
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    sets: Option<u32>,

    /// So thick is the thread, in place of what the pattern's gauge says: `0.9mm`
    #[arg(long, value_name = "LENGTH")]
    thickness: Option<Typed>,

    /// So much is left free at each end: `10cm`
    #[arg(long, value_name = "LENGTH")]
    ends: Option<Typed>,

    /// Fold threads in two, each for two strands of a color that need about the same
    #[arg(long)]
    fold: bool,

    /// In which unit lengths are told
    #[arg(long, value_enum, default_value_t, value_name = "UNIT")]
    unit: UnitName,

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
        extent: typed.length.map(|length| Extent::Length(length.0)).or(typed.sets.map(Extent::Sets)),
        thickness: typed.thickness.map(|thickness| thickness.0),
        ends: typed.ends.map(|ends| ends.0),
        fold: typed.fold,
    };
    let (format, unit) = (typed.format, Unit::from(typed.unit));
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
