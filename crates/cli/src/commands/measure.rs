//! `knotwright measure`

use crate::bands::{BandFile, each};
use crate::inputs::InputArguments;
use crate::lengths::LengthArguments;
use crate::measures::{HEADER, MeasuredJson, csv, text};
use crate::rewrite::replace;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::Args;
use knotwright_maker::{MeasureOptions, Measured, NotProposed, Typed, join_long_strands, propose_joins};
use knotwright_numbers::ToNumber;
use knotwright_rewriter::Original;
use knotwright_wording::digits::count;

/// Compute how much thread to cut, for each strand and color, and how long the band will be
///
/// The lengths are computed knot by knot over all sets, because strands change places from set to set. Without a
/// swatch in the pattern's gauge they are accurate to about 20%, and the output says so. The lengths to cut are as much
/// as a strand may need. A band whose length is not said is measured for 15 cm.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright measure tidepool.knot --length 15cm\n  \
                        knotwright measure tidepool.knot --wrist 16cm --skein 5m\n  \
                        knotwright measure tidepool.knot --sets 8 --unit in --fold\n  \
                        knotwright measure harbor-wall.knot --longest 2m --write\n  \
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

    /// Propose where to join strands so that no piece is longer than this: `2m`. A piece ends as late as it can, at a knot in
    /// which the strand is tied over
    #[arg(long, value_name = "LENGTH")]
    longest: Option<Typed>,

    /// Write these joins into the pattern, as `join` lines
    #[arg(long, requires = "longest")]
    write: bool,

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
    /// For spreadsheets: one line for each strand, or each piece of it, lengths in millimeters
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
    let longest = typed.longest.map(|longest| longest.0);
    if longest.is_some() && format == MeasureFormat::Csv {
        return Err(Failure::said("CSV has a line for each strand and none for a join; use `--format json`"));
    }
    let mut out = terminal.out();
    let mut first = true;
    let exit = each(typed.inputs, terminal, |band| {
        let measured = match Measured::new(&band.pattern, wish) {
            Ok(measured) => measured,
            Err(reason) => {
                terminal.error(format_args!("{}: {}", band.file.shown, reason.said(unit)));
                // What was typed is at fault if it was typed; else the pattern is.
                let is_typed = wish.extent.is_some() || wish.wrist.is_some();
                return Ok(if is_typed { Exit::Failed } else { Exit::Findings });
            }
        };
        let joins = match longest.map(|longest| Ok((longest, propose_joins(&measured, longest, unit)?))) {
            Some(Err(reason)) => {
                terminal.error(format_args!("{}: {}", band.file.shown, NotProposed::said(reason)));
                return Ok(Exit::Failed);
            }
            Some(Ok(joins)) => Some(joins),
            None => None,
        };
        match (std::mem::take(&mut first), format) {
            (false, MeasureFormat::Text) => out.write("\n")?,
            (true, MeasureFormat::Csv) => out.write(HEADER)?,
            _ => {}
        }
        let proposed = joins.as_ref().map(|(longest, joins)| (*longest, joins));
        match format {
            MeasureFormat::Text => out.write(&text(&measured, proposed, unit))?,
            MeasureFormat::Json => {
                out.write_json(&MeasuredJson::new(&band.file.shown, &measured, proposed))?;
            }
            MeasureFormat::Csv => out.write_text(&csv(&band.file.shown, &measured))?,
        }
        Ok(match joins {
            Some((longest, joins)) if typed.write && !joins.joins.is_empty() => {
                write_joins(&band, wish, longest, terminal)
            }
            Some((_, joins)) if !joins.without_place.is_empty() => Exit::Findings,
            _ => Exit::Clean,
        })
    })?;
    out.flush()?;
    Ok(exit)
}

/// Writes the lines into the file, or says why nothing is written.
fn write_joins(band: &BandFile, wish: MeasureOptions, longest: f64, terminal: &Terminal) -> Exit {
    let source = &band.files[0];
    let original = Original { source, pattern: &band.pattern, library: &band.file.home.library };
    let written = join_long_strands(original, wish, longest)
        .and_then(|joined| replace(&band.file, &source.text, &joined.text).map(|()| joined));
    match written {
        Ok(joined) => {
            let joins = count(joined.proposed.joins.len().to_u64(), "join");
            terminal.say(format_args!("{}: {joins} written", band.file.shown));
            Exit::Clean
        }
        Err(reason) => {
            terminal.error(format_args!("{}: {reason}; nothing was written", band.file.shown));
            Exit::Findings
        }
    }
}
