//! `knotwright chart`

use crate::anew::write_anew;
use crate::bands::OneArguments;
use crate::terminal::{Answer, Terminal};
use clap::Args;
use knotwright_rewriter::{Body, Part};

/// Write the same band as charts: every step in `rows`
///
/// The pattern that is written was tied again and compared: it is the same band, knot for knot. It comes on standard
/// output; the file stays as it is. The way back, from a chart to steps, is `knotwright plan`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright chart tidepool.knot > tidepool-chart.knot\n  \
                        knotwright chart tidepool.knot --part set")]
pub(crate) struct ChartArguments {
    #[command(flatten)]
    input: OneArguments,

    /// Only this part; may be given more than once. Without it, all there are
    #[arg(long, value_enum, value_name = "PART")]
    part: Vec<PartName>,
}

/// A part as it is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum PartName {
    /// What is tied once, at the start
    Opening,
    /// What is tied over and over
    Set,
    /// What is tied once, at the end
    Closing,
}

impl PartName {
    fn part(self) -> Part {
        match self {
            Self::Opening => Part::Opening,
            Self::Set => Part::Set,
            Self::Closing => Part::Closing,
        }
    }
}

pub(crate) fn run(typed: ChartArguments, terminal: &Terminal) -> Answer {
    let band = match typed.input.band(terminal)? {
        Ok(band) => band,
        Err(exit) => return Ok(exit),
    };
    let named: Vec<Part> = typed.part.into_iter().map(PartName::part).collect();
    let is_meant = |part: &Part| named.is_empty() || named.contains(part);
    if let Some(missing) = named.iter().find(|part| part.of(&band.pattern).is_none()) {
        return Err(crate::terminal::Failure::said(format_args!(
            "{}: it has no `{}`",
            band.file.shown,
            missing.word()
        )));
    }
    let rows = |part: Part| part.piece(&band.pattern).map(|piece| (part, Body::Rows { piece }));
    let bodies: Vec<(Part, Body)> = Part::ALL.into_iter().filter(is_meant).filter_map(rows).collect();
    write_anew(&band, &bodies, terminal, &mut terminal.out())
}
