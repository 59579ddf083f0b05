//! `knotwright chart`

use crate::bands::OneArguments;
use crate::printed::print_rewritten;
use crate::terminal::{CommandResult, Terminal};
use clap::Args;
use knotwright_checker::{Part, PartKind};
use knotwright_rewriter::NewBody;

/// Write the same band as charts: every step in `rows`
///
/// Before the pattern is printed, it is tied and compared: it is the same band, knot for knot. It goes to standard
/// output; the file stays as it is. To turn a chart into steps, use `knotwright plan`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  knotwright chart tidepool.knot > tidepool-chart.knot\n  \
                        knotwright chart tidepool.knot --part set")]
pub(crate) struct ChartArguments {
    #[command(flatten)]
    input: OneArguments,

    /// Only this part; you can give it more than once. By default, all parts
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
    fn part(self) -> PartKind {
        match self {
            Self::Opening => PartKind::Opening,
            Self::Set => PartKind::Set,
            Self::Closing => PartKind::Closing,
        }
    }
}

pub(crate) fn run(typed: ChartArguments, terminal: &Terminal) -> CommandResult {
    let band = match typed.input.band(terminal)? {
        Ok(band) => band,
        Err(exit) => return Ok(exit),
    };
    band.say_wishes(terminal);
    let named: Vec<PartKind> = typed.part.into_iter().map(PartName::part).collect();
    let is_meant = |(kind, _): &(PartKind, &Part)| named.is_empty() || named.contains(kind);
    if let Some(missing) = named.iter().find(|part| band.pattern.part(**part).is_none()) {
        return Err(crate::terminal::Failure::said(format_args!(
            "{}: it has no `{}`",
            band.file.shown,
            missing.word()
        )));
    }
    let rows = |(kind, part): (PartKind, &Part)| (kind, NewBody::Rows { piece: part.piece.clone() });
    let bodies: Vec<(PartKind, NewBody)> = band.pattern.parts().filter(is_meant).map(rows).collect();
    print_rewritten(&band, &bodies, terminal, &mut terminal.out())
}
