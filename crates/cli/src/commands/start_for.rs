//! `knotwright start-for`

use crate::bands::{BandFile, OneArguments};
use crate::hang::hanging;
use crate::located::{FileLine, step_in_words};
use crate::outcome::Spots;
use crate::terminal::{CommandResult, Exit, Failure, Terminal};
use clap::Args;
use knotwright_band::orders::{one_then, start_for};
use knotwright_checker::{Finding, PartKind, Pattern, Place, Report, Severity, Step};
use knotwright_maker::passage_of;
use knotwright_rewriter::{Original, with_strands, write_list};

/// Find the start: how the strands must hang at the start, to hang as you want after the opening
///
/// Writes the `strands` line, after tying the pattern with it to make sure. If a promise in the pattern names the
/// old colors, it is reported, with exit code 1.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright start-for tidepool.knot 2 foam kelp sand\n  \
                        knotwright start-for tidepool.knot --after set \"foam 2 kelp | mirror\"")]
pub(crate) struct StartForArguments {
    #[command(flatten)]
    input: OneArguments,

    /// How the strands should hang then, from left to right, as in a `strands` line
    #[arg(required = true, value_name = "STRANDS")]
    strands: Vec<String>,

    /// After which part; by default the opening, or the first set if there is no opening
    #[arg(long, value_enum, value_name = "PART")]
    after: Option<After>,
}

/// A part as it is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum After {
    /// After the opening
    Opening,
    /// After the first set
    Set,
}

/// If strands are picked by color, another start ties other knots: the order is followed back at most this often.
const MOST_TRIES: usize = 20;

pub(crate) fn run(typed: StartForArguments, terminal: &Terminal) -> CommandResult {
    let band = match typed.input.band(terminal)? {
        Ok(band) => band,
        Err(exit) => return Ok(exit),
    };
    let shown = &band.file.shown;
    let after = after(&band.pattern, typed.after)
        .map_err(|reason| Failure::said(format_args!("{shown}: {reason}")))?;
    let wanted = hanging(&band, &typed.strands.join(" ")).map_err(Failure::said)?;
    let Some((start, broken)) = found(&band, after, &wanted) else {
        terminal.error(format_args!(
            "{shown}: no start was found that leads there: strands are picked by color, and with each start that was \
             tried they take other ways"
        ));
        return Ok(Exit::Findings);
    };
    let mut out = terminal.out();
    out.write(&format!("strands {}\n", write_list(&band.pattern, &start)))?;
    out.flush()?;
    match broken {
        None => Ok(Exit::Clean),
        Some(message) => {
            terminal.say(format_args!("{shown}: with these strands, a promise no longer holds, {message}"));
            Ok(Exit::Findings)
        }
    }
}

fn after(pattern: &Pattern, typed: Option<After>) -> Result<PartKind, &'static str> {
    let has_opening = pattern.opening.is_some();
    match typed {
        Some(After::Opening) if !has_opening => Err("it has no `opening`"),
        Some(After::Opening) => Ok(PartKind::Opening),
        Some(After::Set) if pattern.set.is_none() => Err("it has no `set`"),
        Some(After::Set) => Ok(PartKind::Set),
        None if has_opening => Ok(PartKind::Opening),
        None if pattern.set.is_some() => Ok(PartKind::Set),
        None => Err("it has neither an `opening` nor a `set`"),
    }
}

/// Where a promise stands: in which part, in which step of the instructions, on which line.
fn spot_of(report: &Report, finding: &Finding) -> String {
    let Place { file, span } = finding.place;
    let is_in = |step: &Step| {
        step.place.file == file && step.place.span.start <= span.start && span.end <= step.place.span.end
    };
    let line = FileLine::of(finding.place, &Spots::new(&report.files));
    let parts = report.pattern.iter().flat_map(Pattern::parts);
    let found =
        parts.filter_map(|(kind, part)| Some((kind, part, part.steps.iter().position(is_in)?))).next();
    let Some((kind, part, at)) = found else { return line.to_string() };
    let numbers = passage_of(part, None).step_numbers();
    format!("in the {}, {}", kind.word(), step_in_words(numbers.get(at).and_then(Option::as_ref), &line))
}

/// The start, by position the thread, and the first promise that does not hold with it and where it stands.
fn found(band: &BandFile, after: PartKind, wanted: &[u16]) -> Option<(Vec<u16>, Option<String>)> {
    let original =
        Original { source: &band.files[0], pattern: &band.pattern, library: &band.file.home.library };
    let mut order = order_after(&band.pattern, after)?;
    for _ in 0..MOST_TRIES {
        let start = start_for(&order, wanted)?;
        let (_, report) = with_strands(original, &start).ok()?;
        let pattern = report.pattern.as_ref()?;
        order = order_after(pattern, after)?;
        if one_then_threads(&start, &order) == wanted {
            let broken = report.findings.iter().find(|finding| finding.severity == Severity::Error);
            let said = |finding: &Finding| format!("{}: {}", spot_of(&report, finding), finding.message);
            return Some((start, broken.map(said)));
        }
    }
    None
}

/// By position after a part (the first set), the strand there.
fn order_after(pattern: &Pattern, after: PartKind) -> Option<Vec<u8>> {
    let start: Vec<u8> = (0..=u8::MAX).take(pattern.strands.len()).collect();
    let parts = pattern.parts().take_while(|(kind, _)| *kind <= after);
    let order = parts.fold(start, |order, (_, part)| one_then(&order, part.piece.order()));
    (order.len() == pattern.strands.len()).then_some(order)
}

fn one_then_threads(start: &[u16], order: &[u8]) -> Vec<u16> {
    order.iter().filter_map(|&strand| start.get(usize::from(strand)).copied()).collect()
}
