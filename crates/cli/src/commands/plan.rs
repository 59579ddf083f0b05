//! `knotwright plan`

use crate::bands::{BandFile, OneArguments};
use crate::in_range::at_least;
use crate::planned::PlannedJson;
use crate::printed::print_rewritten;
use crate::terminal::{CommandResult, Exit, Terminal};
use clap::{Args, ValueEnum};
use knotwright_band::{Piece, plan_pick_ups};
use knotwright_checker::{Extent, PartKind};
use knotwright_maker::Planned;
use knotwright_maker::{MeasureOptions, Measured, shared_out};
use knotwright_rewriter::NewBody;

/// Write the same band with the fewest pick-ups, as a pattern or in words
///
/// A strand that you take in hand ties as long as it can before you let it go. Before the pattern is printed, it is
/// tied and compared: it is the same band, knot for knot. It goes to standard output; the file stays as it is.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright plan tidepool.knot > tidepool-planned.knot\n  \
                        knotwright plan tidepool.knot --format words\n  knotwright plan tidepool.knot --within 6")]
pub(crate) struct PlanArguments {
    #[command(flatten)]
    input: OneArguments,

    /// Let no strand tie over more than this many rows at once, so that the band grows evenly
    #[arg(long, value_name = "ROWS", value_parser = at_least(1_u32))]
    within: Option<u32>,

    /// Share the knots of the set that are between two strands of one color, so that no strand needs more thread
    /// than it must. The band looks the same, except for the slant of those knots
    #[arg(long)]
    balance: bool,

    /// With `--balance`: only where it costs no pick-up
    #[arg(long, requires = "balance")]
    keep_pick_ups: bool,

    /// The output: a pattern, words or JSON (the schema is `plan-1.schema.json`)
    #[arg(long, value_enum, default_value_t, value_name = "FORMAT")]
    format: PlanFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum PlanFormat {
    /// The pattern file, with new bodies
    #[default]
    Pattern,
    /// The pick-ups, numbered, with the reason why you pick a strand up again
    Words,
    /// For programs
    Json,
}

pub(crate) fn run(typed: PlanArguments, terminal: &Terminal) -> CommandResult {
    let PlanArguments { input, within, balance, keep_pick_ups, format } = typed;
    let band = match input.band(terminal)? {
        Ok(band) => band,
        Err(exit) => return Ok(exit),
    };
    if !band.has_room(terminal) {
        return Ok(Exit::Findings);
    }
    band.say_wishes(terminal);
    let mut planned = Planned::all(&band.pattern, within);
    if balance {
        for of in planned.iter_mut().filter(|of| of.part == PartKind::Set) {
            if let Some(piece) = balanced(&band, keep_pick_ups) {
                (of.plan, of.piece) = (plan_pick_ups(&piece, within), piece);
            }
        }
    }
    match format {
        PlanFormat::Pattern => as_pattern(&band, &planned, within, terminal),
        PlanFormat::Words => in_words(&band, &planned, within, terminal),
        PlanFormat::Json => {
            let mut out = terminal.out();
            out.write_json(&PlannedJson::new(&band, &planned, within))?;
            out.flush()?;
            Ok(Exit::Clean)
        }
    }
}

fn as_pattern(
    band: &BandFile,
    planned: &[Planned],
    within: Option<u32>,
    terminal: &Terminal,
) -> CommandResult {
    // What has nothing to gain keeps its words and comments.
    let changed = planned.iter().filter(|planned| within.is_some() || !planned.stays(&band.pattern));
    let bodies: Vec<(PartKind, NewBody)> =
        changed.map(|planned| (planned.part, planned.body(&band.pattern))).collect();
    let mut out = terminal.out();
    let exit = print_rewritten(band, &bodies, terminal, &mut out)?;
    if exit == Exit::Clean {
        planned.iter().for_each(|planned| terminal.say(planned.headline()));
    }
    Ok(exit)
}

fn in_words(band: &BandFile, planned: &[Planned], within: Option<u32>, terminal: &Terminal) -> CommandResult {
    let mut out = terminal.out();
    let parts: Vec<String> = planned.iter().map(|planned| planned.words(&band.pattern, within)).collect();
    out.write_text(&parts.join("\n"))?;
    out.flush()?;
    Ok(Exit::Clean)
}

/// The set with its knots shared out, if sets are alike.
fn balanced(band: &BandFile, keep_pick_ups: bool) -> Option<Piece> {
    let known = matches!(band.pattern.extent, Extent::Length(_) | Extent::Sets(_));
    // What is turned is decided by what the rounds use in the long run; how many sets there are does not matter.
    let extent = (!known).then_some(Extent::Sets(1));
    let measured =
        Measured::new(&band.pattern, MeasureOptions { extent, ..MeasureOptions::default() }).ok()?;
    shared_out(measured.pattern, &measured.whole, measured.figures, keep_pick_ups)
        .map(|balance| balance.piece)
}
