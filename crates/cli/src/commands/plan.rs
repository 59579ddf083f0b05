//! `knotwright plan`

use crate::anew::write_anew;
use crate::bands::{Band, OneArguments};
use crate::planned::Json;
use crate::terminal::{Answer, Exit, Failure, Terminal};
use clap::{Args, ValueEnum};
use knotwright_band::{Piece, plan};
use knotwright_checker::Extent;
use knotwright_maker::Planned;
use knotwright_maker::{Measured, Wish, shared_out};
use knotwright_rewriter::{Body, Part};

/// Write the same band so that strands are picked up as seldom as can be, as a pattern or in words
///
/// A strand that is taken in hand ties as long as it can before it is let go. The pattern that is written was tied
/// again and compared: it is the same band, knot for knot. It comes on standard output; the file stays as it is.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright plan tidepool.knot > tidepool-planned.knot\n  \
                        knotwright plan tidepool.knot --format words\n  knotwright plan tidepool.knot --within 6")]
pub(crate) struct PlanArguments {
    #[command(flatten)]
    input: OneArguments,

    /// No strand goes over more than so many rows at once, so that the band grows evenly
    #[arg(long, value_name = "ROWS", value_parser = clap::value_parser!(u32).range(1..))]
    within: Option<u32>,

    /// Let the other strand tie some knots of the set that lie between two strands of one color, so that no strand
    /// needs more thread than it must: it looks the same, but for the slant of those knots
    #[arg(long)]
    balance: bool,

    /// With `--balance`: change only what costs no further pick-up
    #[arg(long, requires = "balance")]
    keep_pick_ups: bool,

    /// What to write: a pattern, words or JSON (the schema is `plan-1.schema.json`)
    #[arg(long, value_enum, default_value_t, value_name = "FORMAT")]
    format: Format,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum Format {
    /// The pattern file, its parts written anew
    #[default]
    Pattern,
    /// The pick-ups, numbered, with the reason why a strand is picked up again
    Words,
    /// For programs
    Json,
}

pub(crate) fn run(typed: PlanArguments, terminal: &Terminal) -> Answer {
    let PlanArguments { input, within, balance, keep_pick_ups, format } = typed;
    let band = match input.band(terminal)? {
        Ok(band) => band,
        Err(exit) => return Ok(exit),
    };
    let mut planned = Planned::all(&band.pattern, within);
    if balance {
        for of in planned.iter_mut().filter(|of| of.part == Part::Set) {
            if let Some(piece) = balanced(&band, keep_pick_ups) {
                (of.plan, of.piece) = (plan(&piece, within), piece);
            }
        }
    }
    match format {
        Format::Pattern => as_pattern(&band, &planned, within, terminal),
        Format::Words => in_words(&band, &planned, within, terminal),
        Format::Json => {
            let json = Json::new(&band, &planned, within).ok_or_else(|| not_as_planned(&band))?;
            let mut out = terminal.out();
            out.write_json(&json)?;
            out.flush()?;
            Ok(Exit::Clean)
        }
    }
}

fn as_pattern(band: &Band, planned: &[Planned], within: Option<u32>, terminal: &Terminal) -> Answer {
    // What has nothing to gain keeps its words and comments.
    let changed = planned.iter().filter(|planned| within.is_some() || !planned.stays(&band.pattern));
    let bodies: Vec<(Part, Body)> = changed.map(|planned| body(band, planned)).collect::<Result<_, _>>()?;
    let mut out = terminal.out();
    let exit = write_anew(band, &bodies, terminal, &mut out)?;
    if exit == Exit::Clean {
        planned.iter().for_each(|planned| terminal.say(planned.headline()));
    }
    Ok(exit)
}

fn body(band: &Band, planned: &Planned) -> Result<(Part, Body), Failure> {
    planned.body(&band.pattern).map(|body| (planned.part, body)).map_err(|_| not_as_planned(band))
}

fn not_as_planned(band: &Band) -> Failure {
    Failure::said(format_args!(
        "{}: cannot be tied as planned; this is a mistake of this program",
        band.file.shown
    ))
}

fn in_words(band: &Band, planned: &[Planned], within: Option<u32>, terminal: &Terminal) -> Answer {
    let mut out = terminal.out();
    let parts: Vec<String> =
        planned.iter().filter_map(|planned| planned.words(&band.pattern, within)).collect();
    out.write_text(&parts.join("\n"))?;
    out.flush()?;
    Ok(Exit::Clean)
}

/// The set with its knots shared out, if sets are alike.
fn balanced(band: &Band, keep_pick_ups: bool) -> Option<Piece> {
    let known = matches!(band.pattern.extent, Extent::Length(_) | Extent::Sets(_));
    // What is turned is decided by what the rounds use in the long run; how many sets there are does not matter.
    let extent = (!known).then_some(Extent::Sets(1));
    let measured = Measured::new(&band.pattern, Wish { extent, ..Wish::default() }).ok()?;
    shared_out(&measured.pattern, &measured.reckoning, measured.figures, keep_pick_ups)
        .map(|balance| balance.piece)
}
