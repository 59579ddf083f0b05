//! `knotwright draw`

use crate::bands::{Band, OneArguments};
use crate::output::put;
use crate::terminal::{Answer, Exit, Failure, Terminal};
use clap::{Args, ValueEnum};
use knotwright_checker::Pattern;
use knotwright_color::{Eyes, Rgb};
use knotwright_maker::scripted_to_see;
use knotwright_render::{
    ChartOptions, Colorway, NoPng, Scene, SvgOptions, TerminalOptions, chart, contact_sheet, png, png_of_svg,
    svg, terminal,
};
use std::path::{Path, PathBuf};

/// Draw the band as it will look, or its working chart
///
/// Without `--output` and `--format` it is drawn in the terminal, in 24-bit color or, where there is no color, in letters.
/// Knots lie in true proportion, as the gauge of the pattern says.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright draw tidepool.knot\n  \
                        knotwright draw tidepool.knot -o tidepool.svg --background dark\n  \
                        knotwright draw tidepool.knot --chart -o chart.svg\n  \
                        knotwright draw tidepool.knot --vision deutan --sets 4 --format png > seen.png")]
pub(crate) struct DrawArguments {
    #[command(flatten)]
    one: OneArguments,

    /// Write a file; its ending, `.svg`, `.png` or `.txt`, says what it is to be
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,

    /// What to write, whatever the name of the file
    #[arg(long, value_enum, value_name = "FORMAT")]
    format: Option<Format>,

    /// So many times the set is tied
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    sets: Option<u32>,

    /// In the colors of this colorway
    #[arg(long, value_name = "NAME", conflicts_with = "colorways")]
    colorway: Option<String>,

    /// All colorways side by side on one sheet
    #[arg(long, conflicts_with = "chart")]
    colorways: bool,

    /// As eyes see it that lack one kind of cone (Machado, Oliveira & Fernandes 2009)
    #[arg(long, value_enum, value_name = "EYES")]
    vision: Option<Vision>,

    /// The working chart: every knot readable in black and white, rows numbered
    #[arg(long)]
    chart: bool,

    /// What lies behind the band; nothing, if it is not said
    #[arg(long, value_enum, value_name = "GROUND")]
    background: Option<Background>,

    /// Pixels to a millimeter of SVG and PNG
    #[arg(long, value_name = "PIXELS", default_value_t = 10.0, value_parser = scale)]
    scale: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// A drawing that can be enlarged
    Svg,
    /// Pixels
    Png,
    /// For the terminal
    Terminal,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Vision {
    /// Eyes without the cones for long waves
    Protan,
    /// Eyes without the cones for middle waves
    Deutan,
    /// Eyes without the cones for short waves
    Tritan,
}

impl From<Vision> for Eyes {
    fn from(vision: Vision) -> Self {
        match vision {
            Vision::Protan => Self::Protan,
            Vision::Deutan => Self::Deutan,
            Vision::Tritan => Self::Tritan,
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Background {
    /// Paper
    Light,
    /// Slate
    Dark,
}

pub(crate) fn run(typed: DrawArguments, terminal: &Terminal) -> Answer {
    let format = typed.wanted()?;
    if format == Format::Png && typed.output.is_none() && terminal.is_seen() {
        return Err(Failure::said("a PNG is not for a terminal: name a file, `-o band.png`"));
    }
    let band = match typed.one.clone().band(terminal)? {
        Ok(band) => band,
        Err(exit) => return Ok(exit),
    };
    let bytes = draw(&band, &typed, (format, terminal))
        .map_err(|reason| Failure::said(format_args!("{}: {reason}", band.file.shown)))?;
    put(typed.output.as_ref(), &bytes, terminal)?;
    Ok(Exit::Clean)
}

impl DrawArguments {
    /// What is to be written.
    fn wanted(&self) -> Result<Format, Failure> {
        let format = match (self.format, &self.output) {
            (Some(format), _) => format,
            (None, Some(path)) => by_ending(path)?,
            (None, None) if self.chart || self.colorways => Format::Svg,
            (None, None) => Format::Terminal,
        };
        if format == Format::Terminal && (self.chart || self.colorways) {
            return Err(Failure::said("charts and sheets of colorways are SVG or PNG, not text"));
        }
        Ok(format)
    }

    /// How much larger a chart or a sheet is painted than it says; 5 pixels are a millimeter of a chart.
    fn scale_of_drawing(&self) -> f64 {
        if self.chart { self.scale / 5.0 } else { 1.0 }
    }

    fn svg_options(&self) -> SvgOptions {
        let ground = self.background.map(|ground| match ground {
            Background::Light => Rgb::new(0xfb, 0xf8, 0xf1),
            Background::Dark => Rgb::new(0x1d, 0x20, 0x26),
        });
        SvgOptions { ground, pixels_per_millimeter: self.scale, ..SvgOptions::default() }
    }
}

fn by_ending(path: &Path) -> Result<Format, Failure> {
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
    match ending.as_deref() {
        Some("svg") => Ok(Format::Svg),
        Some("png") => Ok(Format::Png),
        Some("txt") => Ok(Format::Terminal),
        _ => Err(Failure::said(format_args!(
            "{}: end its name in `.svg`, `.png` or `.txt`, or say `--format`",
            knotwright_workspace::shown(path)
        ))),
    }
}

fn scale(typed: &str) -> Result<f64, String> {
    match typed.parse::<f64>() {
        Ok(scale) if (0.1..=200.0).contains(&scale) => Ok(scale),
        _ => Err("a number from 0.1 to 200".to_owned()),
    }
}

fn draw(of: &Band, typed: &DrawArguments, (format, to): (Format, &Terminal)) -> Result<Vec<u8>, String> {
    let script = scripted_to_see(&of.pattern, typed.sets, typed.colorway.as_deref())?;
    let eyes = typed.vision.map_or(Eyes::Ordinary, Eyes::from);
    let band = script.band().seen_by(eyes);
    let options = typed.svg_options();
    let drawing = if typed.chart {
        Some(chart(&band, &ChartOptions::default()))
    } else if typed.colorways {
        Some(contact_sheet(&band, &all_colorways(&of.pattern, eyes), &options))
    } else {
        None
    };
    let painted = |result: Result<Vec<u8>, NoPng>| result.map_err(|error| error.to_string());
    match (drawing, format) {
        (Some(drawing), Format::Png) => painted(png_of_svg(&drawing, typed.scale_of_drawing())),
        (Some(drawing), _) => Ok(drawing.into_bytes()),
        (None, Format::Svg) => Ok(svg(&Scene::of(&band), &options).into_bytes()),
        (None, Format::Png) => painted(png(&Scene::of(&band), &options)),
        (None, Format::Terminal) => Ok(in_terminal(&band, typed, to).into_bytes()),
    }
}

fn in_terminal(band: &knotwright_render::Band<'_>, typed: &DrawArguments, to: &Terminal) -> String {
    // A file is for any terminal, so its color must be asked for; its columns are those of this one.
    let color = to.color && (typed.output.is_none() || !to.is_seen());
    terminal(band, &TerminalOptions { columns: to.columns(), color, legend: true })
}

/// The pattern's own colors first, then its colorways.
fn all_colorways(pattern: &Pattern, eyes: Eyes) -> Vec<Colorway> {
    let own = (&pattern.title, &pattern.threads);
    let others = pattern.colorways.iter().map(|colorway| (&colorway.name, &colorway.threads));
    std::iter::once(own)
        .chain(others)
        .map(|(name, threads)| Colorway {
            name: name.clone(),
            colors: threads.iter().map(|thread| eyes.see(thread.color)).collect(),
        })
        .collect()
}
