//! Something in `begin` or `finish` that these strands cannot be made into.

use crate::wording::{count, sentence};
use crate::{EndsTrouble, Finding, Rule, Severity};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "end-cannot-be-made",
    severity: Severity::Error,
    tags: &[],
    summary: "A piece of `begin` or `finish` cannot be made of these strands, or not in this place.",
    why: "A plait has 3 to 8 bundles, and each bundle has at least one strand. A split has two parts or more. What hangs \
          free and a loop are at the tip, so nothing lies beyond them: they are first in `begin` and last in `finish`. \
          A bead needs a knot between it and the tip. What closes the band is made when all else is done, of something that is there at both ends.",
    example: r#"pattern "Mooring line"

thread kelp #1f5d50

strands 4 kelp

finish {
  plait 2 for 6 cm
  tassel 2 cm
}

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Mooring line"

thread kelp #1f5d50

strands 4 kelp

finish {
  plait 3 for 6 cm
  tassel 2 cm
}

set { take left 1: forward to edge }
"#,
};

pub(super) fn words(trouble: &EndsTrouble) -> Finding {
    use EndsTrouble as T;
    let said = |message: String| Finding::new(&RULE, message);
    match *trouble {
        T::PlaitBundles { bundles } => plait(bundles),
        T::PlaitStrands { bundles, strands } => said(format!(
            "{} cannot be plaited in {}.",
            sentence(&count(strands.to_u64(), "strand")),
            count(bundles.to_u64(), "bundle")
        ))
        .help(enough(strands)),
        T::TwistOfOne => said("One strand cannot be twisted around itself.".to_owned())
            .help("Leave the `twist` out, or split into fewer parts."),
        T::SplitInOne { parts } => {
            said(format!("A split has two parts or more, not {parts}.")).help("Write `split 2 { ... }`.")
        }
        T::SplitStrands { parts, strands } => said(format!(
            "{} cannot be split into {}.",
            sentence(&count(strands.to_u64(), "strand")),
            count(parts.to_u64(), "part")
        ))
        .help("Split into no more parts than there are strands in this bundle."),
        T::SplitThread { left, right } => {
            said(format!("Strands {left} and {right} are one thread, but lie in different parts of this split."))
                .help("Try the other kind of `pairs` in `start`, or split in `finish`.")
        }
        T::NotAtTip { piece, begin: true } => said(format!("Something is made before this `{piece}`."))
            .help(format!("A `{piece}` is at the tip: write it as the first line of `begin`.")),
        T::NotAtTip { piece, begin: false } => said(format!("Something is made after this `{piece}`."))
            .help(format!("A `{piece}` is at the tip: write it as the last piece of `finish`.")),
        T::TasselAtFold => said("Nothing hangs free where the threads are folded.".to_owned())
            .help("Write `loop ...` in its place, or `start loose`."),
        T::ClosureElsewhere { piece } => said(format!("The band cannot be closed here: `{piece}` comes too early."))
            .help("Write it once, as the last line of `finish`, when both ends are made."),
        T::NothingToClose { piece, begin } => nothing_to_close(piece, begin),
        T::BeadSlipsOff => said("Nothing holds this bead: it slips off at the tip.".to_owned())
            .help("Write `knot` between the bead and the tip: below it in `finish`, above it in `begin`."),
        T::TooManyTurns { turns } => {
            said(format!("Nobody winds {turns} turns.")).help("Write how often the thread goes around, 500 at most.")
        }
        T::TooLong { block, millimeters, most } => said(format!(
            "This end takes {} of every strand, before any knot of the band: more than a skein has ({}, common practice, \
             no source).",
            meters(millimeters),
            meters(most)
        ))
        .help(format!("Check the units of the lengths in `{block}`: `mm`, `cm`, `m` or `in`.")),
    }
}

fn plait(bundles: u32) -> Finding {
    let message = format!("A plait has 3 to 8 bundles, not {bundles}.");
    let help = match bundles {
        2 => "For two bundles, write `twist for ...`.",
        _ => "Write `plait 3 for ...`, or up to 8.",
    };
    Finding::new(&RULE, message).help(help)
}

/// As thread is sold: "8 m", "9.2 m".
fn meters(millimeters: f64) -> String {
    let text = format!("{:.1}", millimeters / 1000.0);
    format!("{} m", text.strip_suffix(".0").unwrap_or(&text))
}

/// What this many strands can be plaited in.
fn enough(strands: usize) -> String {
    match strands {
        0..=2 => "A plait needs three strands or more: write `twist for ...`, or split into fewer parts."
            .to_owned(),
        3 => "Write `plait 3 for ...`.".to_owned(),
        _ => format!("Plait them in {strands} bundles or fewer."),
    }
}

fn nothing_to_close(piece: &str, begin: bool) -> Finding {
    let end = if begin { "beginning" } else { "end" };
    let block = if begin { "begin" } else { "finish" };
    Finding::new(
        &RULE,
        format!("Nothing reaches beyond the knots at the {end}, so `{piece}` has nothing to go around."),
    )
    .help(format!("Write a `plait`, a `twist` or a `tassel` into `{block}`."))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(trouble: EndsTrouble) -> (String, String) {
        let finding = words(&trouble);
        (finding.message, finding.help.unwrap_or_default())
    }

    #[test]
    fn what_was_asked_for_and_what_to_do_is_said() {
        let (message, help) = said(EndsTrouble::PlaitStrands { bundles: 3, strands: 2 });
        assert_eq!(message, "Two strands cannot be plaited in three bundles.");
        assert!(help.starts_with("A plait needs three strands or more: write `twist for ...`"));
        let (message, help) = said(EndsTrouble::PlaitBundles { bundles: 2 });
        assert_eq!(message, "A plait has 3 to 8 bundles, not 2.");
        assert_eq!(help, "For two bundles, write `twist for ...`.");
        let (message, _) = said(EndsTrouble::SplitStrands { parts: 2, strands: 1 });
        assert_eq!(message, "One strand cannot be split into two parts.");
    }

    #[test]
    fn the_tip_is_first_in_begin_and_last_in_finish() {
        let (message, help) = said(EndsTrouble::NotAtTip { piece: "loop", begin: true });
        assert_eq!(message, "Something is made before this `loop`.");
        assert_eq!(help, "A `loop` is at the tip: write it as the first line of `begin`.");
        let (message, help) = said(EndsTrouble::NotAtTip { piece: "tassel", begin: false });
        assert_eq!(message, "Something is made after this `tassel`.");
        assert_eq!(help, "A `tassel` is at the tip: write it as the last piece of `finish`.");
    }

    #[test]
    fn an_end_longer_than_a_skein_is_compared_with_one() {
        let (message, help) =
            said(EndsTrouble::TooLong { block: "finish", millimeters: 9200.0, most: 8000.0 });
        assert!(message.starts_with("This end takes 9.2 m of every strand"), "{message}");
        assert_eq!(help, "Check the units of the lengths in `finish`: `mm`, `cm`, `m` or `in`.");
    }
}
