//! More text than a pattern has.

use crate::{Finding, Rule, Severity, Tag};

pub(crate) static RULE: Rule = Rule {
    name: "file-too-large",
    severity: Severity::Error,
    tags: &[Tag::Limit],
    summary: "The file is larger than 16 MiB.",
    why: "A long pattern has a few hundred lines; 16 MiB would fill a bookshelf. Such a file is something \
          else, or was written by a program that should have used `repeat`. Nothing else in it is checked. \
          (For the same reason this page has no example.)",
    example: "",
    instead: "",
};

pub(super) fn words() -> Finding {
    Finding::new(&RULE, "The file is larger than 16 MiB, and no pattern is that long.").help(
        "Check whether this is a pattern file. Write what comes over and over with `repeat` or a motif.",
    )
}
