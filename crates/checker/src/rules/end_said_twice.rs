//! One end of the band, described in two places.

use crate::{Finding, Place, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "end-said-twice",
    severity: Severity::Error,
    tags: &[],
    summary: "One end of the band is described in two places.",
    why: "Without `begin` and `finish`, `start loop` and `ends` say all there is to say about the ends. A `begin` or a \
          `finish` says it piece by piece, and the cut list is computed from it. If both stand there, they would agree \
          only by chance. With a `begin`, `start` says only which two strands are one thread.",
    example: r#"pattern "Mooring line"

thread kelp #1f5d50

strands 4 kelp
start loop 2 cm pairs mirrored

begin {
  plait 3 for 6 cm
}

set { take left 1: forward to edge }
"#,
    instead: r#"pattern "Mooring line"

thread kelp #1f5d50

strands 4 kelp
start folded pairs mirrored

begin {
  loop 2 cm
  plait 3 for 6 cm
}

set { take left 1: forward to edge }
"#,
};

pub(super) fn round(begin: Place) -> Finding {
    Finding::new(&RULE, "The loop is said here, and what comes before the first knot is said in `begin`.")
        .note(begin, "`begin` is here")
        .help("Write `start folded pairs ...` here, and `loop ...` as the first line of `begin`.")
}

pub(super) fn free(begin: Place, finish: Place) -> Finding {
    Finding::new(&RULE, "`ends` says what is left free, but `begin` and `finish` say it already.")
        .note(begin, "`begin` is here")
        .note(finish, "`finish` is here")
        .help("Leave `ends` out. What hangs free is a `tassel`: first in `begin`, last in `finish`.")
}
