//! More text than a pattern has.

use crate::{Finding, Rule, Severity};

pub(crate) static RULE: Rule = Rule {
    name: "file-too-large",
    severity: Severity::Error,
    summary: "The file is larger than 16 MiB.",
    why: "A long pattern has some hundred lines; 16 MiB would be a bookshelf. Such a file is something else, or \
          was written by a program that should have used `repeat`. Nothing else is said of it. (The page shows no \
          example, for the same reason.)",
    example: "",
    instead: "",
};

pub(super) fn words() -> Finding {
    Finding::new(&RULE, "The file is larger than 16 MiB, and no pattern is that long.").help(
        "See whether this is a pattern file. What comes over and over is written with `repeat` or a motif.",
    )
}
