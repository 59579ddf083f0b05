//! `knotwright kit`

use crate::bands::{BandFile, each};
use crate::in_range::within;
use crate::inputs::InputArguments;
use crate::kits::{KitJson, csv, text};
use crate::lengths::LengthArguments;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::Args;
use knotwright_band::pace::FittedPace;
use knotwright_band::thread::LinearDensity;
use knotwright_maker::{Kit, KitBand, KitError, KitOptions, MeasureOptions, Typed, read_times, report_kit};
use knotwright_workspace::{read_text, shown_path};
use std::path::PathBuf;

/// List what to prepare for a band or for a class: skeins to buy, pieces to cut, time, and what makes it hard
///
/// Skeins are counted for all bands together, next to a number that no way of cutting goes below. Times are common practice
/// unless you give your own. If one of the patterns has an error, nothing is listed: the list would be short.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright kit tidepool.knot\n  \
                        knotwright kit tidepool.knot orchard-hearts.knot --count 30 --wrist 15cm --skein 8m --price 1.20\n  \
                        knotwright kit tidepool.knot --tex 250 --format markdown > kit.md\n  \
                        knotwright kit tidepool.knot --times my-times.csv")]
pub(crate) struct KitArguments {
    #[command(flatten)]
    inputs: InputArguments,

    /// How many bands of each pattern
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = within(1_u32..=100_000))]
    count: u32,

    #[command(flatten)]
    lengths: LengthArguments,

    /// Fold each thread in two, for two strands of one color that need about the same length
    #[arg(long)]
    fold: bool,

    /// In the colors of this colorway
    #[arg(long, value_name = "NAME")]
    colorway: Option<String>,

    /// How much thread is in a skein: 8 m if not given (common practice, no source)
    #[arg(long, value_name = "LENGTH")]
    skein: Option<Typed>,

    /// How heavy the thread is, in tex, grams in a kilometer (ISO 1144): then weights are listed
    #[arg(long, value_name = "TEX", value_parser = above_zero)]
    tex: Option<f64>,

    /// What a skein costs, in any money: then costs are listed
    #[arg(long, value_name = "AMOUNT", value_parser = above_zero)]
    price: Option<f64>,

    /// How many seconds you need for a knot; turning knots and pick-ups take as much longer or shorter than usual
    #[arg(long, value_name = "SECONDS", value_parser = above_zero, conflicts_with = "times")]
    pace: Option<f64>,

    /// Times that you measured, to compute yours from: comma-separated, with the first line
    /// `knots,turning_knots,pick_ups,seconds` and a line for each time
    #[arg(long, value_name = "FILE")]
    times: Option<PathBuf>,

    /// The output: a report, Markdown, comma-separated values, or JSON (the schema is `kit-1.schema.json`)
    #[arg(long, value_enum, default_value_t, value_name = "FORMAT")]
    format: KitFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, clap::ValueEnum)]
enum KitFormat {
    /// For people
    #[default]
    Text,
    /// For people, on a page
    Markdown,
    /// For spreadsheets: a line for each thread to buy, each piece to cut and each moment
    Csv,
    /// For programs: lengths in millimeters, times in seconds
    Json,
}

/// A number above zero, and at most a million.
fn above_zero(typed: &str) -> Result<f64, String> {
    let number = typed.parse().ok().filter(|number| *number > 0.0 && *number <= 1e6);
    number.ok_or_else(|| "write a number above zero, at most a million".to_owned())
}

pub(crate) fn run(typed: KitArguments, terminal: &Terminal) -> CommandResult {
    let options = typed.options()?;
    let unit = options.measure.unit;
    let mut files: Vec<BandFile> = Vec::new();
    let exit = each(typed.inputs, terminal, |band| {
        if !band.has_room(terminal) {
            return Ok(Exit::Findings);
        }
        files.push(band);
        Ok(Exit::Clean)
    })?;
    if exit != Exit::Clean {
        return Ok(exit);
    }
    if files.is_empty() {
        return Err(Failure::said("no pattern was found"));
    }
    let mut bands = Vec::with_capacity(files.len());
    for file in &files {
        match KitBand::new(&file.pattern, &options) {
            Ok(band) => bands.push(band),
            Err(reason) => {
                terminal.error(format_args!("{}: {}", file.file.shown, reason.said(unit)));
                return Ok(end(&reason, &options));
            }
        }
    }
    let kit = Kit::new(bands, options);
    let paths: Vec<&str> = files.iter().map(|file| &*file.file.shown).collect();
    let mut out = terminal.out();
    match typed.format {
        KitFormat::Text => out.write(&text(&report_kit(&kit, unit)))?,
        KitFormat::Markdown => out.write_text(&report_kit(&kit, unit).markdown())?,
        KitFormat::Csv => out.write_text(&csv(&paths, &kit))?,
        KitFormat::Json => out.write_json(&KitJson::new(&paths, &kit))?,
    }
    out.flush()?;
    Ok(Exit::Clean)
}

/// What was typed is at fault if it was typed; else the pattern is.
fn end(reason: &KitError, options: &KitOptions) -> Exit {
    let is_typed = options.measure.extent.is_some() || options.measure.wrist.is_some();
    match reason {
        KitError::Colorway(_) => Exit::Failed,
        KitError::NotMeasured(_) if is_typed => Exit::Failed,
        KitError::NotMeasured(_) => Exit::Findings,
    }
}

impl KitArguments {
    fn options(&self) -> Result<KitOptions, Failure> {
        Ok(KitOptions {
            measure: MeasureOptions {
                extent: self.lengths.extent(),
                wrist: self.lengths.wrist(),
                thickness: self.lengths.thickness(),
                ends: self.lengths.ends(),
                fold: self.fold,
                skein: self.skein.map(|skein| skein.0),
                unit: self.lengths.unit(),
            },
            count: self.count,
            colorway: self.colorway.clone(),
            density: self.tex.map(|tex| LinearDensity { tex }),
            price: self.price,
            pace: self.fitted_pace()?,
        })
    }

    fn fitted_pace(&self) -> Result<FittedPace, Failure> {
        let Some(path) = &self.times else {
            return Ok(self.pace.map_or_else(FittedPace::usual, FittedPace::of_knot));
        };
        let shown = shown_path(path);
        let text = read_text(path).map_err(|error| Failure::said(format_args!("{shown}: {error}")))?;
        let timed = read_times(&text).map_err(|reason| Failure::said(format_args!("{shown}: {reason}")))?;
        Ok(FittedPace::of_times(&timed))
    }
}
