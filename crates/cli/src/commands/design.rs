//! `knotwright design`

use crate::bands::OneArguments;
use crate::designing::{
    DesignJob, DesignTimer, FaceSize, Picture, ResizedFace, draw_letters, explain_no_face, is_png,
    read_palette,
};
use crate::in_range::within;
use crate::output::put;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::{Args, ValueEnum};
use knotwright_designer::{DesignEnd, DesignStart, DesignTask, DesignWatch, Designed, design_band};
use knotwright_maker::DrawnFace;
use knotwright_render::png_of_svg;
use knotwright_wording::digits::count;
use knotwright_workspace::{read_bytes, shown_path};
use std::path::{Path, PathBuf};

/// From what you want to see to the knots: a whole pattern that shows a picture or a text, with the fewest turning knots
///
/// A PNG is sampled at the centers of the knots and brought to a few colors. In a pattern, the part with a `face` and no
/// steps is tied. With `--improve`, the set of a pattern gets
/// the same face with fewer turning knots. Before the pattern is printed, it is tied and compared with the face. The pattern
/// goes to standard output, and the number of turning knots to standard error: either it is proved that there is no band with
/// fewer, or fewer were not found in time. If the face cannot be tied, the knots that cannot are shown, with exit code 1.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright design gull.png --strands 24 --colors 3 > gull.knot\n  \
                        knotwright design --letters AHOY --close > ahoy.knot\n  \
                        knotwright design wish.knot --start free > tied.knot\n  \
                        knotwright design tidepool.knot --improve > simpler.knot")]
pub(crate) struct DesignArguments {
    /// A PNG; or a pattern, with a `face` that is still to be tied or with `--improve`
    #[arg(value_name = "FILE", required_unless_present = "letters", conflicts_with = "letters")]
    path: Option<PathBuf>,

    /// This text, in letters along the band
    #[arg(long, value_name = "TEXT")]
    letters: Option<String>,

    /// The same face as the set of the pattern has, with fewer turning knots
    #[arg(long, requires = "path")]
    improve: bool,

    /// How many strands the band has; by default 16 for a picture, and as many as letters need. With `--improve`, the face
    /// gets this size
    #[arg(long, value_name = "N", value_parser = within(2_u8..=200))]
    strands: Option<u8>,

    /// How many rows; by default as many as keep the shape of the picture or, with `--improve`, of the face
    #[arg(long, value_name = "N", value_parser = within(1_u32..=10_000), conflicts_with = "letters")]
    rows: Option<u32>,

    /// The most colors that are used of a picture; by default 4, or with `--palette` all of its threads
    #[arg(long, value_name = "N", value_parser = within(2_u8..=16), conflicts_with_all = ["improve", "letters"])]
    colors: Option<u8>,

    /// Use the threads of this pattern
    #[arg(long, value_name = "FILE", conflicts_with_all = ["improve", "letters"])]
    palette: Option<PathBuf>,

    /// How the strands hang at the start; by default free, but with `--improve` as they must for an opening or a closing
    #[arg(long, value_enum, value_name = "START")]
    start: Option<StartName>,

    /// Let the colors hang at the end as at the start, so that the set can be tied over and over
    #[arg(long)]
    close: bool,

    /// If the face cannot be tied, tie the nearest one: the fewest knots show another color
    #[arg(long)]
    nearest: bool,

    /// Draw the face into this file, as `.svg` or `.png`; knots that cannot show their color are hatched
    #[arg(long, value_name = "FILE", value_parser = picture_path)]
    picture: Option<PathBuf>,

    /// Stop after this many seconds, with the best band so far
    #[arg(long, value_name = "SECONDS", default_value_t = 10, value_parser = within(1_u32..=86_400))]
    seconds: u32,

    /// The title of the pattern; by default it is made from the name of the file or the text
    #[arg(long, conflicts_with = "improve")]
    title: Option<String>,
}

/// How much larger the pixels of a face are painted than its drawing says.
const PICTURE_SCALE: f64 = 2.0;

/// How the strands hang at the start, as it is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum StartName {
    /// As is best
    Free,
    /// As is best, but alike from both edges
    Even,
    /// As the pattern says (with `--improve`)
    Given,
}

pub(crate) fn run(typed: &DesignArguments, terminal: &Terminal) -> CommandResult {
    let job = match typed.job(terminal)? {
        Ok(job) => job,
        Err(exit) => return Ok(exit),
    };
    let timer = DesignTimer::start(typed.seconds);
    let mut better = |designed: &Designed| timer.show(designed);
    let end = design_band(&job.task, &mut DesignWatch { stop: &|| timer.is_over(), better: &mut better });
    let ended = match timer.is_interrupted() {
        true => "before you ended the search".to_owned(),
        false => format!("in {}", count(typed.seconds.into(), "second")),
    };
    drop(timer);
    let end = end.map_err(explain_no_face)?;
    if let (Some(path), Some(found)) = (&typed.picture, found(&end)) {
        put(Some(path), &DesignArguments::drawn_as(path, &job.picture(found))?, terminal)?;
    }
    match end {
        DesignEnd::Tied(designed) => job.print(&designed, &ended, terminal),
        DesignEnd::Cannot(Some(designed)) if typed.nearest => job.print(&designed, &ended, terminal),
        DesignEnd::Cannot(nearest) => {
            job.say_cannot(nearest.as_ref(), terminal);
            Ok(Exit::Findings)
        }
        DesignEnd::Stopped => {
            terminal.error(format_args!(
                "no band that shows this face was found {ended}, and it is not known whether there is one; allow more \
                 `--seconds`, or make the face smaller"
            ));
            Ok(Exit::Findings)
        }
    }
}

/// What a search found, as far as it is known what can be tied.
fn found(end: &DesignEnd) -> Option<Option<&Designed>> {
    match end {
        DesignEnd::Tied(designed) => Some(Some(designed)),
        DesignEnd::Cannot(nearest) => Some(nearest.as_ref()),
        DesignEnd::Stopped => None,
    }
}

/// A name that says what to draw.
fn picture_path(typed: &str) -> Result<PathBuf, String> {
    let path = PathBuf::from(typed);
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
    match ending.as_deref() {
        Some("svg" | "png") => Ok(path),
        _ => Err("end its name in `.svg` or `.png`".to_owned()),
    }
}

impl DesignArguments {
    /// What is wanted. Within: what was said already ends the program so.
    fn job(&self, terminal: &Terminal) -> Result<Result<DesignJob, Exit>, Failure> {
        let Some(path) = &self.path else {
            let text = self.letters.as_deref().unwrap_or_default();
            return Ok(Ok(self.begun(draw_letters(text, self.strands)?, text)?));
        };
        let bytes = if path == Path::new("-") { Vec::new() } else { self.bytes(path)? };
        let is_png_by_name = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("png"));
        let shown = shown_path(path);
        let said = |reason: &str| Failure::said(format_args!("{shown}: {reason}"));
        match (is_png(&bytes), self.improve) {
            (true, true) => Err(said("`--improve` takes a pattern, and this is a PNG")),
            (false, _) if is_png_by_name => Err(said("this is not a PNG")),
            (true, false) => {
                let drawn = self.drawn(&bytes).map_err(|Failure(reason)| said(&reason))?;
                let name = path.file_stem().map(|name| name.to_string_lossy().replace(['-', '_'], " "));
                Ok(Ok(self.begun(drawn, &name.unwrap_or_default())?))
            }
            (false, improve) => {
                if self.has_size() && !improve {
                    return Err(said(
                        "`--strands` and `--rows` are for a picture, or with `--improve` for another size, and `--colors` and \
                         `--palette` for a picture",
                    ));
                }
                let one = OneArguments { path: path.clone(), stdin_name: None };
                let band = if improve { one.band(terminal)? } else { one.band_to_design(terminal)? };
                let band = match band {
                    Ok(band) => band,
                    Err(exit) => return Ok(Err(exit)),
                };
                if self.has_size() {
                    let size = FaceSize { strands: self.strands, rows: self.rows };
                    let wanted = ResizedFace { size, start: self.new_start()?, closes: self.close };
                    let job = wanted.job(&band, terminal)?;
                    return Ok(Ok(job));
                }
                let start = self.start.map(|start| match start {
                    StartName::Free => Some(DesignStart::Free),
                    StartName::Even => Some(DesignStart::Even),
                    StartName::Given => None,
                });
                let job = if improve { DesignJob::improving } else { DesignJob::wishing };
                job(band, start, self.close).map(Ok)
            }
        }
    }

    fn has_size(&self) -> bool {
        self.strands.is_some() || self.rows.is_some() || self.colors.is_some() || self.palette.is_some()
    }

    fn bytes(&self, path: &Path) -> Result<Vec<u8>, Failure> {
        let shown = shown_path(path);
        read_bytes(path).map_err(|error| Failure::said(format_args!("{shown}: {error}")))
    }

    fn drawn(&self, bytes: &[u8]) -> Result<DrawnFace, Failure> {
        let threads = self.palette.as_ref().map_or_else(|| Ok(Vec::new()), |path| read_palette(path))?;
        let size = FaceSize { strands: self.strands, rows: self.rows };
        Picture::read(bytes)?.face(size, self.colors.map(usize::from), &threads)
    }

    /// How the strands of a new band hang.
    fn new_start(&self) -> Result<DesignStart, Failure> {
        match self.start {
            None | Some(StartName::Free) => Ok(DesignStart::Free),
            Some(StartName::Even) => Ok(DesignStart::Even),
            Some(StartName::Given) => Err(Failure::said(
                "`--start given` is for `--improve` with the same number of strands and rows: a new band has no start yet",
            )),
        }
    }

    fn drawn_as(path: &Path, picture: &str) -> Result<Vec<u8>, Failure> {
        let is_png = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("png"));
        match is_png {
            true => png_of_svg(picture, PICTURE_SCALE).map_err(Failure::said),
            false => Ok(picture.as_bytes().to_vec()),
        }
    }

    /// A new pattern.
    fn begun(&self, drawn: DrawnFace, name: &str) -> Result<DesignJob, Failure> {
        let start = self.new_start()?;
        let title = self.title.clone().unwrap_or_else(|| capitalized(name));
        if title.contains(['{', '}']) || title.contains(char::is_control) {
            return Err(Failure::said(
                "a title cannot contain braces, line breaks or other control characters; give one with `--title`",
            ));
        }
        let task = DesignTask { face: drawn.face.clone(), start, closes: self.close };
        Ok(DesignJob::beginning(drawn, task, title))
    }
}

fn capitalized(name: &str) -> String {
    let mut letters = name.trim().chars();
    letters.next().map_or_else(|| "A face".to_owned(), |first| first.to_uppercase().chain(letters).collect())
}
