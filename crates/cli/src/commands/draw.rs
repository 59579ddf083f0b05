//! `knotwright draw`

use crate::bands::{BandFile, OneArguments};
use crate::in_range::at_least;
use crate::output::put;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::{Args, ValueEnum};
use knotwright_checker::{Pattern, USUAL_LANGUAGE};
use knotwright_color::{Eyes, Rgb};
use knotwright_maker::{band_threads, scripted_to_see};
use knotwright_render::{
    ChartOptions, NamedColors, NoPng, Scene, SvgOptions, TerminalOptions, chart_pages, chart_text,
    contact_sheet, draw_chart, draw_svg, draw_terminal, png_of_band, png_of_svg,
};
use std::path::{Path, PathBuf};

/// Draw the band as it will look, or its working chart
///
/// Without `--output` and `--format`, the band is drawn in the terminal, in 24-bit color or, if there is no color,
/// in letters. Knots have their true proportions, from the gauge of the pattern.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright draw tidepool.knot\n  \
                        knotwright draw tidepool.knot -o tidepool.svg --background dark\n  \
                        knotwright draw tidepool.knot --chart -o chart.svg\n  \
                        knotwright draw tidepool.knot --vision deutan --sets 4 --format png > seen.png")]
pub(crate) struct DrawArguments {
    #[command(flatten)]
    one: OneArguments,

    /// The file to write; its ending, `.svg`, `.png` or `.txt`, sets the format
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,

    /// The format, whatever the name of the file
    #[arg(long, value_enum, value_name = "FORMAT")]
    format: Option<DrawFormat>,

    /// How often to tie the set
    #[arg(long, value_name = "N", value_parser = at_least(1_u32))]
    sets: Option<u32>,

    /// In the colors of this colorway
    #[arg(long, value_name = "NAME", conflicts_with = "colorways")]
    colorway: Option<String>,

    /// All colorways side by side on one sheet
    #[arg(long, conflicts_with = "chart")]
    colorways: bool,

    /// As eyes that lack one kind of cone see it (Machado, Oliveira & Fernandes 2009)
    #[arg(long, value_enum, value_name = "EYES")]
    vision: Option<VisionName>,

    /// The working chart: every knot readable in black and white, rows numbered
    #[arg(long)]
    chart: bool,

    /// The working chart in pages for A4 or US Letter paper: `chart-1.svg`, `chart-2.svg` and so on
    #[arg(long, requires = "chart", requires = "output")]
    pages: bool,

    /// What is behind the band; by default nothing
    #[arg(long, value_enum, value_name = "GROUND")]
    background: Option<Background>,

    /// Pixels for each millimeter, in SVG and PNG
    #[arg(long, value_name = "PIXELS", default_value_t = 10.0, value_parser = scale)]
    scale: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum DrawFormat {
    /// A drawing that you can enlarge
    Svg,
    /// Pixels
    Png,
    /// For the terminal
    Terminal,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum VisionName {
    /// Eyes without the cones for long waves
    Protan,
    /// Eyes without the cones for middle waves
    Deutan,
    /// Eyes without the cones for short waves
    Tritan,
}

impl From<VisionName> for Eyes {
    fn from(vision: VisionName) -> Self {
        match vision {
            VisionName::Protan => Self::Protan,
            VisionName::Deutan => Self::Deutan,
            VisionName::Tritan => Self::Tritan,
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

pub(crate) fn run(typed: DrawArguments, terminal: &Terminal) -> CommandResult {
    let format = typed.wanted(terminal)?;
    if format == DrawFormat::Png && typed.output.is_none() && terminal.is_seen() {
        return Err(Failure::said("a PNG cannot be shown in a terminal: name a file, `-o band.png`"));
    }
    let band = match typed.one.clone().band(terminal)? {
        Ok(band) => band,
        Err(exit) => return Ok(exit),
    };
    band.say_wishes(terminal);
    let said = |reason: String| Failure::said(format_args!("{}: {reason}", band.file.shown));
    if let Some(path) = typed.output.as_ref().filter(|_| typed.pages) {
        let pages = pages(&band, &typed, format).map_err(said)?;
        for (page, number) in pages.iter().zip(1_u32..) {
            put(Some(&page_name(path, number)), page, terminal)?;
        }
        return Ok(Exit::Clean);
    }
    let bytes = draw(&band, &typed, format, terminal).map_err(said)?;
    put(typed.output.as_ref(), &bytes, terminal)?;
    Ok(Exit::Clean)
}

impl DrawArguments {
    /// What is to be written.
    fn wanted(&self, terminal: &Terminal) -> Result<DrawFormat, Failure> {
        let format = match (self.format, &self.output) {
            (Some(format), _) => format,
            (None, Some(path)) => by_ending(path)?,
            (None, None) if self.colorways || (self.chart && !terminal.is_seen()) => DrawFormat::Svg,
            (None, None) => DrawFormat::Terminal,
        };
        if format == DrawFormat::Terminal && self.colorways {
            return Err(Failure::said("sheets of colorways are SVG or PNG, not text"));
        }
        if format == DrawFormat::Terminal && self.pages {
            return Err(Failure::said("pages are SVG or PNG, not text"));
        }
        Ok(format)
    }

    /// How much larger a chart or a sheet is painted than it says; 5 pixels are a millimeter of a chart.
    fn scale_of_drawing(&self) -> f64 {
        if self.chart { self.scale / 5.0 } else { 1.0 }
    }

    fn ground(&self) -> Option<Rgb> {
        self.background.map(|ground| match ground {
            Background::Light => Rgb::new(0xfb, 0xf8, 0xf1),
            Background::Dark => Rgb::new(0x1d, 0x20, 0x26),
        })
    }

    fn chart_options(&self) -> ChartOptions {
        let options = ChartOptions::default();
        ChartOptions { ground: self.ground().unwrap_or(options.ground), ..options }
    }

    fn svg_options(&self) -> SvgOptions {
        SvgOptions { ground: self.ground(), pixels_per_millimeter: self.scale, ..SvgOptions::default() }
    }
}

fn by_ending(path: &Path) -> Result<DrawFormat, Failure> {
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
    match ending.as_deref() {
        Some("svg") => Ok(DrawFormat::Svg),
        Some("png") => Ok(DrawFormat::Png),
        Some("txt") => Ok(DrawFormat::Terminal),
        _ => Err(Failure::said(format_args!(
            "{}: end its name in `.svg`, `.png` or `.txt`, or say `--format`",
            knotwright_workspace::shown_path(path)
        ))),
    }
}

fn scale(typed: &str) -> Result<f64, String> {
    match typed.parse::<f64>() {
        Ok(scale) if (0.1..=200.0).contains(&scale) => Ok(scale),
        _ => Err("write a number from 0.1 to 200".to_owned()),
    }
}

fn draw(of: &BandFile, typed: &DrawArguments, format: DrawFormat, to: &Terminal) -> Result<Vec<u8>, String> {
    let script = scripted_to_see(&of.pattern, typed.sets, typed.colorway.as_deref())?;
    let eyes = typed.vision.map_or(Eyes::Ordinary, Eyes::from);
    let script = script.seen_by(eyes);
    let band = script.band();
    let options = typed.svg_options();
    let drawing = if typed.chart {
        if format == DrawFormat::Terminal {
            return Ok(chart_text(&script, &typed.chart_options(), to.columns()).into_bytes());
        }
        Some(draw_chart(&script, &typed.chart_options()))
    } else if typed.colorways {
        Some(contact_sheet(&band, &all_colorways(&of.pattern, eyes), &options))
    } else {
        None
    };
    let painted = |result: Result<Vec<u8>, NoPng>| result.map_err(|error| error.to_string());
    match (drawing, format) {
        (Some(drawing), DrawFormat::Png) => painted(png_of_svg(&drawing, typed.scale_of_drawing())),
        (Some(drawing), _) => Ok(drawing.into_bytes()),
        (None, DrawFormat::Svg) => Ok(draw_svg(&Scene::of(&band), &options).into_bytes()),
        (None, DrawFormat::Png) => painted(png_of_band(&band, &options)),
        (None, DrawFormat::Terminal) => Ok(in_terminal(&band, typed, to).into_bytes()),
    }
}

fn pages(of: &BandFile, typed: &DrawArguments, format: DrawFormat) -> Result<Vec<Vec<u8>>, String> {
    let script = scripted_to_see(&of.pattern, typed.sets, typed.colorway.as_deref())?;
    let script = script.seen_by(typed.vision.map_or(Eyes::Ordinary, Eyes::from));
    let pages = chart_pages(&script, &typed.chart_options()).into_iter();
    let written = pages.map(|page| match format {
        DrawFormat::Png => png_of_svg(&page, typed.scale_of_drawing()).map_err(|error| error.to_string()),
        _ => Ok(page.into_bytes()),
    });
    written.collect()
}

fn page_name(path: &Path, number: u32) -> PathBuf {
    let part = |part: Option<&std::ffi::OsStr>| part.unwrap_or_default().to_string_lossy().into_owned();
    let ending = part(path.extension());
    let dot = if ending.is_empty() { "" } else { "." };
    path.with_file_name(format!("{}-{number}{dot}{ending}", part(path.file_stem())))
}

fn in_terminal(band: &knotwright_render::Band<'_>, typed: &DrawArguments, to: &Terminal) -> String {
    // A file is for any terminal, so its color must be asked for; its columns are those of this one.
    let color = to.color && (typed.output.is_none() || !to.is_seen());
    draw_terminal(band, &TerminalOptions { columns: to.columns(), color, legend: true })
}

/// The pattern's own colors first, then its colorways.
fn all_colorways(pattern: &Pattern, eyes: Eyes) -> Vec<NamedColors> {
    let title = pattern.title.in_language(USUAL_LANGUAGE);
    let own = (title, &pattern.threads);
    let others = pattern.colorways.iter().map(|colorway| (colorway.name.as_str(), &colorway.threads));
    std::iter::once(own)
        .chain(others)
        .map(|(name, threads)| NamedColors {
            name: name.to_owned(),
            threads: band_threads(threads, USUAL_LANGUAGE)
                .into_iter()
                .map(|thread| thread.seen_by(eyes))
                .collect(),
        })
        .collect()
}
