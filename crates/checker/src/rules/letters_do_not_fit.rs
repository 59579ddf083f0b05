//! Letters that are higher or longer than the band is wide.

use crate::wording::{both, count, number};
use crate::{Finding, Rule, Severity};
use knotwright_lettering::{HEIGHTS, TooNarrow};
use knotwright_numbers::ToNumber;

pub(crate) static RULE: Rule = Rule {
    name: "letters-do-not-fit",
    severity: Severity::Error,
    tags: &[],
    summary: "The letters of `letters` do not fit between the edges.",
    why: "Each column of a letter is a row of the leader, so letters are as high as the band is wide at most. The \
          leader crosses all strands but itself, and capitals of height 5 need five of these. With `across`, the \
          whole text lies across the band and needs as many strands as it is long. There are letters of the \
          heights 5, 6, 7, 9, 10 and 13; small letters and accents that reach below or above capitals need more \
          strands. Without `height`, the letters are as high as the band allows.",
    example: r#"pattern "Harbor wall"

thread night #1b2440
thread lamp #f2c14e

strands night 7 lamp

set {
  leader left 1 (night) {
    letters "AHOY" height 9
  }
}
"#,
    instead: r#"pattern "Harbor wall"

thread night #1b2440
thread lamp #f2c14e

strands night 7 lamp

set {
  leader left 1 (night) {
    letters "AHOY" height 7
  }
}
"#,
};

pub(super) fn no_height(height: usize) -> Finding {
    let heights: Vec<String> = HEIGHTS.iter().map(ToString::to_string).collect();
    Finding::new(&RULE, format!("There are no letters of height {height}."))
        .help(format!("There are letters of height {}.", both(&heights)))
}

pub(super) fn too_narrow(narrow: &TooNarrow) -> Finding {
    let TooNarrow { height, needs, columns, .. } = *narrow;
    let strands = |of: usize| count(of.to_u64(), "strand");
    let text = if narrow.across { "this text across the band" } else { "this text" };
    let message = format!(
        "In letters of height {height}, {text} needs {} beside the leader, and there are {}.",
        strands(needs),
        number(columns.to_u64())
    );
    let help = match (narrow.fits, narrow.fits_along) {
        (Some(fits), _) => format!("Letters of height {fits} fit."),
        (None, Some(fits)) => {
            format!("Without `across` the text goes along the band, and letters of height {fits} fit.")
        }
        (None, None) => {
            format!(
                "The lowest letters need {} and the leader: hang more in `strands`.",
                strands(narrow.least)
            )
        }
    };
    Finding::new(&RULE, message).help(help)
}
