//! `knotwright write`

use crate::bands::OneArguments;
use crate::output::put;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use crate::tying::{TyingArguments, say_backward};
use clap::{Args, ValueEnum};
use knotwright_band::Kind;
use knotwright_render::{Order, ProseDocument, ProseOptions, write_instructions};
use std::path::{Path, PathBuf};

/// Write instructions in words: what to cut, how the strands hang, and every step, as a person would say it
///
/// Plain text on a terminal and in `.txt` files, Markdown otherwise. After every section, the text says how the
/// strands hang, so that you see a slip before the next section.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright write tidepool.knot\n  \
                        knotwright write tidepool.knot -o tidepool.md --length 16cm\n  \
                        knotwright write tidepool.knot --by rows --language de --mirrored")]
pub(crate) struct WriteArguments {
    #[command(flatten)]
    one: OneArguments,

    /// The file to write; an existing file is replaced
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,

    /// The format of the text
    #[arg(long, value_enum, value_name = "FORMAT")]
    format: Option<WriteFormat>,

    /// Also write drawings of the knots, as SVG files next to the Markdown file
    #[arg(long, requires = "output")]
    drawings: bool,

    /// The order of the knots
    #[arg(long, value_enum, default_value_t, value_name = "ORDER")]
    by: TellBy,

    #[command(flatten)]
    tying: TyingArguments,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum WriteFormat {
    /// Headings and lists for a web page or a notebook
    Markdown,
    /// For a terminal or a printer
    Plain,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum TellBy {
    /// Step by step, as the pattern says
    #[default]
    Steps,
    /// Row by row
    Rows,
}

/// Lines of plain text for a file or a printer; on a terminal they are as long as it is wide, but no longer than this.
const COLUMNS: usize = 90;

pub(crate) fn run(typed: WriteArguments, terminal: &Terminal) -> CommandResult {
    let (format, output, with_drawings) = (typed.wanted(terminal), typed.output.clone(), typed.drawings);
    if with_drawings && format == WriteFormat::Plain {
        return Err(Failure::said("drawings go with Markdown; end the name of the file in `.md`"));
    }
    let document = match typed.document(terminal)? {
        Ok(document) => document,
        Err(exit) => return Ok(exit),
    };
    if let Some(path) = output.as_ref().filter(|_| with_drawings) {
        for (kind, drawing) in document.drawings() {
            put(Some(&path.with_file_name(drawing_name(path, kind))), drawing.as_bytes(), terminal)?;
        }
    }
    let text = match format {
        WriteFormat::Markdown if with_drawings => {
            let file = |kind| linked(&drawing_name(output.as_deref().unwrap_or(Path::new("")), kind));
            document.markdown_with_drawings(&file)
        }
        WriteFormat::Markdown => document.markdown(),
        WriteFormat::Plain if output.is_none() => document.plain(terminal.columns().min(COLUMNS)),
        WriteFormat::Plain => document.plain(COLUMNS),
    };
    if output.is_some() {
        put(output.as_ref(), text.as_bytes(), terminal)?;
    } else {
        let mut out = terminal.out();
        out.write_text(&text)?;
        out.flush()?;
    }
    Ok(Exit::Clean)
}

/// The file of a drawing, beside that of the text.
fn drawing_name(text: &Path, kind: Kind) -> String {
    let stem = text.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let kind = match kind {
        Kind::Forward => "forward",
        Kind::Backward => "backward",
        Kind::ForwardBackward => "forward-backward",
        Kind::BackwardForward => "backward-forward",
    };
    format!("{stem}-{kind}.svg")
}

/// A file name as it is in a link of Markdown (RFC 3986, section 2.1: what is not unreserved is written in hexadecimal).
fn linked(name: &str) -> String {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || b"-._~".contains(&byte);
    name.bytes()
        .map(|byte| if plain(byte) { char::from(byte).to_string() } else { format!("%{byte:02X}") })
        .collect()
}

impl WriteArguments {
    /// The instructions as Markdown, for a pattern that is looked up from `folder`.
    ///
    /// # Errors
    /// Within: what was said already ends the program so. Without: what was asked for is at fault.
    pub(crate) fn markdown(
        mut self,
        folder: &Path,
        terminal: &Terminal,
    ) -> Result<Result<String, Exit>, Failure> {
        if self.output.is_some() || self.format.is_some() || self.drawings {
            return Err(Failure::said(
                "a mark cannot have `--output` or `--format`: its text is Markdown, and stays here",
            ));
        }
        if self.one.path == Path::new("-") {
            return Err(Failure::said("a mark names a pattern file, not standard input"));
        }
        self.one.path = folder.join(&self.one.path);
        Ok(self.document(terminal)?.map(|document| document.markdown()))
    }

    fn document(self, terminal: &Terminal) -> Result<Result<ProseDocument, Exit>, Failure> {
        let band = match self.one.band(terminal)? {
            Ok(band) => band,
            Err(exit) => return Ok(Err(exit)),
        };
        let said = |reason| Failure::said(format_args!("{}: {reason}", band.file.shown));
        let instructed = self.tying.tying().script(&band.pattern).map_err(said)?;
        say_backward(&band, instructed.mirrored, terminal);
        let options = ProseOptions {
            language: self.tying.language(),
            order: if self.by == TellBy::Rows { Order::Rows } else { Order::Steps },
            mirrored: instructed.mirrored,
        };
        Ok(Ok(write_instructions(&instructed.script, &options)))
    }

    fn wanted(&self, terminal: &Terminal) -> WriteFormat {
        let is_text =
            |path: &PathBuf| path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("txt"));
        match (self.format, &self.output) {
            (Some(format), _) => format,
            (None, Some(path)) if is_text(path) => WriteFormat::Plain,
            (None, None) if terminal.is_seen() => WriteFormat::Plain,
            _ => WriteFormat::Markdown,
        }
    }
}
